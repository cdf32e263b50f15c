//! Compiles the dictionary and writes the packed lexicon, or checks that the one on disk is up to date:
//!
//!     cargo run --release -p untaught-lexicon-compiler            writes crates/lexicon/data
//!     cargo run --release -p untaught-lexicon-compiler -- --check exits with 1 if a file there differs

use std::path::Path;
use std::process::ExitCode;
use std::{env, fs};

use untaught_lexicon_compiler::{Sources, compile};

fn main() -> ExitCode {
    let check = match env::args().skip(1).collect::<Vec<_>>().as_slice() {
        [] => false,
        [flag] if flag == "--check" => true,
        _ => {
            eprintln!("usage: untaught-lexicon-compiler [--check]");
            return ExitCode::from(2);
        }
    };
    let packed = match compile(&Sources::embedded()) {
        Ok(packed) => packed,
        Err(problem) => {
            eprintln!("{problem}");
            return ExitCode::from(2);
        }
    };
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../lexicon/data");
    for (name, bytes) in [("lexicon.bin", &packed.lexicon), ("accents.bin", &packed.accents)] {
        let target = folder.join(name);
        if check {
            if fs::read(&target).unwrap_or_default() != *bytes {
                eprintln!("{name} is out of date: run `cargo run --release -p untaught-lexicon-compiler`");
                return ExitCode::FAILURE;
            }
            println!("{name} is up to date ({} bytes)", bytes.len());
        } else if let Err(error) = fs::write(&target, bytes) {
            eprintln!("{}: {error}", target.display());
            return ExitCode::from(2);
        } else {
            println!("{name}: {} bytes", bytes.len());
        }
    }
    ExitCode::SUCCESS
}
