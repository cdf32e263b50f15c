//! Sound boxes: one box a sound, with the letters that spell it.

use untaught::Reading;
use untaught_phonics::SoundKind;

/// One box.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SoundBox {
    /// The letters in it; of a split spelling the first, its e stands elsewhere.
    pub letters: String,
    /// Its sounds in IPA: two for `x` and `qu`, one for any other.
    pub sounds: Vec<String>,
    /// The e of a split spelling that stands after this box without a box of its own.
    pub silent_e: bool,
    /// The number of the box with whose letters that e makes one spelling.
    pub joined_to: Option<usize>,
}

/// The boxes of a word.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Boxes {
    /// The word.
    pub word: String,
    /// Its boxes in order.
    pub boxes: Vec<SoundBox>,
    /// How many sounds it has.
    pub sounds: usize,
    /// What is to be said about it: `x` spells two sounds.
    pub note: Option<String>,
}

/// The boxes of a word read so; none if a part of it is irregular or its letters are not those of its parts.
#[must_use]
pub fn boxes(word: &str, reading: &Reading) -> Option<Boxes> {
    let mut boxes: Vec<SoundBox> = Vec::new();
    let mut rest = word;
    // The split spelling whose e has not come yet.
    let mut waiting: Option<usize> = None;
    let mut notes = Vec::new();
    for (at, part) in reading.parts.iter().enumerate() {
        let id = part.id()?.get().sound;
        if !crate::sounds::is_tapped(id) {
            return None;
        }
        let sound = id.get();
        let spelling = part.spelling();
        let letters = spelling.split('_').next().unwrap_or(spelling);
        rest = rest.strip_prefix(letters)?;
        let sounds: Vec<String> = match sound.kind {
            SoundKind::Cluster => {
                let names = sound.name.split(' ').filter_map(untaught_phonics::SoundId::named);
                names.map(|sound| sound.get().ipa[0].to_owned()).collect()
            }
            _ => vec![sound.ipa[0].to_owned()],
        };
        if let [one, two] = sounds.as_slice() {
            notes.push(format!("{letters} spells two sounds, /{one}/ and /{two}/"));
        }
        boxes.push(SoundBox { letters: letters.to_owned(), sounds, silent_e: false, joined_to: None });
        if spelling.contains('_') {
            waiting = Some(at);
        } else if let Some(split) = waiting {
            let next = reading.parts.get(at + 1).map(|part| part.spelling().split('_').next().unwrap_or_default());
            let follows = next.is_some_and(|letters| rest.starts_with(letters));
            if let Some(after) = rest.strip_prefix('e').filter(|_| !follows) {
                rest = after;
                waiting = None;
                if let Some(last) = boxes.last_mut() {
                    (last.silent_e, last.joined_to) = (true, Some(split));
                }
            }
        }
    }
    let note = (!notes.is_empty()).then(|| notes.join("; "));
    (rest.is_empty() && waiting.is_none()).then(|| Boxes {
        word: word.to_owned(),
        boxes,
        sounds: reading.sounds(),
        note,
    })
}

impl Boxes {
    /// Empty boxes for the board.
    #[must_use]
    pub fn blank(count: usize) -> Boxes {
        let empty = SoundBox { letters: String::new(), sounds: vec![String::new()], silent_e: false, joined_to: None };
        Boxes { word: String::new(), boxes: vec![empty; count], sounds: count, note: None }
    }

    /// The boxes drawn with letters and lines: three lines, and a fourth where a split spelling is joined.
    #[must_use]
    pub fn text(&self) -> String {
        let (mut top, mut middle, mut bottom) = (String::from("┌"), String::from("│"), String::from("└"));
        // Columns of the middle of each box, and of each silent e.
        let mut centres = Vec::new();
        let mut arcs = Vec::new();
        for (number, one) in self.boxes.iter().enumerate() {
            // A spelling of two sounds has two boxes' width.
            let width = (one.letters.chars().count() + 2).max(5 * one.sounds.len() + one.sounds.len() - 1);
            centres.push(middle.chars().count() + width / 2);
            let last = number + 1 == self.boxes.len();
            let line = "─".repeat(width);
            top += &line;
            bottom += &line;
            middle += &format!("{:^width$}", one.letters);
            if one.silent_e {
                top += "┐ ";
                middle += "│e";
                bottom += "┘ ";
                if let Some(from) = one.joined_to {
                    arcs.push((centres[from], middle.chars().count() - 1));
                }
                if !last {
                    top += "┌";
                    middle += "│";
                    bottom += "└";
                }
            } else {
                top += if last { "┐" } else { "┬" };
                middle += "│";
                bottom += if last { "┘" } else { "┴" };
            }
        }
        let mut out = format!("{}\n{}\n{}\n", top.trim_end(), middle.trim_end(), bottom.trim_end());
        for (from, to) in arcs {
            out += &format!("{}╰{}╯\n", " ".repeat(from), "─".repeat(to - from - 1));
        }
        out
    }

