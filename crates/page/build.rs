//! Joins the page's modules into one script, and packs script and styles as they go over the wire.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

/// What the script is joined of, in the order in which the modules use each other.
const MODULES: [&str; 27] = [
    "dom",
    "ipa",
    "engine",
    "desk",
    "edit",
    "marks",
    "pieces",
    "curve",
    "word",
    "bank",
    "plan",
    "untaught",
    "notes",
    "title",
    "long",
    "files",
    "memory",
    "project",
    "scope",
    "draft",
    "pick",
    "find-lesson",
    "lesson-row",
    "scope-editor",
    "sheets",
    "lists",
    "main",
];

fn main() {
    let web = Path::new("web");
    println!("cargo::rerun-if-changed=web");
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR"));
    let read = |name: &str| fs::read_to_string(web.join(name)).unwrap_or_else(|error| panic!("web/{name}: {error}"));
    let files = fs::read_dir(web).expect("the page is in the folder web").flatten();
    let modules = files.filter(|file| file.path().extension().is_some_and(|extension| extension == "js"));
    assert_eq!(modules.count(), MODULES.len(), "a module in the folder web is not joined: name it in build.rs");
    let script: String = MODULES.iter().map(|name| bare(&read(&format!("{name}.js")))).collect();
    fs::write(out.join("page.js.gz"), packed(&script)).expect("OUT_DIR can be written");
    // The typeface is in the styles, so that the page is one file.
    let font = fs::read(web.join("beginner.woff2")).expect("the typeface is in the folder web");
    let styles =
        read("page.css").replace("beginner.woff2", &format!("data:font/woff2;base64,{}", STANDARD.encode(font)));
    fs::write(out.join("page.css.gz"), packed(&styles)).expect("OUT_DIR can be written");
    fs::write(out.join("page.css"), styles).expect("OUT_DIR can be written");
    fs::write(out.join("page.js"), script).expect("OUT_DIR can be written");
}

/// A module without its imports and exports.
fn bare(module: &str) -> String {
    let mut out = String::new();
    for line in module.lines().filter(|line| !line.starts_with("import ")) {
        out += line.strip_prefix("export ").unwrap_or(line);
        out.push('\n');
    }
    out
}

fn packed(text: &str) -> Vec<u8> {
    let mut packer = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    packer.write_all(text.as_bytes()).and_then(|()| packer.finish()).expect("memory can be written")
}
