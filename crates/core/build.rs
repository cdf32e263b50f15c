//! Packs the built-in scope files, so that the program does not parse YAML when it starts. A file that is not well formed
//! stops the build; the tests check the rest.

use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

use serde::Deserialize;

const FOLDER: &str = "scope-files";
const NAMES: [&str; 4] = ["starter", "england-years-1-2", "common-core-k-3", "dolch"];

#[derive(Deserialize)]
struct File {
    title: String,
    accent: Option<String>,
    about: Option<String>,
    source: Option<String>,
    age: Option<u8>,
    lessons: Vec<Lesson>,
}

#[derive(Deserialize)]
struct Lesson {
    id: Option<String>,
    #[serde(default)]
    title: String,
    #[serde(default)]
    teach: Vec<String>,
    #[serde(default)]
    sight: Vec<String>,
    #[serde(default)]
    skills: Vec<String>,
    #[serde(default)]
    review: Vec<String>,
}

fn main() {
    let mut out = format!("static PACKED: [PackedScope; {}] = [\n", NAMES.len());
    for name in NAMES {
        let path = format!("{FOLDER}/{name}.yaml");
        println!("cargo::rerun-if-changed={path}");
        let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
        let file: File = serde_yaml::from_str(&text).unwrap_or_else(|error| panic!("{path}: {error}"));
        let File { title, accent, about, source, age, lessons } = file;
        let _ = writeln!(
            out,
            "PackedScope {{ name: {name:?}, text: {text:?}, title: {title:?}, accent: {accent:?}, about: {about:?}, source: {source:?}, age: {age:?}, lessons: &["
        );
        for Lesson { id, title, teach, sight, skills, review } in lessons {
            let _ = writeln!(
                out,
                "PackedLesson {{ id: {id:?}, title: {title:?}, teach: &{teach:?}, sight: &{sight:?}, skills: &{skills:?}, \
                 review: &{review:?} }},"
            );
        }
        out.push_str("] },\n");
    }
    out.push_str("];\n");
    write("scopes.rs", &out);
}

fn write(name: &str, text: &str) {
    let target = Path::new(&env::var("OUT_DIR").expect("cargo sets OUT_DIR")).join(name);
    fs::write(target, text).expect("the build folder can be written");
}
