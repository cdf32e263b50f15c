//! Turns the two readable tables in `data/` into static tables, so that nothing is parsed when a program starts.
//! A mistake in a table stops the build with the file and line.

use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

const PHONES: &str = include_str!("data/phones.txt");

struct Sound {
    name: String,
    heard: Vec<String>,
}

fn main() {
    println!("cargo::rerun-if-changed=data");
    let phones: Vec<&str> = PHONES.split_whitespace().collect();
    let mut out = String::new();
    let sounds = write_sounds(&mut out, &phones);
    write_correspondences(&mut out, &sounds, &phones);
    let data = ["sounds.tsv", "catalogue.tsv"].map(|file| fs::read(Path::new("data").join(file)).unwrap_or_default());
    let _ = writeln!(
        out,
        "/// A number that is another for another catalogue: by it, builds are told apart.\npub const CATALOGUE_FINGERPRINT: u32 = {:#x};",
        fingerprint(data.iter().flatten())
    );
    let target = Path::new(&env::var("OUT_DIR").expect("cargo sets OUT_DIR")).join("tables.rs");
    fs::write(target, out).expect("the build folder can be written");
}

/// FNV-1a, the same however lines end.
fn fingerprint<'b>(bytes: impl Iterator<Item = &'b u8>) -> u32 {
    let bytes = bytes.filter(|byte| **byte != b'\r');
    bytes.fold(0x811c_9dc5, |state: u32, byte| (state ^ u32::from(*byte)).wrapping_mul(0x0100_0193))
}

/// Calls `row` with the location (`file:line`) and the columns of each line except the heading and comments.
fn rows(file: &str, mut row: impl FnMut(&str, Vec<&str>)) {
    let text = fs::read_to_string(Path::new("data").join(file)).unwrap_or_else(|e| panic!("data/{file}: {e}"));
    let lines = text.lines().enumerate().filter(|(_, line)| !line.starts_with('#') && !line.is_empty());
    for (number, line) in lines.skip(1) {
        row(&format!("data/{file}:{}", number + 1), line.split('\t').collect());
    }
}

fn write_sounds(out: &mut String, phones: &[&str]) -> Vec<Sound> {
    let mut sounds: Vec<Sound> = Vec::new();
    let mut table = String::new();
    rows("sounds.tsv", |place, columns| {
        let [name, ipa, southern, northern, key, kind, heard] = columns[..] else {
            panic!("{place}: seven columns expected")
        };
        assert!(sounds.iter().all(|s| s.name != name), "{place}: duplicate sound {name}");
        let kind = match kind {
            "short" => "Short",
            "long" => "Long",
            "other" => "Other",
            "r" => "R",
            "weak" => "Weak",
            "consonant" => "Consonant",
            "cluster" => "Cluster",
            _ => panic!("{place}: unknown kind of sound: {kind}"),
        };
        let ipa: Vec<&str> = ipa.split('|').collect();
        // AX is the usual symbol for schwa; the dictionary's base symbol for it is AH.
        let base = name.replace("AX", "AH");
        let (southern, british_key) = southern.split_once(' ').unwrap_or((southern, key));
        let southern = if southern.is_empty() { ipa[0] } else { southern };
        let northern = if northern.is_empty() { southern } else { northern };
        let _ = writeln!(
            table,
            "    Sound {{ name: {name:?}, arpabet: {base:?}, ipa: &{ipa:?}, british: [{southern:?}, {northern:?}], \
             keys: [{key:?}, {british_key:?}], kind: SoundKind::{kind} }},"
        );
        let heard: Vec<String> = heard.split(',').filter(|h| !h.is_empty()).map(str::to_owned).collect();
        heard.iter().for_each(|h| drop(heard_literal(place, h, phones)));
        sounds.push(Sound { name: name.to_owned(), heard });
    });
    let _ = writeln!(out, "/// Every sound, in the order of `data/sounds.tsv`.");
    let _ = writeln!(out, "pub static SOUNDS: [Sound; {}] = [\n{table}];", sounds.len());
    sounds
}

