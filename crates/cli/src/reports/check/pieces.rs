//! Pieces that are kept until the run ends: in memory while they are few, then in a file without a name, which goes with the program.

use std::io::{self, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::PathBuf;

use tempfile::SpooledTempFile;

use crate::output::path_line;

/// Bytes that are kept in memory: the pages of some thousand stories.
const IN_MEMORY: usize = 32 << 20;

pub(crate) struct Pieces {
    file: SpooledTempFile,
    /// Where the file is made.
    folder: PathBuf,
    lengths: Vec<usize>,
}

impl Default for Pieces {
    fn default() -> Pieces {
        Pieces::beyond(IN_MEMORY, std::env::temp_dir())
    }
}

impl Pieces {
    fn beyond(in_memory: usize, folder: PathBuf) -> Pieces {
        Pieces { file: SpooledTempFile::new_in(in_memory, &folder), folder, lengths: Vec::new() }
    }

    /// Keeps one more.
    pub(crate) fn push(&mut self, piece: &[u8]) -> io::Result<()> {
        self.lengths.push(piece.len());
        self.file.write_all(piece).map_err(|error| {
            let folder = path_line(&self.folder);
            io::Error::other(format!("the temporary folder cannot be written to, {folder}: {error}"))
        })
    }

    /// Gives them back in order, one after the other.
    pub(crate) fn pieces(mut self) -> impl Iterator<Item = io::Result<Vec<u8>>> {
        let mut first = true;
        self.lengths.into_iter().map(move |length| {
            if std::mem::take(&mut first) {
                self.file.seek(SeekFrom::Start(0))?;
            }
            let mut piece = vec![0; length];
            self.file.read_exact(&mut piece)?;
            Ok(piece)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_come_back_in_order_wherever_they_were_kept() {
        for in_memory in [0, 10, 1 << 20] {
            let mut kept = Pieces::beyond(in_memory, std::env::temp_dir());
            let pieces: Vec<Vec<u8>> = (0..50).map(|n| vec![n; usize::from(n) % 7]).collect();
            for piece in &pieces {
                kept.push(piece).unwrap();
            }
            assert_eq!(kept.pieces().collect::<io::Result<Vec<_>>>().unwrap(), pieces);
        }
        assert_eq!(Pieces::default().pieces().count(), 0);
    }

    #[test]
    fn a_missing_folder_is_not_taken_for_a_full_one() {
        let folder = tempfile::tempdir().unwrap().path().join("gone");
        let mut kept = Pieces::beyond(10, folder.clone());
        kept.push(b"short").unwrap();
        let error = kept.push(b"too long for ten").unwrap_err().to_string();
        let begun = format!("the temporary folder cannot be written to, {}: ", folder.display());
        assert!(error.starts_with(&begun) && !error.contains("room"), "{error}");
    }
}
