//! Messages over standard input and output: a header that gives the length, then JSON.
//!
//! What is framed rightly but is no message is told on standard error and passed over; a header that cannot be read ends the
//! session, for nothing says where the next message would begin.

use std::io::{self, BufRead, Read as _, Write as _};
use std::thread::{self, JoinHandle};

use lsp_server::Message;

use crate::wire::Connection;

/// The longest message that is read, in bytes: far more than any story.
const LONGEST: usize = 64 << 20;

/// The threads that read and write.
pub(crate) struct Threads {
    reader: JoinHandle<io::Result<()>>,
    writer: JoinHandle<io::Result<()>>,
}

impl Threads {
    /// Waits until everything has been written. The reader is only asked how it ended if it has: it may wait for input for ever.
    pub(crate) fn finish(self) -> io::Result<()> {
        let gone = |_| Err(io::Error::other("a thread of the server stopped"));
        self.writer.join().unwrap_or_else(gone)?;
        if self.reader.is_finished() { self.reader.join().unwrap_or_else(gone) } else { Ok(()) }
    }
}

/// A connection over standard input and output.
pub(crate) fn connection() -> io::Result<(Connection, Threads)> {
    let (to_server, receiver) = crossbeam_channel::bounded(64);
    let (sender, from_server) = crossbeam_channel::bounded::<String>(64);
    let reader = thread::Builder::new().name("reader".to_owned()).spawn(move || {
        let mut input = io::stdin().lock();
        while let Some(body) = frame(&mut input)? {
            match serde_json::from_slice::<Message>(&body) {
                Ok(message) => {
                    // The server is gone: so is the need to read.
                    if to_server.send(message).is_err() {
                        break;
                    }
                }
                Err(error) => {
                    // It quotes the message.
                    eprintln!("untaught editor: a message was skipped: {}", error.to_string().escape_debug());
                }
            }
        }
        Ok(())
    })?;
    let writer = thread::Builder::new().name("writer".to_owned()).spawn(move || {
        let mut output = io::stdout().lock();
        for message in from_server {
            write!(output, "Content-Length: {}\r\n\r\n", message.len())?;
            output.write_all(message.as_bytes())?;
            output.flush()?;
        }
        Ok(())
    })?;
    Ok((Connection { sender, receiver }, Threads { reader, writer }))
}

/// The body of the next message; none at the end of the input.
pub(crate) fn frame(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let bad = |what: &str| Err(io::Error::new(io::ErrorKind::InvalidData, what.to_owned()));
    let mut length = None;
    let mut first = true;
    loop {
        let mut line = Vec::new();
        input.by_ref().take(4096).read_until(b'\n', &mut line)?;
        if line.is_empty() && first {
            return Ok(None);
        }
        first = false;
        let Some(line) = line.strip_suffix(b"\n") else { return bad("a header does not end") };
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        if line.is_empty() {
            break;
        }
        let Some((name, value)) = std::str::from_utf8(line).ok().and_then(|line| line.split_once(':')) else {
            return bad("a header is not a name with a value");
        };
        if name.trim().eq_ignore_ascii_case("content-length") {
            length = value.trim().parse::<usize>().ok();
        }
    }
    match length {
        Some(length) if length <= LONGEST => {
            let mut body = vec![0; length];
            input.read_exact(&mut body)?;
            Ok(Some(body))
        }
        Some(_) => bad("a message is too long"),
        None => bad("a message has no Content-Length"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_are_read_or_refused() {
        let read =
            |text: &str| frame(&mut text.as_bytes()).map(|body| body.map(|body| String::from_utf8(body).unwrap()));
        assert_eq!(read("Content-Length: 2\r\n\r\n{}more").unwrap().as_deref(), Some("{}"));
        assert_eq!(read("content-length:2\nContent-Type: x\n\n{}").unwrap().as_deref(), Some("{}"));
        assert_eq!(read("").unwrap(), None);
        for text in [
            "{}",
            "nonsense\r\n",
            "Content-Length: 99999999999\r\n\r\n",
            "Content-Type: x\r\n\r\n{}",
            "Content-Length: 9\r\n\r\n{}",
        ] {
            assert!(read(text).is_err(), "{text:?}");
        }
        assert!(read(&"x".repeat(100_000)).is_err());
    }
}
