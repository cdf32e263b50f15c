//! The archives that office documents and e-books are. Nothing is ever unpacked to a disk: the names inside are only looked up.

use std::io::{Cursor, Read as _};

use memchr::memmem;
use zip::ZipArchive;
use zip::result::ZipError;

use crate::Problem;

/// How many files an archive may have.
const MAX_ENTRIES: usize = 10_000;
/// How many ends of a directory may be in an archive: its own, and those of archives that lie in it unpacked. At each of them, the
/// library tries to read a directory until it finds a whole one.
const MAX_ENDS: usize = 100;
/// How much is unpacked of one archive, all in all.
const MAX_TOTAL: u64 = 64 << 20;
/// How many bytes may come out of each byte of the archive: documents hardly get beyond half of this.
const TOTAL_RATIO: u64 = 25;
/// What may come out of any archive, however small.
const ANY_TOTAL: u64 = 8 << 20;
/// How many bytes may come out of each byte of a file in it.
const MAX_RATIO: u64 = 200;
/// What may come out of any file, however small it is packed.
const ANY_RATIO: u64 = 1 << 20;

/// An archive in memory.
pub(crate) struct Archive {
    zip: ZipArchive<Cursor<Vec<u8>>>,
    size: u64,
    /// What may be unpacked all in all, and what was.
    most: u64,
    unpacked: u64,
}

impl Archive {
    pub(crate) fn open(bytes: Vec<u8>) -> Result<Archive, Problem> {
        let size = bytes.len() as u64;
        // Whatever the end of the directory says, every file has an entry, and every entry begins so. They are counted before the library
        // reads the directory, which takes some hundred bytes of memory for each.
        if memmem::find_iter(&bytes, b"PK\x01\x02").nth(MAX_ENTRIES).is_some() {
            return Err(Problem::too_large("has more than 10,000 files inside"));
        }
        if memmem::find_iter(&bytes, b"PK\x05\x06").nth(MAX_ENDS).is_some() {
            return Err(Problem::damaged("it has more than one directory"));
        }
        let mut zip = ZipArchive::new(Cursor::new(bytes)).map_err(|error| problem(&error))?;
        if has_overlaps(&mut zip) {
            return Err(Problem::damaged("the files in it overlap"));
        }
        let most = MAX_TOTAL.min(ANY_TOTAL.max(size.saturating_mul(TOTAL_RATIO)));
        Ok(Archive { zip, size, most, unpacked: 0 })
    }

    pub(crate) fn has(&self, name: &str) -> bool {
        self.zip.index_for_name(name).is_some()
    }

    /// Unpacks a file, if there is one of that name. What comes out is counted: nobody says how much it is before.
    pub(crate) fn read(&mut self, name: &str) -> Result<Option<Vec<u8>>, Problem> {
        let Some(index) = self.zip.index_for_name(name) else { return Ok(None) };
        let mut file = self.zip.by_index(index).map_err(|error| problem(&error))?;
        let packed = file.compressed_size().min(self.size);
        let most = (self.most - self.unpacked).min(ANY_RATIO.max(packed.saturating_mul(MAX_RATIO)));
        let mut bytes = Vec::new();
        file.by_ref()
            .take(most + 1)
            .read_to_end(&mut bytes)
            .map_err(|_| Problem::damaged("a part of it cannot be unpacked"))?;
        let read = bytes.len() as u64;
        if read > most {
            return Err(Problem::too_large(format_args!("unpacks to more than {} MB", (self.unpacked + most) >> 20)));
        }
        self.unpacked += read;
        Ok(Some(bytes))
    }

    /// Unpacks a file that has to be there.
    pub(crate) fn need(&mut self, name: &str) -> Result<Vec<u8>, Problem> {
        self.read(name)?.ok_or_else(|| Problem::damaged(format_args!("a part of it is missing: {}", shown(name))))
    }
}

/// Whether files in an archive share bytes, so that a small archive unpacks to much. What cannot be found is never unpacked.
fn has_overlaps(zip: &mut ZipArchive<Cursor<Vec<u8>>>) -> bool {
    let mut places: Vec<(u64, u64)> = (0..zip.len())
        .filter_map(|number| {
            let file = zip.by_index_raw(number).ok()?;
            Some((file.header_start(), file.data_start()?.saturating_add(file.compressed_size())))
        })
        .collect();
    places.sort_unstable();
    places.windows(2).any(|two| two[1].0 < two[0].1)
}

