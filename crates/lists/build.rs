//! Turns the reviewed lists into sorted tables, so that nothing is parsed when the program starts.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

#[path = "src/sieve.rs"]
mod sieve;

/// The sentence frames, and the words for their gaps by category. Gives the words.
fn frames() -> Vec<String> {
    let mut out = String::new();
    let read = |file: &str| {
        println!("cargo::rerun-if-changed=data/{file}");
        fs::read_to_string(format!("data/{file}")).unwrap_or_else(|error| panic!("data/{file}: {error}"))
    };
    let (frames, slots, names) = (read("frames.txt"), read("slots.tsv"), read("names.txt"));
    let kept = |text: &str| -> Vec<String> {
        text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).map(ToOwned::to_owned).collect()
    };
    let frames = kept(&frames);
    let mut by_slot: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for line in kept(&slots) {
        let (word, categories) = line.split_once('\t').unwrap_or_else(|| panic!("data/slots.tsv: {line}"));
        for category in categories.split_whitespace() {
            by_slot.entry(category.to_owned()).or_default().push(word.to_owned());
        }
    }
    let childlike: BTreeSet<&String> = by_slot.values().flatten().collect();
    let childlike: Vec<String> = childlike.into_iter().cloned().collect();
    let _ = writeln!(out, "static CHILDLIKE: &str = {:?};", childlike.join("\n"));
    by_slot.insert("Name".to_owned(), kept(&names));
    let _ = writeln!(out, "static FRAMES: [&str; {}] = {frames:?};", frames.len());
    let _ = writeln!(out, "static SLOTS: [(&str, &[&str]); {}] = [", by_slot.len());
    for (slot, words) in &by_slot {
        let _ = writeln!(out, "    ({slot:?}, &{words:?}),");
    }
    let _ = writeln!(out, "];");
    let folder = env::var("OUT_DIR").expect("cargo sets it");
    fs::write(Path::new(&folder).join("frames.rs"), out).expect("the folder of the build can be written to");
    childlike
}

fn main() {
    let mut out = String::new();
    let mut sieve = vec![0u8; 1 << (sieve::BITS - 3)];
    let mut sift = |line: &str| {
        let place = sieve::place(line.bytes());
        sieve[place / 8] |= 1 << (place % 8);
    };
    let lists = [("TURNED_DOWN", &["unfit.tsv", "odd.tsv"][..]), ("UNFIT_SOUNDS", &["unfit-sounds.tsv"])];
    for (name, files) in lists {
        let mut text = String::new();
        for file in files {
            let path = format!("data/{file}");
            println!("cargo::rerun-if-changed={path}");
            text += &fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
            text.push('\n');
        }
        let lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
        // Of the worst words the sounds count, which stand behind them.
        let column = usize::from(name == "UNFIT_SOUNDS");
        let words: BTreeSet<&str> = lines.map(|line| line.split('\t').nth(column).unwrap_or(line)).collect();
        let words: Vec<&str> = words.into_iter().collect();
        words.iter().for_each(|line| sift(line));
        // One text with a line a word: a table of slices would be relocated at every start.
        let _ = writeln!(out, "static {name}: &str = {:?};", words.join("\n"));
    }
    frames().iter().for_each(|word| sift(word));
    let folder = env::var("OUT_DIR").expect("cargo sets it");
    let folder = Path::new(&folder);
    fs::write(folder.join("fit.rs"), out).expect("the folder of the build can be written to");
    fs::write(folder.join("sieve.bin"), sieve).expect("the folder of the build can be written to");
}
