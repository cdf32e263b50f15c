//! Messages over standard input and output: a header that gives the length, then JSON.
//!
//! What is framed rightly but is no message is told on standard error and passed over; a header that cannot be read ends the
//! session, for nothing says where the next message would begin.

use std::io::{self, BufRead, Read as _, Write as _};
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Receiver, Sender, TryRecvError};
use lsp_server::Message;

use crate::wire::Connection;

/// The longest message that is read, in bytes: far more than any story.
const LONGEST: usize = 64 << 20;

/// The threads that read and write.
pub(crate) struct Threads {
    /// How reading ended, once it has.
    read: Receiver<io::Result<()>>,
    writer: JoinHandle<io::Result<()>>,
}

impl Threads {
    /// Waits until everything has been written. The reader is not waited for: it may wait for input for ever.
    pub(crate) fn finish(self) -> io::Result<()> {
        let gone = || Err(io::Error::other("a thread of the server stopped"));
        self.writer.join().unwrap_or_else(|_| gone())?;
        match self.read.try_recv() {
            Ok(ended) => ended,
            Err(TryRecvError::Empty) => Ok(()),
            Err(TryRecvError::Disconnected) => gone(),
        }
    }
}

/// A connection over standard input and output.
pub(crate) fn connection() -> io::Result<(Connection, Threads)> {
    let (to_server, receiver) = crossbeam_channel::bounded(64);
    let (sender, from_server) = crossbeam_channel::bounded::<String>(64);
    let (ended, read) = crossbeam_channel::bounded(1);
    thread::Builder::new().name("reader".to_owned()).spawn(move || {
        // Told while the server still waits for messages: it must not end before it can know why none come.
        let _ = ended.send(read_all(&to_server));
        drop(to_server);
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
    Ok((Connection { sender, receiver }, Threads { read, writer }))
}

/// Reads messages until there are no more, or nobody wants them.
fn read_all(to_server: &Sender<Message>) -> io::Result<()> {
    let mut input = io::stdin().lock();
    while let Some(body) = frame(&mut input)? {
        match message(&body) {
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
}

/// Reads a message. An edit between the two code units of a character leaves half a character in a client that counts in UTF-16, which
/// is not JSON to everybody: the message must not be lost, or all later edits would be made in another text than the client's.
fn message(body: &[u8]) -> serde_json::Result<Message> {
    serde_json::from_slice(body).or_else(|error| match without_halves(body) {
        Some(whole) => serde_json::from_slice(&whole),
        None => Err(error),
    })
}

/// JSON with each half of a character, written as `\ud83d`, replaced by the replacement character, which is as long in UTF-16; none if
/// it has no halves.
fn without_halves(body: &[u8]) -> Option<Vec<u8>> {
    let unit = |at: usize| {
        let digits = body.get(at..at + 6)?.strip_prefix(br"\u")?;
        u16::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok()
    };
    let mut whole = body.to_vec();
    let mut at = 0;
    while at < body.len() {
        at += match (body[at], unit(at)) {
            (_, Some(0xd800..=0xdbff)) if matches!(unit(at + 6), Some(0xdc00..=0xdfff)) => 12,
            (_, Some(0xd800..=0xdfff)) => {
                whole[at + 2..at + 6].copy_from_slice(b"fffd");
                6
            }
            // What is escaped is no beginning of an escape.
            (b'\\', _) => 2,
            _ => 1,
        };
    }
    (whole != body).then_some(whole)
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
    fn half_a_character_does_not_lose_the_message() {
        for (text, read) in [
            (r"\ud83d", "\u{fffd}"),
            (r"a\ude00b", "a\u{fffd}b"),
            (r"\ud83d\ude00", "😀"),
            (r"\ud83d\ud83d\ude00\ude00", "\u{fffd}😀\u{fffd}"),
            (r"\\ud83d \ud83d", "\\ud83d \u{fffd}"),
            (r"\ud83d\u0041\n", "\u{fffd}A\n"),
        ] {
            let body = format!(r#"{{"jsonrpc":"2.0","method":"m","params":"{text}"}}"#);
            let Ok(Message::Notification(note)) = message(body.as_bytes()) else { panic!("{text}") };
            assert_eq!(note.params.as_str(), Some(read), "{text}");
        }
        assert!(message(br#"{"jsonrpc":"2.0","method":"\ud83"}"#).is_err());
        assert!(message(b"{").is_err());
    }

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
