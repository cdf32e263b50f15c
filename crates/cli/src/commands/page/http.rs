//! As much of HTTP/1.1 as one page needs: a request with all of its body, an answer, and the end of the connection. A client has so
//! much time and room and no more, so that none can keep the others waiting.

use std::io::{self, Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// How long a client may take to send its request, and then to take the answer.
const PATIENCE: Duration = Duration::from_secs(10);
/// How long a refused client may go on sending before its answer is lost.
const DRAIN: Duration = Duration::from_secs(1);
/// The longest head of a request, in bytes.
const HEAD: usize = 32 << 10;
/// Headers of a request.
const HEADERS: usize = 100;
/// Clients that are served at once.
const CLIENTS: usize = 64;

/// A request.
#[derive(Debug)]
pub(super) struct Request {
    pub(super) method: String,
    /// Without what is after a question mark.
    pub(super) path: String,
    headers: Vec<(String, String)>,
    pub(super) body: Vec<u8>,
}

impl Request {
    /// The value of a header, by its name in small letters.
    pub(super) fn header(&self, name: &str) -> Option<&str> {
        self.headers.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }
}

/// An answer.
#[derive(Debug)]
pub(super) struct Answer {
    pub(super) status: u16,
    pub(super) headers: Vec<(&'static str, String)>,
    pub(super) body: Vec<u8>,
}

impl Answer {
    /// A sentence for people.
    pub(super) fn text(status: u16, sentence: &str) -> Answer {
        let kind = ("Content-Type", "text/plain; charset=utf-8".to_owned());
        Answer { status, headers: vec![kind], body: sentence.as_bytes().to_vec() }
    }
}

/// Answers each request on a thread of its own, until the program is ended. `longest` is the longest body, in bytes.
pub(super) fn serve(
    listener: &TcpListener,
    longest: usize,
    answer: impl Fn(&Request) -> Answer + Send + Sync + 'static,
) {
    let answer = Arc::new(answer);
    let clients = Arc::new(AtomicUsize::new(0));
    for stream in listener.incoming() {
        let Ok(stream) = stream else {
            // Such as too many open files: that passes when clients go.
            std::thread::sleep(Duration::from_millis(50));
            continue;
        };
        if clients.load(Ordering::Relaxed) >= CLIENTS {
            let mut client = Timed { stream: &stream, until: Instant::now() + DRAIN / 10 };
            let _ = send(&mut client, &Answer::text(503, "too many programs ask for this page at once"));
            continue;
        }
        clients.fetch_add(1, Ordering::Relaxed);
        let leaving = Leaving(Arc::clone(&clients));
        let answer = Arc::clone(&answer);
        // A thread that cannot be begun takes its client with it; the next one may be luckier.
        let _ = std::thread::Builder::new().spawn(move || {
            let _leaving = leaving;
            // A browser that has gone away meanwhile is no failure.
            let _ = one(&stream, longest, &*answer);
        });
    }
}

struct Leaving(Arc<AtomicUsize>);

impl Drop for Leaving {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::Relaxed);
    }
}

fn one(stream: &TcpStream, longest: usize, answer: &dyn Fn(&Request) -> Answer) -> io::Result<()> {
    let mut client = Timed { stream, until: Instant::now() + PATIENCE };
    let answer = match receive(&mut client, longest)? {
        Ok(request) => answer(&request),
        Err(refusal) => refusal,
    };
    client.until = Instant::now() + PATIENCE;
    send(&mut client, &answer)?;
    stream.shutdown(Shutdown::Write)?;
    // What is still on its way would take the answer with it if the connection ended before it came.
    client.until = Instant::now() + DRAIN;
    io::copy(&mut client.take(longest as u64), &mut io::sink())?;
    Ok(())
}

/// A client with the time it has.
struct Timed<'s> {
    stream: &'s TcpStream,
    until: Instant,
}

impl Timed<'_> {
    fn left(&self) -> io::Result<Option<Duration>> {
        match self.until.checked_duration_since(Instant::now()) {
            Some(left) if !left.is_zero() => Ok(Some(left)),
            _ => Err(io::ErrorKind::TimedOut.into()),
        }
    }
}

impl Read for Timed<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        self.stream.set_read_timeout(self.left()?)?;
        self.stream.read(buffer)
    }
}

impl Write for Timed<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.stream.set_write_timeout(self.left()?)?;
        self.stream.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.stream.flush()
    }
}

