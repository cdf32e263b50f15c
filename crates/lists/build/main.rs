//! Turns the data of the crate into tables that the program reads in place: nothing is parsed when it starts.

mod ages;
#[path = "../src/word_list/bloom.rs"]
mod bloom;
mod contexts;
mod fitness;
mod sentences;
mod swaps;
mod word_codes;
mod word_lists;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

use flate2::Compression;
use flate2::write::DeflateEncoder;
use word_lists::WordLists;

fn main() {
    let mut lists = WordLists::default();
    let fitness = fitness::read();
    fitness.write(&mut lists);
    ages::write(&mut lists);
    sentences::write(&mut lists);
    lists.write();
    swaps::write(&fitness);
    contexts::write(&fitness);
}

/// The lines of a file under `data` that are neither empty nor comments.
fn lines(file: &str) -> Vec<String> {
    let path = Path::new("data").join(file);
    println!("cargo::rerun-if-changed={}", path.display());
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).map(ToOwned::to_owned).collect()
}

/// Writes a text for the crate to include, deflated.
fn generate_deflated(name: &str, text: impl AsRef<[u8]>) {
    let mut deflater = DeflateEncoder::new(Vec::new(), Compression::best());
    let deflated = deflater.write_all(text.as_ref()).and_then(|()| deflater.finish());
    generate(name, deflated.expect("a vector can be written to"));
}

/// Writes a file for the crate to include.
fn generate(name: &str, contents: impl AsRef<[u8]>) {
    let folder = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets it"));
    fs::write(folder.join(name), contents).expect("the folder of the build can be written to");
}
