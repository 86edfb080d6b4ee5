//! A web server for a folder of files, on a free port of this machine.

use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// Serves until it is stopped or dropped. Each connection has a thread: a page and its service worker ask at the same time.
pub struct Server {
    port: u16,
    path: String,
    folder: Arc<Mutex<PathBuf>>,
    ended: Arc<AtomicBool>,
}

impl Server {
    /// Serves `folder` at `path`, which is empty or ends with a slash.
    pub fn start(folder: PathBuf, path: &str) -> Self {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a free port of this machine");
        let port = listener.local_addr().expect("the listener has an address").port();
        let ended = Arc::new(AtomicBool::new(false));
        let end = Arc::clone(&ended);
        let folder = Arc::new(Mutex::new(folder));
        let (served, below) = (Arc::clone(&folder), path.to_owned());
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                if end.load(Ordering::Relaxed) {
                    break;
                }
                let (folder, below) = (served.lock().expect("no holder of it panics").clone(), below.clone());
                // A browser that hangs up in the middle is no failure of a test.
                std::thread::spawn(move || drop(answer(&stream, &folder, &below)));
            }
        });
        Self { port, path: path.to_owned(), folder, ended }
    }

    /// The address of the page, ending with a slash.
    pub fn url(&self) -> String {
        format!("http://127.0.0.1:{}/{}", self.port, self.path)
    }

    /// Serves another folder from now on.
    pub fn change_to(&self, folder: PathBuf) {
        *self.folder.lock().expect("no holder of it panics") = folder;
    }

    /// Ends it: whoever asks from now on is refused.
    pub fn stop(&self) {
        self.ended.store(true, Ordering::Relaxed);
        // Each call wakes the thread that waits for one, so that it sees that it is to end; when it has, nobody answers.
        while TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_ok() {
            std::thread::sleep(Duration::from_millis(1));
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.ended.store(true, Ordering::Relaxed);
        drop(TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)));
    }
}

fn answer(stream: &TcpStream, folder: &Path, below: &str) -> std::io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(30)))?;
    let mut lines = BufReader::new(stream).lines();
    let request = lines.next().transpose()?.unwrap_or_default();
    // The headers say nothing that matters here, but a connection closed before they are read is reset.
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    let target = request.split(' ').nth(1).unwrap_or("/");
    let file = file_for(folder, below, target);
    let (status, kind, body) = match file.as_deref().map(|path| (path, std::fs::read(path))) {
        Some((path, Ok(body))) => ("200 OK", content_type(path), body),
        _ => ("404 Not Found", "text/plain", format!("{target} is not in the built page").into_bytes()),
    };
    let mut stream = stream;
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)
}

/// The file that the target of a request stands for; `None` for what is not `below` or would lead out of `folder`.
fn file_for(folder: &Path, below: &str, target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?.trim_start_matches('/').strip_prefix(below)?;
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    path.components().all(|part| matches!(part, Component::Normal(_))).then(|| folder.join(path))
}

/// Media types of the files that a page is made of; a browser compiles wasm on the way in only under its own type.
fn content_type(path: &Path) -> &'static str {
    match path.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript",
        Some("wasm") => "application/wasm",
        Some("css") => "text/css",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        _ => "application/octet-stream",
    }
}
