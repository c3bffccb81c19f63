//! The local server: the files of a site over HTTP, to this machine only.

use std::fs::File;
use std::io;
use std::net::{Ipv4Addr, TcpListener};
use std::ops::Range;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use tiny_http::{Header, Method, Request, Response, ResponseBox, Server};

use crate::asset;

/// The ports tried in turn where none is asked for.
const PORTS: Range<u16> = 8020..8040;

/// Listens on `port` of the loopback address; without a port, on the first free one of 8020 to 8039.
///
/// # Errors
///
/// When `port`, or every one of those, is taken.
pub(crate) fn listen(port: Option<u16>) -> Result<TcpListener> {
    let bind = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    match port {
        Some(port) => bind(port).with_context(|| format!("cannot listen on port {port}")),
        None => PORTS.map(bind).find_map(io::Result::ok).with_context(|| {
            format!("no port from {} to {} is free; name one with --port", PORTS.start, PORTS.end - 1)
        }),
    }
}

/// Answers requests with the files below `root`, for as long as the listener lives.
///
/// # Errors
///
/// When the listener fails. A request that fails, or a visitor who leaves, is no error.
pub(crate) fn serve(listener: TcpListener, root: &Path) -> Result<()> {
    let server = Server::from_listener(listener, None).map_err(|error| anyhow!("cannot serve: {error}"))?;
    loop {
        let request = server.recv().context("cannot accept a connection")?;
        let response = answer(&request, root);
        // A visitor who closed the connection early wants no answer.
        let _ = request.respond(response);
    }
}

fn answer(request: &Request, root: &Path) -> ResponseBox {
    if !matches!(request.method(), Method::Get | Method::Head) {
        return message(405, "Only GET and HEAD are answered here");
    }
    match asset::path(request.url()).and_then(|path| open(&root.join(path))) {
        Some(response) => response,
        None => message(404, "There is no such file"),
    }
}

fn open(path: &Path) -> Option<ResponseBox> {
    let file = File::open(path).ok()?;
    let metadata = file.metadata().ok()?;
    let len = usize::try_from(metadata.len()).ok()?;
    let response = || respond(200, asset::media_type(path), Box::new(file), len);
    metadata.is_file().then(response)
}

fn message(status: u16, text: &'static str) -> ResponseBox {
    respond(status, "text/plain; charset=utf-8", Box::new(text.as_bytes()), text.len())
}

fn respond(status: u16, media_type: &str, body: Box<dyn io::Read + Send>, len: usize) -> ResponseBox {
    let headers = [
        ("Content-Type", media_type),
        // A rebuilt page must be seen at the next reload.
        ("Cache-Control", "no-cache"),
        ("X-Content-Type-Options", "nosniff"),
    ];
    let headers = headers.map(|(name, value)| {
        Header::from_bytes(name, value).expect("the names and values of the headers are ASCII")
    });
    // Whatever the length, say it: a browser can then show how much is still to come.
    Response::new(status.into(), headers.into(), body, Some(len), None).with_chunked_threshold(usize::MAX)
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::{SocketAddr, TcpStream};
    use std::thread;

    use super::*;

    #[test]
    fn files_are_answered_with_type_length_and_no_cache() {
        let answer = ask(&site(), "GET / HTTP/1.1");
        assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
        assert!(answer.contains("Content-Type: text/html; charset=utf-8\r\n"), "{answer}");
        assert!(answer.contains("Cache-Control: no-cache\r\n"), "{answer}");
        assert!(answer.contains("Content-Length: 4\r\n"), "{answer}");
        assert!(answer.ends_with("\r\n\r\npage"), "{answer}");
    }

    #[test]
    fn head_is_answered_without_the_file() {
        let answer = ask(&site(), "HEAD /index.html HTTP/1.1");
        assert!(answer.contains("Content-Length: 4\r\n"), "{answer}");
        assert!(answer.ends_with("\r\n\r\n"), "{answer}");
    }

    #[test]
    fn what_is_not_a_file_of_the_site_is_not_found() {
        let address = site();
        for path in ["/missing", "/folder", "/folder/", "/../secret", "/%2e%2e/secret"] {
            let answer = ask(&address, &format!("GET {path} HTTP/1.1"));
            assert!(answer.starts_with("HTTP/1.1 404"), "{path}: {answer}");
        }
    }

    #[test]
    fn other_methods_are_refused() {
        let answer = ask(&site(), "DELETE /index.html HTTP/1.1");
        assert!(answer.starts_with("HTTP/1.1 405"), "{answer}");
    }

    #[test]
    fn a_busy_port_is_an_error_if_it_was_asked_for() {
        let busy = listen(Some(0)).unwrap();
        let port = busy.local_addr().unwrap().port();
        let message = format!("{:#}", listen(Some(port)).unwrap_err());
        assert!(message.contains(&port.to_string()), "{message}");
    }

    #[test]
    fn a_busy_default_port_is_passed_over() {
        let (first, second) = (listen(None).unwrap(), listen(None).unwrap());
        assert!(first.local_addr().unwrap().port() < second.local_addr().unwrap().port());
    }

    /// Serves a site with one page, until the tests end.
    fn site() -> SocketAddr {
        let listener = listen(Some(0)).unwrap();
        let address = listener.local_addr().unwrap();
        thread::spawn(move || {
            let folder = tempfile::tempdir().unwrap();
            fs::write(folder.path().join("secret"), "secret").unwrap();
            let root = folder.path().join("site");
            fs::create_dir_all(root.join("folder")).unwrap();
            fs::write(root.join("index.html"), "page").unwrap();
            serve(listener, &root)
        });
        address
    }

    fn ask(address: &SocketAddr, request: &str) -> String {
        let mut stream = TcpStream::connect(address).unwrap();
        write!(stream, "{request}\r\nHost: localhost\r\nConnection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }
}
