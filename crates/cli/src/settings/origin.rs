//! Where a setting comes from, for people.

use untaught_config::Origin;

use super::from_here;
use crate::output::{Message, path_line};

/// Names the place of a setting.
pub(crate) fn described(origin: &Origin) -> String {
    match origin {
        Origin::CommandLine => "command line".to_owned(),
        Origin::Record => "record".to_owned(),
        Origin::FrontMatter { .. } => "front matter".to_owned(),
        Origin::FileName { path, position } => {
            format!("file name, by {}:{}", path_line(&from_here(path)), position.line)
        }
        Origin::Settings { path, position } => format!("{}:{}", path_line(&from_here(path)), position.line),
        Origin::Editor => "editor".to_owned(),
        Origin::Default => "default".to_owned(),
    }
}

/// What is wrong with a setting of a text, or of no text, with its place.
pub(super) fn placed(origin: &Origin, text: Option<&str>, message: Message) -> Message {
    match origin {
        Origin::FrontMatter { position } => {
            let name = text.unwrap_or_default();
            message.at(&format!("{name}:{}:{}: in the front matter", position.line, position.column))
        }
        Origin::Settings { path, position } => {
            let message = match text {
                Some(text) if !message.has_faults() => message.then(&format!("(for {text})")),
                _ => message,
            };
            message.at(&format!("{}:{}:{}", path_line(&from_here(path)), position.line, position.column))
        }
        Origin::FileName { .. } => {
            let message = message.then(&format!("({})", described(origin)));
            match text {
                Some(text) => message.at(text),
                None => message,
            }
        }
        Origin::CommandLine | Origin::Record | Origin::Editor | Origin::Default => message,
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use untaught::Position;

    use super::*;

    #[test]
    fn a_mistake_is_reported_with_the_place_of_the_setting() {
        let position = Position { line: 3, column: 9 };
        let path: std::sync::Arc<Path> = Path::new("/shelf/untaught.yaml").into();
        let front = Origin::FrontMatter { position };
        let name = Origin::FileName { path: path.clone(), position };
        let settings = Origin::Settings { path, position };
        for (origin, text, report) in [
            (&Origin::CommandLine, Some("a.txt"), "no lesson 9"),
            (&front, Some("a.txt"), "a.txt:3:9: in the front matter: no lesson 9"),
            (&name, Some("a.txt"), "a.txt: no lesson 9 (file name, by /shelf/untaught.yaml:3)"),
            (&settings, Some("a.txt"), "/shelf/untaught.yaml:3:9: no lesson 9 (for a.txt)"),
            (&settings, None, "/shelf/untaught.yaml:3:9: no lesson 9"),
        ] {
            assert_eq!(placed(origin, text, "no lesson 9".to_owned().into()).to_string(), report);
        }
        let faults = [untaught::Fault::new(Position::START, "empty")];
        let message = Message::faults("the scope file cannot be used", "own.yaml", &faults);
        let lines = "the scope file cannot be used\nown.yaml:1:1: empty";
        assert_eq!(placed(&settings, Some("a.txt"), message).to_string(), format!("/shelf/untaught.yaml:3:9: {lines}"));
    }
}
