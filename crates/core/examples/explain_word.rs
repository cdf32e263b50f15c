//! Explains words: how each is cut into spellings and sounds, what it needs, and when it can be read.

use untaught::{Judge, Reader, Scope};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).ok_or("there is no such scope")?;
    let judge = Judge::new(&reader, &scope);

    for word in ["night", "hoping", "said"] {
        // An explanation can also be serialised: `untaught explain --format json` prints a list of them.
        let explained = judge.explain(word);
        println!("{word}: {}", explained.when());
        // A word can have several readings, such as the two of *read*. The one that counts comes first.
        for reading in &explained.readings {
            println!("  /{}/", reading.ipa);
            for part in &reading.parts {
                println!("    {} /{}/ needs {}", part.spelling, part.ipa, part.pattern);
            }
        }
    }

    let night = judge.explain("night");
    let cut: Vec<&str> = night.readings[0].parts.iter().map(|part| part.spelling.as_str()).collect();
    assert_eq!(cut, ["n", "igh", "t"]);
    Ok(())
}
