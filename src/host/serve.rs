//! A listener for browsers on this machine alone.
//!
//! It speaks HTTP and knows nothing of what is asked for: [`Answers`] does. Every request has a thread of its own, so that
//! a reader who stands still holds up nobody else.

use std::io::{self, Write};
use std::net::{Ipv4Addr, TcpListener};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;
use std::time::Duration;

use tiny_http::{Header, Request, Response, StatusCode};

use super::HostError;

/// How many requests are answered at one time. A browser opens six connections; a class has twenty of them.
const AT_ONCE: usize = 160;

/// How often a page that waits for news is written to even where there is none: so we learn that it was closed.
const HEARTBEAT: Duration = Duration::from_secs(15);

/// What a browser asks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked<'r> {
    /// Such as `GET`.
    pub method: &'r str,
    /// As it stands in the first line of the request, such as `/log/a.html?b`.
    pub target: &'r str,
    /// Every `Host` header; there should be one.
    pub hosts: Vec<&'r str>,
}

/// What is answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// A page or other file.
    Whole(Whole),
    /// Server-sent events: a mark for each state of things, from the first that is not this one.
    News {
        /// The mark that the page already has.
        seen: String,
    },
}

/// A page or other file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Whole {
    /// Such as 200.
    pub status: u16,
    /// Names and values. Values with characters beyond ASCII are left out.
    pub headers: Vec<(&'static str, String)>,
    /// The body; left out where the request was `HEAD`.
    pub body: Vec<u8>,
}

/// News for a page that waits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// Things are now so.
    Mark(String),
    /// Nothing new.
    None,
    /// There will be no more.
    Over,
}

/// Whoever knows what to answer.
pub trait Answers: Send + Sync + 'static {
    /// Answers a request.
    fn answer(&self, asked: &Asked<'_>) -> Answer;

    /// Waits until things are not as marked by `seen`, but no longer than `wait`.
    fn news(&self, seen: &str, wait: Duration) -> News;
}

/// A port that was taken on 127.0.0.1.
#[derive(Debug)]
pub struct Listener {
    listener: TcpListener,
    port: u16,
}

impl Listener {
    /// Takes `port`; 0 is any that is free.
    pub fn at(port: u16) -> Result<Self, HostError> {
        let bound = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .and_then(|listener| Ok((listener.local_addr()?.port(), listener)));
        let (port, listener) = bound.map_err(|cause| failed(port, cause))?;
        Ok(Self { listener, port })
    }

    /// Takes `port`, or one of the next nine, or any.
    pub fn near(port: u16) -> Result<Self, HostError> {
        let next = (port..=port.saturating_add(9)).find_map(|port| Self::at(port).ok());
        next.map_or_else(|| Self::at(0), Ok)
    }

    /// The port that was taken.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// Answers requests until the server is dropped. `lost` is told where it had to stop before.
    pub fn serve(
        self,
        answers: Arc<dyn Answers>,
        lost: impl Fn(String) + Send + 'static,
    ) -> Result<Server, HostError> {
        let port = self.port;
        let server = tiny_http::Server::from_listener(self.listener, None)
            .map_err(|error| failed(port, io::Error::other(error.to_string())))?;
        let server = Arc::new(server);
        let stop = Arc::new(AtomicBool::new(false));
        let (inner, stopping) = (Arc::clone(&server), Arc::clone(&stop));
        thread::spawn(move || {
            let busy = Arc::new(AtomicUsize::new(0));
            loop {
                match inner.recv() {
                    _ if stopping.load(Ordering::Acquire) => return,
                    Ok(request) => take(request, &answers, &busy),
                    Err(error) => {
                        lost(error.to_string());
                        return;
                    }
                }
            }
        });
        Ok(Server { server, stop })
    }
}

fn failed(port: u16, cause: io::Error) -> HostError {
    HostError {
        doing: "listen at",
        path: format!("127.0.0.1:{port}"),
        cause,
    }
}

/// Answers until it is dropped.
pub struct Server {
    server: Arc<tiny_http::Server>,
    stop: Arc<AtomicBool>,
}

impl std::fmt::Debug for Server {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Server").finish_non_exhaustive()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Release);
        self.server.unblock();
    }
}

/// One of the requests that are being answered.
struct Turn(Arc<AtomicUsize>);

impl Drop for Turn {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::AcqRel);
    }
}

fn take(request: Request, answers: &Arc<dyn Answers>, busy: &Arc<AtomicUsize>) {
    let turn = Turn(Arc::clone(busy));
    if busy.fetch_add(1, Ordering::AcqRel) >= AT_ONCE {
        let _ = request.respond(Response::empty(503));
        return;
    }
    let answers = Arc::clone(answers);
    // Where the machine has no thread to give, the request is dropped, which answers it with an error.
    let _ = thread::Builder::new().spawn(move || {
        let _turn = turn;
        answer(request, answers.as_ref());
    });
}

fn answer(request: Request, answers: &dyn Answers) {
    let method = request.method().to_string();
    let target = request.url().to_owned();
    let hosts = request
        .headers()
        .iter()
        .filter(|header| header.field.equiv("Host"));
    let answer = answers.answer(&Asked {
        method: &method,
        target: &target,
        hosts: hosts.map(|header| header.value.as_str()).collect(),
    });
    // A browser that went away is no failure.
    let _ = match answer {
        Answer::Whole(whole) => request.respond(response(whole)),
        Answer::News { seen } => news(request.into_writer(), answers, seen),
    };
}

fn response(whole: Whole) -> Response<io::Cursor<Vec<u8>>> {
    let headers = whole.headers.iter();
    let headers = headers.filter_map(|(name, value)| Header::from_bytes(*name, value.as_bytes()).ok());
    headers
        .fold(Response::from_data(whole.body), Response::with_header)
        .with_status_code(StatusCode(whole.status))
        .with_chunked_threshold(usize::MAX)
}

/// Server-sent events as the WHATWG HTML standard has them, in the chunks of RFC 9112. Written by hand: the server's own
/// way gathers eight kilobytes before it sends any.
fn news(mut to: Box<dyn Write + Send>, answers: &dyn Answers, mut seen: String) -> io::Result<()> {
    to.write_all(
        b"HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\nCache-Control: no-store\r\n\
          X-Content-Type-Options: nosniff\r\nTransfer-Encoding: chunked\r\n\r\n",
    )?;
    chunk(&mut to, "retry: 1000\n\n")?;
    loop {
        match answers.news(&seen, HEARTBEAT) {
            News::Mark(mark) => {
                chunk(&mut to, &format!("data: {mark}\n\n"))?;
                seen = mark;
            }
            News::None => chunk(&mut to, ":\n\n")?,
            News::Over => {
                to.write_all(b"0\r\n\r\n")?;
                return to.flush();
            }
        }
    }
}

fn chunk(to: &mut dyn Write, text: &str) -> io::Result<()> {
    write!(to, "{:x}\r\n{text}\r\n", text.len())?;
    to.flush()
}
