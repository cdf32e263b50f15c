//! Makes the page as one file that works offline: the library is compiled to WebAssembly, packed, and put into the page.
//!
//! `cargo run -p untaught-page --example single_file [FILE]` writes `target/untaught.html`, or the file that is named.
//!
//! It needs a compiler for WebAssembly: `rustup target add wasm32-unknown-unknown`; or, where no target can be downloaded, Debian's
//! packages `rustc-web cargo-web rust-web-src lld-19`.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

const TARGET: &str = "wasm32-unknown-unknown";
const LIBRARY: &str = "wasm32-unknown-unknown/page/untaught_page_wasm.wasm";

fn main() -> ExitCode {
    match run() {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("single_file: {problem}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<String, String> {
    let workspace = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| workspace.join("target"), PathBuf::from);
    let out = std::env::args_os().nth(1).map_or_else(|| target.join("untaught.html"), PathBuf::from);
    let library = compiled(&workspace, &target)?;
    let packed = gzip(&library).map_err(|error| format!("the library cannot be packed: {error}"))?;
    let hash = format!("sha256-{}", STANDARD.encode(Sha256::digest(untaught_page::web::SCRIPT.as_bytes())));
    let page = untaught_page::web::single_file(&STANDARD.encode(&packed), &hash);
    std::fs::write(&out, &page).map_err(|error| format!("{} cannot be written: {error}", out.display()))?;
    Ok(format!(
        "{}: {} bytes, of these {} the library, unpacked {}",
        out.display(),
        page.len(),
        packed.len().div_ceil(3) * 4,
        library.len()
    ))
}

/// The library, compiled by whichever compiler for WebAssembly there is.
fn compiled(workspace: &Path, target: &Path) -> Result<Vec<u8>, String> {
    let mut build = if has_target() { Command::new("cargo") } else { debian()? };
    build.current_dir(workspace).arg("build").args(["--locked", "--profile", "page", "-p", "untaught-page-wasm"]);
    build.args(["--target", TARGET, "--target-dir"]).arg(target);
    let status = build.status().map_err(|error| format!("cargo cannot be run: {error}"))?;
    if !status.success() {
        return Err("the library could not be compiled to WebAssembly".to_owned());
    }
    let library = target.join(LIBRARY);
    std::fs::read(&library).map_err(|error| format!("{} cannot be read: {error}", library.display()))
}

/// Whether the usual compiler has the target.
fn has_target() -> bool {
    let output = Command::new("rustc").args(["--print", "target-libdir", "--target", TARGET]).output();
    output.is_ok_and(|output| Path::new(String::from_utf8_lossy(&output.stdout).trim()).is_dir())
}

/// Debian's compiler, which compiles the standard library too.
fn debian() -> Result<Command, String> {
    let linker = "/usr/bin/wasm-ld-19";
    if ![linker, "/usr/bin/cargo", "/usr/bin/rustc"].iter().all(|program| Path::new(program).exists()) {
        return Err(format!(
            "there is no compiler for WebAssembly; run `rustup target add {TARGET}`, or on Debian `apt install rustc-web cargo-web \
             rust-web-src lld-19`"
        ));
    }
    let mut cargo = Command::new("/usr/bin/cargo");
    cargo.env("RUSTC", "/usr/bin/rustc").env("RUSTC_BOOTSTRAP", "1");
    cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker).env_remove("RUSTUP_TOOLCHAIN");
    cargo.arg("-Zbuild-std=std,panic_abort");
    Ok(cargo)
}

fn gzip(bytes: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut packer = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    packer.write_all(bytes)?;
    packer.finish()
}