/// A name from inside a file, short enough for a sentence.
fn shown(name: &str) -> String {
    name.chars().take(60).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

fn problem(error: &ZipError) -> Problem {
    match error {
        ZipError::UnsupportedArchive(ZipError::PASSWORD_REQUIRED) | ZipError::InvalidPassword => locked(),
        ZipError::CompressionMethodNotSupported(_) => Problem::new(
            "is packed in an unusual way: open it in the program it was made with, save it again and try again",
        ),
        _ => Problem::damaged("its archive cannot be opened"),
    }
}

/// What is said of a document behind a password.
pub(crate) fn locked() -> Problem {
    Problem::new("is protected by a password: open it, save it without the password and try again")
}

/// Archives for the tests of the readers.
#[cfg(test)]
pub(crate) mod made {
    use std::io::{Cursor, Write as _};

    use zip::write::SimpleFileOptions;
    use zip::{CompressionMethod, ZipWriter};

    /// An archive with these files.
    pub(crate) fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        for (name, bytes) in files {
            let method = if *name == "mimetype" { CompressionMethod::Stored } else { CompressionMethod::Deflated };
            zip.start_file(*name, SimpleFileOptions::default().compression_method(method)).unwrap();
            zip.write_all(bytes).unwrap();
        }
        zip.finish().unwrap().into_inner()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refusal(bytes: Vec<u8>, name: &str) -> String {
        match Archive::open(bytes).and_then(|mut archive| archive.need(name)) {
            Ok(bytes) => panic!("{} bytes were read", bytes.len()),
            Err(problem) => problem.to_string(),
        }
    }

    #[test]
    fn files_are_read_by_their_names() {
        let bytes = made::archive(&[("a/b.xml", b"one"), ("../../x", b"two"), ("/etc/passwd", b"three")]);
        let mut archive = Archive::open(bytes).unwrap();
        assert_eq!(archive.read("a/b.xml").unwrap().unwrap(), b"one");
        assert_eq!(archive.read("../../x").unwrap().unwrap(), b"two");
        assert_eq!(archive.read("x").unwrap(), None);
        assert!(archive.has("/etc/passwd") && !archive.has("etc/passwd"));
        assert!(archive.need("no\nwhere").unwrap_err().to_string().contains("missing: no\u{fffd}where"));
    }

    #[test]
    fn bombs_are_refused() {
        let bomb = made::archive(&[("a", &vec![0; 8 << 20])]);
        assert!(bomb.len() < 20_000);
        assert!(refusal(bomb, "a").starts_with("was not read: it unpacks to more than 1 MB; save"));
        // Small files may be as regular as they like.
        let small = made::archive(&[("a", &vec![0; 1 << 20])]);
        assert_eq!(Archive::open(small).unwrap().need("a").unwrap().len(), 1 << 20);
        let names: Vec<String> = (0..=MAX_ENTRIES).map(|n| n.to_string()).collect();
        let many: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), &b""[..])).collect();
        assert!(refusal(made::archive(&many), "1").contains("more than 10,000 files"));
    }

    #[test]
    fn what_is_unpacked_is_counted_together() {
        let mut state = 1_u64;
        let noise: Vec<u8> = std::iter::repeat_with(|| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state as u8
        })
        .take(1 << 20)
        .collect();
        let mut archive = Archive::open(made::archive(&[("a", &noise)])).unwrap();
        let times = (0..300).take_while(|_| archive.read("a").is_ok()).count();
        assert_eq!(times, usize::try_from((archive.size * TOTAL_RATIO) >> 20).unwrap());
        let problem = archive.read("a").unwrap_err().to_string();
        assert!(problem.contains(&format!("unpacks to more than {times} MB")), "{problem}");
        // Little may come out of a small archive, and from none more than there is room for.
        let page = [b"night ".repeat(1 << 10), vec![b' '; (1 << 20) - (8 << 10)]].concat();
        let mut small = Archive::open(made::archive(&[("a", &page), ("b", &noise[..100])])).unwrap();
        let times = (0..300).take_while(|_| small.read("a").is_ok()).count();
        assert_eq!((times, small.size < 10_000), (8, true));
        assert_eq!(small.read("b").unwrap().unwrap().len(), 100);
        let most = |size: usize| {
            let filler = ("filler", &noise.repeat(size)[..]);
            Archive::open(made::archive(&[filler])).unwrap().most >> 20
        };
        assert_eq!(most(3), 64);
    }

    #[test]
    fn damaged_archives_are_refused() {
        let whole = made::archive(&[("a", b"one two three four five six")]);
        for end in 0..whole.len() {
            assert!(refusal(whole[..end].to_vec(), "a").contains("save it again"), "{end}");
        }
        let mut wrong = whole.clone();
        wrong[14] ^= 1; // the checksum, in the first of its two places
        let _ = Archive::open(wrong).map(|mut archive| archive.read("a"));
        let at = whole.windows(4).position(|four| four == b"PK\x01\x02").unwrap();
        let mut wrong = whole.clone();
        wrong[at + 16] ^= 1; // and in the second
        assert!(refusal(wrong, "a").contains("is damaged"));
        let mut locked = whole.clone();
        locked[6] |= 1;
        locked[at + 8] |= 1;
        assert!(refusal(locked, "a").contains("password"));
        let mut method = whole;
        method[8] = 12;
        method[at + 10] = 12;
        assert!(refusal(method, "a").contains("save it again"));
    }
}
