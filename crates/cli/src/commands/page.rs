//! `untaught page`: the page to paste a story into, served to this machine alone.

mod http;

use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::{Mutex, PoisonError};

use untaught_page::{Desk, web};

use crate::args::PageArgs;
use crate::output::{Failure, Outcome, Sink, path_line, remark};
use http::{Answer, Request};

/// The longest question that is read, in bytes: a story far longer than any page shows.
const LONGEST: usize = 16 << 20;

/// What packed text begins with.
const GZIP: [u8; 2] = [0x1f, 0x8b];

/// What a page from here may load: what comes from here.
const POLICY: &str = "default-src 'none'; style-src 'self'; font-src data:; script-src 'self'; connect-src 'self'; img-src data:; base-uri 'none'; \
                      form-action 'none'; frame-ancestors 'none'";

/// Serves until the program is ended.
pub(crate) fn run(args: &PageArgs) -> Result<Outcome, Failure> {
    if let Some(file) = &args.save {
        return save(file);
    }
    let listener = listen(args.port)?;
    let port = listener.local_addr().map_or(args.port, |address| address.port());
    let address = format!("http://127.0.0.1:{port}/");
    let mut sink = Sink::open(None, false)?;
    sink.write(format!("{address}\n").as_bytes())?;
    sink.close()?;
    remark("only this computer can open the page; stop with Ctrl-C");
    if !args.no_browser {
        open(&address);
    }
    // Questions are answered one after the other: the desk remembers what was asked.
    let desk = Mutex::new(Desk::default());
    http::serve(&listener, LONGEST, move |request| answer(request, &desk, port));
    Ok(Outcome::Met)
}

/// Where a release has the page, seen from the program.
const BESIDE: [&str; 2] = ["untaught.html", "../share/untaught/untaught.html"];

/// Copies the page of this release to a file.
fn save(file: &Path) -> Result<Outcome, Failure> {
    let program = std::env::current_exe().ok();
    let folder = program.as_deref().and_then(Path::parent);
    let page = BESIDE.iter().filter_map(|beside| Some(folder?.join(beside))).find(|page| page.is_file());
    let Some(page) = page else {
        let missing = "this copy of the program came without the page as a file; a release has untaught.html beside the program. \
                       Without --save the page opens in the browser";
        return Err(Failure::Message(missing.to_owned()));
    };
    let text = std::fs::read(&page)
        .map_err(|error| Failure::Message(format!("{} cannot be read: {error}", path_line(&page))))?;
    let mut sink = Sink::open(Some(file), false)?;
    sink.write(&text)?;
    sink.close()?;
    Ok(Outcome::Met)
}

/// The port that is tried first: a page remembers its stories by its address.
const USUAL: u16 = 47_365;

/// Listens on a port; if none is named on the usual one, or on any that is free.
fn listen(port: u16) -> Result<TcpListener, Failure> {
    let on = |port: u16| TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port)));
    let listener = if port == 0 { on(USUAL).or_else(|_| on(0)) } else { on(port) };
    listener.map_err(|error| {
        let port = if port == 0 { "no port is free".to_owned() } else { format!("port {port} is taken") };
        Failure::Message(format!("the page could not be served, possibly because {port}: {error}"))
    })
}

fn answer(request: &Request, desk: &Mutex<Desk>, port: u16) -> Answer {
    if !is_from_here(request, port) {
        return Answer::text(403, "this page is only for this computer");
    }
    let (body, kind) = match (request.method.as_str(), request.path.as_str()) {
        ("GET", "/") => (web::served().into_bytes(), "text/html; charset=utf-8"),
        // Every browser unpacks what was packed when this was built.
        ("GET", "/page.js") => (web::SCRIPT_GZIP.to_vec(), "text/javascript; charset=utf-8"),
        ("GET", "/page.css") => (web::STYLE_GZIP.to_vec(), "text/css; charset=utf-8"),
        ("POST", "/engine") => {
            // Other pages can send forms here, but not this kind of text without asking first.
            if !request.header("content-type").is_some_and(|kind| kind.starts_with("application/json")) {
                return Answer::text(415, "questions are JSON");
            }
            let Ok(question) = std::str::from_utf8(&request.body) else {
                return Answer::text(400, "this question is not UTF-8");
            };
            let mut desk = desk.lock().unwrap_or_else(PoisonError::into_inner);
            (desk.answer(question).into_bytes(), "application/json")
        }
        _ => return Answer::text(404, "there is nothing here"),
    };
    let headers = [
        ("Content-Type", kind),
        ("Content-Security-Policy", POLICY),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Cache-Control", "no-store"),
    ];
    let packed = Some(("Content-Encoding", "gzip")).filter(|_| body.starts_with(&GZIP));
    let headers = headers.into_iter().chain(packed).map(|(name, value)| (name, value.to_owned())).collect();
    Answer { status: 200, headers, body }
}

/// Whether a request names this computer and comes from a page served here: another site may point a name of its own at it.
fn is_from_here(request: &Request, port: u16) -> bool {
    let names = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let host = request.header("host").is_some_and(|host| names.iter().any(|name| name == host));
    let origin = request.header("origin");
    host && origin.is_none_or(|origin| names.iter().any(|name| origin == format!("http://{name}")))
}

/// Opens the usual browser; where there is none the address has been printed.
fn open(address: &str) {
    let mut command = if cfg!(target_os = "macos") {
        Command::new("open")
    } else if cfg!(target_os = "windows") {
        let mut command = Command::new("cmd");
        command.args(["/c", "start", ""]);
        command
    } else {
        Command::new("xdg-open")
    };
    let _ = command.arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
}
