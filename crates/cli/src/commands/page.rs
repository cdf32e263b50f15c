//! `untaught page`: the page to paste a story into, served to this machine alone.

use std::io::Read as _;
use std::net::{Ipv4Addr, SocketAddr};
use std::process::{Command, Stdio};

use tiny_http::{Header, Method, Request, Response, Server};
use untaught_page::{Desk, web};

use crate::args::PageArgs;
use crate::output::{Failure, Outcome, Sink, remark};

/// The longest question that is read, in bytes: a story far longer than any page shows.
const LONGEST: usize = 16 << 20;

/// What packed text begins with.
const GZIP: [u8; 2] = [0x1f, 0x8b];

/// What a page from here may load: what comes from here.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src data:; base-uri 'none'; \
                      form-action 'none'; frame-ancestors 'none'";

/// Serves until the program is ended.
pub(crate) fn run(args: &PageArgs) -> Result<Outcome, Failure> {
    let address = SocketAddr::from((Ipv4Addr::LOCALHOST, args.port));
    let server = Server::http(address).map_err(|error| {
        let port = if args.port == 0 { "no port is free".to_owned() } else { format!("port {} is taken", args.port) };
        Failure::Message(format!("the page cannot be served, perhaps because {port}: {error}"))
    })?;
    let port = server.server_addr().to_ip().map_or(args.port, |address| address.port());
    let address = format!("http://127.0.0.1:{port}/");
    let mut sink = Sink::open(None, false)?;
    sink.write(format!("{address}\n").as_bytes())?;
    sink.close()?;
    remark("the page is served to this computer alone; end it with Ctrl-C");
    if !args.no_browser {
        open(&address);
    }
    let mut desk = Desk::default();
    for request in server.incoming_requests() {
        // A browser that has gone away meanwhile is no failure.
        let _ = serve(request, &mut desk, port);
    }
    Ok(Outcome::Met)
}

fn serve(mut request: Request, desk: &mut Desk, port: u16) -> std::io::Result<()> {
    if !is_from_here(&request, port) {
        return request.respond(Response::from_string("this page is for this computer alone").with_status_code(403));
    }
    let path = request.url().split('?').next().unwrap_or_default().to_owned();
    let (body, kind) = match (request.method(), path.as_str()) {
        (Method::Get, "/") => (web::served().into_bytes(), "text/html; charset=utf-8"),
        // Every browser unpacks what was packed when this was built.
        (Method::Get, "/page.js") => (web::SCRIPT_GZIP.to_vec(), "text/javascript; charset=utf-8"),
        (Method::Get, "/page.css") => (web::STYLE_GZIP.to_vec(), "text/css; charset=utf-8"),
        (Method::Post, "/engine") => {
            // Other pages can send forms here, but not this kind of text without asking first.
            if !header(&request, "content-type").is_some_and(|kind| kind.starts_with("application/json")) {
                return request.respond(Response::from_string("questions are JSON").with_status_code(415));
            }
            let mut question = String::new();
            let read = request.as_reader().take(LONGEST as u64 + 1).read_to_string(&mut question);
            if read.is_err() || question.len() > LONGEST {
                return request.respond(Response::from_string("this question cannot be read").with_status_code(413));
            }
            (desk.answer(&question).into_bytes(), "application/json")
        }
        _ => return request.respond(Response::from_string("there is nothing here").with_status_code(404)),
    };
    let headers = [
        ("Content-Type", kind),
        ("Content-Security-Policy", POLICY),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Cache-Control", "no-store"),
    ];
    let packed = Some(("Content-Encoding", "gzip")).filter(|_| body.starts_with(&GZIP));
    let response = Response::from_data(body);
    let headers = headers.into_iter().chain(packed);
    let named = headers.filter_map(|(name, value)| Header::from_bytes(name, value).ok());
    request.respond(named.fold(response, Response::with_header))
}

/// Whether a request names this computer and comes from a page served here: another site may point a name of its own at it.
fn is_from_here(request: &Request, port: u16) -> bool {
    let names = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let host = header(request, "host").is_some_and(|host| names.contains(&host));
    let origin = header(request, "origin");
    host && origin.is_none_or(|origin| names.iter().any(|name| origin == format!("http://{name}")))
}

fn header(request: &Request, name: &'static str) -> Option<String> {
    let found = request.headers().iter().find(|header| header.field.equiv(name));
    found.map(|header| header.value.as_str().to_owned())
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