    /// The boxes as a drawing: one `svg` element, 64 units a box.
    #[must_use]
    pub fn svg(&self) -> String {
        const SIDE: usize = 64;
        let mut body = String::new();
        let mut x = 2;
        let mut centres = Vec::new();
        for one in &self.boxes {
            let width = SIDE * one.sounds.len();
            centres.push(x + width / 2);
            body += &format!("<rect x=\"{x}\" y=\"2\" width=\"{width}\" height=\"{SIDE}\" rx=\"6\"/>");
            body += &format!("<text x=\"{}\" y=\"45\">{}</text>", x + width / 2, escaped(&one.letters));
            if one.sounds.len() == 2 {
                // Two sounds: a dashed line parts the box below the letters.
                let middle = x + width / 2;
                body += &format!("<path d=\"M{middle} 52 V{}\" stroke-dasharray=\"3 3\"/>", SIDE + 2);
            }
            x += width;
            if one.silent_e {
                body += &format!("<text x=\"{}\" y=\"45\">e</text>", x + 16);
                if let Some(from) = one.joined_to {
                    let (from, to, y) = (centres[from], x + 16, SIDE + 4);
                    body += &format!("<path d=\"M{from} {y} C{from} {0} {to} {0} {to} 52\"/>", y + 22);
                }
                x += 32;
            }
        }
        // Room below only for the line that joins a split spelling.
        let joined = self.boxes.iter().any(|one| one.joined_to.is_some());
        let (width, height) = (x + 2, if joined { SIDE + 22 } else { SIDE + 4 });
        let name = if self.word.is_empty() {
            format!("{} empty sound boxes", self.sounds)
        } else {
            format!("sound boxes of {}", self.word)
        };
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" \
             role=\"img\" aria-label=\"{}\"><g fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\" \
             font-family=\"sans-serif\" font-size=\"30\" text-anchor=\"middle\">{}</g></svg>",
            escaped(&name),
            body.replace("<text ", "<text fill=\"currentColor\" stroke=\"none\" ")
        )
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use untaught::Reader;

    fn of(word: &str) -> Boxes {
        let reader = Reader::default();
        boxes(word, &reader.read(word).readings[0]).unwrap_or_else(|| panic!("{word}"))
    }

    /// Common practice, no source.
    #[test]
    fn sounds_are_counted_as_children_tap_them() {
        let words = ["chop", "box", "thick", "spring", "chill", "badge", "make", "rain", "car", "jumped"];
        let counted: Vec<usize> = words.iter().map(|word| of(word).sounds).collect();
        assert_eq!(counted, [3, 4, 3, 5, 3, 3, 3, 3, 2, 5]);
        let reader = Reader::default();
        // One letter of it spells two sounds that nobody taps apart.
        assert!(boxes("one", &reader.read("one").readings[0]).is_none());
    }

    #[test]
    fn boxes_hold_letters_and_join_split_spellings() {
        assert_eq!(of("ship").text(), "┌─────┬─────┬─────┐\n│ sh  │  i  │  p  │\n└─────┴─────┴─────┘\n");
        assert_eq!(
            of("cake").text(),
            "┌─────┬─────┬─────┐\n│  c  │  a  │  k  │e\n└─────┴─────┴─────┘\n         ╰─────────╯\n"
        );
        assert_eq!(of("box").note.as_deref(), Some("x spells two sounds, /k/ and /s/"));
        let letters = |word: &str| of(word).boxes.iter().map(|b| b.letters.clone()).collect::<Vec<_>>().join(" ");
        assert_eq!(letters("likes"), "l i k s");
        assert_eq!(letters("house"), "h ou se");
        assert!(of("likes").boxes[2].silent_e);
        assert_eq!(Boxes::blank(3).text().lines().next(), Some("┌─────┬─────┬─────┐"));
    }

    #[test]
    fn drawings_are_well_formed() {
        let svg = of("box").svg();
        assert_eq!(svg.matches("<rect").count(), 3);
        assert_eq!(svg.matches("<svg").count(), svg.matches("</svg>").count());
        assert!(of("cake").svg().contains(">e</text>"));
    }
}