/// Reads a request, or says what is wrong with it.
fn receive(client: &mut (impl Read + Write), longest: usize) -> io::Result<Result<Request, Answer>> {
    let refusal = |status, sentence: &str| Ok(Err(Answer::text(status, sentence)));
    let mut got = Vec::new();
    let mut piece = [0; 4096];
    let (mut request, head) = loop {
        match client.read(&mut piece)? {
            0 => return refusal(400, "the request breaks off"),
            read => got.extend_from_slice(&piece[..read]),
        }
        let mut headers = [httparse::EMPTY_HEADER; HEADERS];
        let mut parsed = httparse::Request::new(&mut headers);
        match parsed.parse(&got) {
            Ok(httparse::Status::Complete(head)) => break (request_of(&parsed), head),
            Ok(httparse::Status::Partial) if got.len() > HEAD => {
                return refusal(431, "the head of the request is too long");
            }
            Ok(httparse::Status::Partial) => {}
            Err(httparse::Error::TooManyHeaders) => return refusal(431, "the request has too many headers"),
            Err(_) => return refusal(400, "the request cannot be read"),
        }
    };
    if request.header("transfer-encoding").is_some() {
        return refusal(411, "the request does not say how long it is");
    }
    let mut lengths = request.headers.iter().filter(|(name, _)| name == "content-length").map(|(_, value)| value);
    let length = match (lengths.next().map(|length| length.parse::<usize>()), lengths.next()) {
        (None, _) => 0,
        (Some(Ok(length)), None) => length,
        _ => return refusal(400, "the request cannot be read"),
    };
    if length > longest {
        return refusal(413, "this question is too long to be read");
    }
    let mut body = got.split_off(head);
    if body.len() < length && request.header("expect").is_some_and(|value| value.eq_ignore_ascii_case("100-continue")) {
        client.write_all(b"HTTP/1.1 100 Continue\r\n\r\n")?;
    }
    let missing = length.saturating_sub(body.len());
    client.take(missing as u64).read_to_end(&mut body)?;
    if body.len() < length {
        return refusal(400, "the request breaks off");
    }
    body.truncate(length);
    request.body = body;
    Ok(Ok(request))
}

fn request_of(parsed: &httparse::Request<'_, '_>) -> Request {
    let headers = parsed
        .headers
        .iter()
        .map(|header| (header.name.to_ascii_lowercase(), String::from_utf8_lossy(header.value).trim().to_owned()));
    Request {
        method: parsed.method.unwrap_or_default().to_owned(),
        path: parsed.path.unwrap_or_default().split('?').next().unwrap_or_default().to_owned(),
        headers: headers.collect(),
        body: Vec::new(),
    }
}

fn send(client: &mut impl Write, answer: &Answer) -> io::Result<()> {
    let reason = match answer.status {
        200 => "OK",
        400..=499 => "Refused",
        _ => "Busy",
    };
    let mut head = format!(
        "HTTP/1.1 {} {reason}\r\nContent-Length: {}\r\nConnection: close\r\n",
        answer.status,
        answer.body.len()
    );
    for (name, value) in &answer.headers {
        head += &format!("{name}: {value}\r\n");
    }
    head += "\r\n";
    client.write_all(&[head.as_bytes(), &answer.body].concat())?;
    client.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A client that sends this, a few bytes at a time, and keeps what it gets.
    struct Made(Vec<u8>, Vec<u8>);

    impl Read for Made {
        fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
            let read = buffer.len().min(7).min(self.0.len());
            buffer[..read].copy_from_slice(&self.0[..read]);
            self.0.drain(..read);
            Ok(read)
        }
    }

    impl Write for Made {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.1.write(bytes)
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    fn got(text: &str) -> Result<Request, u16> {
        let mut client = Made(text.as_bytes().to_vec(), Vec::new());
        receive(&mut client, 100).unwrap().map_err(|refusal| refusal.status)
    }

    #[test]
    fn requests_are_read_whole_or_refused() {
        let request =
            got("POST /engine?x=1 HTTP/1.1\r\nHost: a\r\nX-Y:  z \r\nContent-Length: 3\r\n\r\nabcdef").unwrap();
        assert_eq!(
            (request.method.as_str(), request.path.as_str(), &request.body[..]),
            ("POST", "/engine", &b"abc"[..])
        );
        assert_eq!((request.header("x-y"), request.header("content-type")), (Some("z"), None));
        assert_eq!(got("GET / HTTP/1.0\n\n").unwrap().body, b"");
        for (text, status) in [
            ("".to_owned(), 400),
            ("GET / HT".to_owned(), 400),
            ("{}\r\n\r\n".to_owned(), 400),
            ("GET / HTTP/1.1\r\n\0: b\r\n\r\n".to_owned(), 400),
            ("POST / HTTP/1.1\r\nContent-Length: 3\r\n\r\nab".to_owned(), 400),
            ("POST / HTTP/1.1\r\nContent-Length: x\r\n\r\n".to_owned(), 400),
            ("POST / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nab".to_owned(), 400),
            ("POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n".to_owned(), 400),
            ("POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n".to_owned(), 411),
            ("POST / HTTP/1.1\r\nContent-Length: 101\r\n\r\n".to_owned(), 413),
            ("POST / HTTP/1.1\r\nContent-Length: 99999999999999999999999\r\n\r\n".to_owned(), 400),
            (format!("GET /{} HTTP/1.1\r\n\r\n", "a".repeat(100_000)), 431),
            (format!("GET / HTTP/1.1\r\n{}\r\n", "a: b\r\n".repeat(101)), 431),
        ] {
            assert_eq!(got(&text).map(|_| ()), Err(status), "{text:.100}");
        }
    }

    #[test]
    fn a_client_that_waits_to_send_is_told_to() {
        let head = "POST / HTTP/1.1\r\nExpect: 100-continue\r\nContent-Length: 60\r\n\r\n";
        let mut client = Made(format!("{head}{}", "a".repeat(60)).into_bytes(), Vec::new());
        assert_eq!(receive(&mut client, 100).unwrap().unwrap().body.len(), 60);
        assert_eq!(client.1, b"HTTP/1.1 100 Continue\r\n\r\n");
    }
}
