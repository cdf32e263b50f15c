//! Sound boxes as text and as a picture.

use super::Boxes;

impl Boxes {
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
