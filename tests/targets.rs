//! A target that Cargo.toml keeps from being built for tests has none: a test written there would never run.

use std::fs;
use std::path::{Path, PathBuf};

/// Every file of Rust code in a folder, at whatever depth.
fn code(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let files = entries.flat_map(|path| if path.is_dir() { code(&path) } else { vec![path] });
    files.filter(|path| path.extension().is_some_and(|extension| extension == "rs")).collect()
}

#[test]
fn what_is_not_built_for_tests_has_no_tests() {
    let mut looked_at = 0;
    for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates")).unwrap() {
        let package = entry.unwrap().path();
        let manifest = fs::read_to_string(package.join("Cargo.toml")).unwrap();
        let off = |line: &str| manifest.lines().any(|other| other == line);
        for (switched_off, mark) in
            [(off("test = false"), "#[test]"), (off("doctest = false"), "//! ```"), (off("doctest = false"), "/// ```")]
        {
            let files = if switched_off { code(&package.join("src")) } else { Vec::new() };
            looked_at += files.len();
            let lost: Vec<PathBuf> =
                files.into_iter().filter(|file| fs::read_to_string(file).unwrap().contains(mark)).collect();
            assert_eq!(lost, Vec::<PathBuf>::new(), "{mark} here is not run: see the package's Cargo.toml");
        }
    }
    assert!(looked_at > 50, "{looked_at}");
}
