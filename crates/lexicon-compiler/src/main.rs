//! Compiles the dictionary and writes the packed lexicon, or checks that the one on disk is up to date:
//!
//!     cargo run --release -p untaught-lexicon-compiler            writes crates/lexicon/data/lexicon.bin
//!     cargo run --release -p untaught-lexicon-compiler -- --check exits with 1 if that file differs

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
    let target = Path::new(env!("CARGO_MANIFEST_DIR")).join("../lexicon/data/lexicon.bin");
    let packed = match compile(&Sources::embedded()) {
        Ok(packed) => packed,
        Err(problem) => {
            eprintln!("{problem}");
            return ExitCode::from(2);
        }
    };
    if check {
        let current = fs::read(&target).unwrap_or_default();
        if current == packed {
            println!("the packed lexicon is up to date ({} bytes)", packed.len());
            return ExitCode::SUCCESS;
        }
        eprintln!("the packed lexicon is out of date: run `cargo run --release -p untaught-lexicon-compiler`");
        return ExitCode::FAILURE;
    }
    if let Err(error) = fs::write(&target, &packed) {
        eprintln!("{}: {error}", target.display());
        return ExitCode::from(2);
    }
    println!("wrote {} bytes", packed.len());
    ExitCode::SUCCESS
}
