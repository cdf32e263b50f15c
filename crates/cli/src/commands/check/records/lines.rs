//! The lines of a stream of records, in batches.

use std::fs::File;
use std::io::{self, BufRead, BufReader, ErrorKind};
use std::path::Path;

/// The longest record that is read, in bytes: no story is so long.
pub(super) const LONGEST: usize = 32 << 20;

/// Records in a batch, at most: so few that the work can be shared even where they are short.
const BATCH: usize = 32;

/// The byte order mark, which some programs put before everything.
pub(super) const MARK: &[u8] = "\u{feff}".as_bytes();

/// A line of a stream.
pub(super) struct Line {
    /// Its number, from 1.
    pub(super) number: usize,
    pub(super) content: LineContent,
}

/// What a line holds.
pub(super) enum LineContent {
    Record(Vec<u8>),
    /// More than [`LONGEST`] bytes, which were not kept.
    TooLong,
    /// The file could not be opened. This is all there is.
    NotOpened(io::Error),
    /// It could not be read. This is the last line.
    NotRead(io::Error),
}

/// Opens a file of records, or standard input for `-`.
pub(super) fn open(path: &Path) -> Lines {
    let mut problem = None;
    let input: Box<dyn BufRead> = if path == Path::new("-") {
        Box::new(io::stdin().lock())
    } else {
        match File::open(path) {
            Ok(file) => Box::new(BufReader::with_capacity(1 << 16, file)),
            Err(error) => {
                problem = Some(LineContent::NotOpened(error));
                Box::new(io::empty())
            }
        }
    };
    Lines { input, problem, number: 0, begun: Vec::new(), is_too_long: false }
}

/// The lines of a stream that are not blank. Those that can be had without waiting for more input come together, so that a sender who
/// waits for an answer gets it.
pub(super) struct Lines {
    input: Box<dyn BufRead>,
    /// To be reported before anything is read.
    problem: Option<LineContent>,
    /// The number of the last whole line.
    number: usize,
    /// The beginning of the next line.
    begun: Vec<u8>,
    is_too_long: bool,
}

impl Iterator for Lines {
    type Item = Vec<Line>;

    fn next(&mut self) -> Option<Vec<Line>> {
        if let Some(content) = self.problem.take() {
            return Some(vec![Line { number: 1, content }]);
        }
        let mut batch = Vec::new();
        while batch.is_empty() {
            let buffer = match self.input.fill_buf() {
                Ok(buffer) => buffer,
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(error) => {
                    let content = LineContent::NotRead(error);
                    batch.push(Line { number: self.number + 1, content });
                    (self.input, self.begun, self.is_too_long) = (Box::new(io::empty()), Vec::new(), false);
                    break;
                }
            };
            if buffer.is_empty() {
                if self.begun.is_empty() && !self.is_too_long {
                    return None;
                }
                batch.extend(end_line(&mut self.number, &mut self.begun, &mut self.is_too_long));
                continue;
            }
            let mut used = 0;
            for piece in buffer.split_inclusive(|byte| *byte == b'\n') {
                used += piece.len();
                let line = piece.strip_suffix(b"\n");
                let more = line.unwrap_or(piece);
                self.is_too_long |= self.begun.len() + more.len() > LONGEST;
                if self.is_too_long {
                    // Nothing of it is kept.
                    self.begun = Vec::new();
                } else {
                    self.begun.extend_from_slice(more);
                }
                if line.is_some() {
                    batch.extend(end_line(&mut self.number, &mut self.begun, &mut self.is_too_long));
                }
                if batch.len() == BATCH {
                    break;
                }
            }
            self.input.consume(used);
        }
        Some(batch)
    }
}

/// Ends a line and begins the next. Blank lines are counted only.
fn end_line(number: &mut usize, begun: &mut Vec<u8>, is_too_long: &mut bool) -> Option<Line> {
    *number += 1;
    let mut line = std::mem::take(begun);
    if std::mem::take(is_too_long) {
        return Some(Line { number: *number, content: LineContent::TooLong });
    }
    if *number == 1 && line.starts_with(MARK) {
        line.drain(..MARK.len());
    }
    (!line.trim_ascii().is_empty()).then_some(Line { number: *number, content: LineContent::Record(line) })
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use super::*;

    /// Gives a piece at each read, as a pipe does.
    struct Pieces(Vec<&'static str>);

    impl Read for Pieces {
        fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
            if self.0.is_empty() {
                return Ok(0);
            }
            let piece = self.0.remove(0);
            if piece == "!" {
                return Err(io::Error::other("the disk is broken"));
            }
            into[..piece.len()].copy_from_slice(piece.as_bytes());
            Ok(piece.len())
        }
    }

    fn batches(pieces: &[&'static str]) -> Vec<Vec<String>> {
        let input = Box::new(BufReader::new(Pieces(pieces.to_vec())));
        let lines = Lines { input, problem: None, number: 0, begun: Vec::new(), is_too_long: false };
        let shown = |Line { number, content }| match content {
            LineContent::Record(bytes) => format!("{number} {}", String::from_utf8(bytes).unwrap()),
            LineContent::TooLong => format!("{number} is too long"),
            LineContent::NotOpened(error) | LineContent::NotRead(error) => format!("{number} {error}"),
        };
        lines.map(|batch| batch.into_iter().map(shown).collect()).collect()
    }

    #[test]
    fn whole_lines_do_not_wait_for_the_rest_of_the_next() {
        assert_eq!(batches(&[]), Vec::<Vec<String>>::new());
        assert_eq!(batches(&["\n \n\r\n"]), Vec::<Vec<String>>::new());
        assert_eq!(
            batches(&["\u{feff}a\nb\nc", "c", "c\n", "\n\n\u{feff}d\ne"]),
            [vec!["1 a", "2 b"], vec!["3 ccc"], vec!["6 \u{feff}d"], vec!["7 e"]]
        );
        assert_eq!(batches(&["a\nb", "!", "c\n"]), [vec!["1 a"], vec!["2 the disk is broken"]]);
        assert_eq!(batches(&["a", "!"]), [["1 the disk is broken"]]);
    }

    #[test]
    fn a_batch_has_only_so_many() {
        let sizes: Vec<usize> = batches(&["a\n".repeat(70).leak(), "b\n"]).iter().map(Vec::len).collect();
        assert_eq!(sizes, [32, 32, 6, 1]);
    }
}