fn write_correspondences(out: &mut String, sounds: &[Sound], phones: &[&str]) {
    let mut seen: Vec<(String, usize)> = Vec::new();
    let mut table = String::new();
    rows("catalogue.tsv", |place, mut columns| {
        assert!((4..=6).contains(&columns.len()), "{place}: four to six columns expected");
        columns.resize(6, "");
        let [spelling, sound, key, grade, at, also] = columns[..] else { unreachable!() };
        let id = sounds
            .iter()
            .position(|s| s.name == sound)
            .unwrap_or_else(|| panic!("{place}: sounds.tsv has no sound {sound}"));
        let legal = |c: char| c.is_ascii_lowercase() || c == '_';
        assert!(!spelling.is_empty() && spelling.chars().all(legal), "{place}: {spelling} is not a spelling");
        let entry = (spelling.to_owned(), id);
        assert!(!seen.contains(&entry), "{place}: duplicate correspondence {spelling} {sound}");
        seen.push(entry);
        let grade = match grade {
            "everyday" => "Everyday",
            "common" => "Common",
            "rare" => "Rare",
            "odd" => "Odd",
            _ => panic!("{place}: unknown grade: {grade}"),
        };
        let mut heard: Vec<String> = sounds[id].heard.clone();
        heard.extend(also.split(',').filter(|a| !a.is_empty()).map(str::to_owned));
        let heard: Vec<String> = heard.iter().map(|h| heard_literal(place, h, phones)).collect();
        let _ = writeln!(
            table,
            "    Correspondence {{ spelling: {spelling:?}, sound: SoundId({id}), key: {key:?}, grade: Grade::{grade}, \
             context: {}, heard: &[{}] }},",
            context_literal(place, at),
            heard.join(", ")
        );
    });
    let _ = writeln!(out, "/// Every correspondence, in the order of `data/catalogue.tsv`.");
    let _ = writeln!(out, "pub static CORRESPONDENCES: [Correspondence; {}] = [\n{table}];", seen.len());
    let mut by_spelling: Vec<usize> = (0..seen.len()).collect();
    by_spelling.sort_by_key(|id| &seen[*id].0);
    let _ = writeln!(out, "/// The indices of the correspondences, sorted by spelling.");
    let _ = writeln!(out, "static BY_SPELLING: [u16; {}] = {by_spelling:?};", seen.len());
}

/// `UH(R)`: the phone UH, but only before R.
fn heard_literal(place: &str, text: &str, phones: &[&str]) -> String {
    let number =
        |name: &str| phones.iter().position(|p| *p == name).unwrap_or_else(|| panic!("{place}: unknown phone: {name}"));
    let (text, next) = match text.split_once('(') {
        Some((text, next)) => (text, format!("Some(Phone({}))", number(next.trim_end_matches(')')))),
        None => (text, "None".to_owned()),
    };
    let list: Vec<String> = text.split(' ').map(|p| format!("Phone({})", number(p))).collect();
    format!("Transcription {{ phones: &[{}], next: {next} }}", list.join(", "))
}

fn context_literal(place: &str, text: &str) -> String {
    let mut flags = vec!["start", "end", "open", "closed", "mute", "american", "british"]
        .into_iter()
        .map(|f| (f, false))
        .collect::<Vec<_>>();
    let (mut before, mut after) = (0u32, 0u32);
    let mask = |letters: &str| letters.bytes().fold(0, |m, b| m | 1 << (b - b'a'));
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        if let Some(letters) = word.strip_prefix("before=") {
            before = mask(letters);
        } else if let Some(letters) = word.strip_prefix("after=") {
            after = mask(letters);
        } else {
            let flag = flags.iter_mut().find(|(f, _)| *f == word);
            flag.unwrap_or_else(|| panic!("{place}: unknown position: {word}")).1 = true;
        }
    }
    let flags: Vec<String> = flags.iter().map(|(f, on)| format!("{f}: {on}")).collect();
    format!("Context {{ {}, before: {before}, after: {after} }}", flags.join(", "))
}
