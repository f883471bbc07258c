//! A listener for browsers on this machine alone.
//!
//! It speaks as much HTTP/1.1 (RFC 9112) as reading takes, one request a connection, and knows nothing of what is asked for:
//! [`Answers`] does. Every connection has a thread of its own and its time is bounded, so that a reader who stands
//! still holds up nobody else.

use std::fmt::Write as _;
use std::io::{self, Read, Write};
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;
use std::time::Duration;

use super::{HostError, Stopwatch};

/// How many connections are held at one time. A browser opens six; a class has twenty of them.
const AT_ONCE: usize = 160;

/// How long a request may take to arrive.
const ARRIVAL: Duration = Duration::from_secs(10);

/// How long a browser may take no bytes before it is given up.
const STANDSTILL: Duration = Duration::from_secs(30);

/// How many bytes the head of a request may have: browsers send less than two thousand.
const HEAD: usize = 16 << 10;

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
    /// Server-sent events: a mark for each state of a page, from the first that is not this one.
    News {
        /// The page's path and query, as they would be sent for it.
        of: String,
        /// The mark that the page already has.
        seen: String,
    },
}

/// A page or other file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Whole {
    /// Such as 200.
    pub status: u16,
    /// Names and values. Values with anything but printable ASCII are left out.
    pub headers: Vec<(&'static str, String)>,
    /// The body; left out where the request was `HEAD`.
    pub body: Vec<u8>,
}

/// News for a page that waits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// The page is now so.
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

    /// Waits until the page at `of` is not as marked by `seen`, but no longer than `wait`.
    fn news(&self, of: &str, seen: &str, wait: Duration) -> News;
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
        let stop = Arc::new(AtomicBool::new(false));
        let stopping = Arc::clone(&stop);
        let accepting = thread::Builder::new().spawn(move || {
            let busy = Arc::new(AtomicUsize::new(0));
            let mut failures = 0;
            while !stopping.load(Ordering::Acquire) {
                match self.listener.accept() {
                    _ if stopping.load(Ordering::Acquire) => return,
                    Ok((stream, _)) => {
                        failures = 0;
                        take(stream, &answers, &busy);
                    }
                    // A browser that went away again, or no file to be had for a moment.
                    Err(_) if failures < FAILURES => {
                        failures += 1;
                        thread::sleep(PAUSE);
                    }
                    Err(error) => return lost(error.to_string()),
                }
            }
        });
        accepting.map_err(|cause| failed(port, cause))?;
        Ok(Server { port, stop })
    }
}

/// How many connections may fail one after the other before the listener is given up, and how long it waits after each.
const FAILURES: u32 = 100;
const PAUSE: Duration = Duration::from_millis(100);

fn failed(port: u16, cause: io::Error) -> HostError {
    HostError {
        doing: "listen at",
        path: format!("127.0.0.1:{port}"),
        cause,
    }
}

/// Answers until it is dropped.
#[derive(Debug)]
pub struct Server {
    port: u16,
    stop: Arc<AtomicBool>,
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Release);
        // Whoever waits for a connection has to be woken by one.
        let here = SocketAddr::from((Ipv4Addr::LOCALHOST, self.port));
        let _ = TcpStream::connect_timeout(&here, Duration::from_secs(1));
    }
}

/// One of the connections that are held.
struct Turn(Arc<AtomicUsize>);

impl Drop for Turn {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::AcqRel);
    }
}

/// Gives a connection a thread. Where there are too many, or the machine has no thread to give, it is closed.
fn take(stream: TcpStream, answers: &Arc<dyn Answers>, busy: &Arc<AtomicUsize>) {
    let turn = Turn(Arc::clone(busy));
    if busy.fetch_add(1, Ordering::AcqRel) >= AT_ONCE {
        return;
    }
    let answers = Arc::clone(answers);
    let _ = thread::Builder::new().spawn(move || {
        let _turn = turn;
        // A browser that went away is no failure.
        let _ = converse(stream, answers.as_ref());
    });
}

fn converse(mut stream: TcpStream, answers: &dyn Answers) -> io::Result<()> {
    stream.set_nodelay(true)?;
    stream.set_write_timeout(Some(STANDSTILL))?;
    let Some(head) = arrived(&mut stream)? else {
        return refuse(&mut stream);
    };
    let Some(asked) = understood(&head) else {
        return refuse(&mut stream);
    };
    match answers.answer(&asked) {
        Answer::Whole(whole) => {
            send(&mut stream, &whole, asked.method != "HEAD")?;
            farewell(&mut stream)
        }
        Answer::News { of, seen } => news(&mut stream, answers, &of, seen),
    }
}

/// The head of a request as text; nothing where it is too long, or no text.
fn arrived(stream: &mut TcpStream) -> io::Result<Option<String>> {
    let since = Stopwatch::start();
    stream.set_read_timeout(Some(ARRIVAL))?;
    let mut bytes = Vec::new();
    let mut buffer = [0; 2048];
    loop {
        if let Some(end) = bytes.windows(4).position(|four| four == b"\r\n\r\n") {
            bytes.truncate(end);
            return Ok(String::from_utf8(bytes).ok());
        }
        if bytes.len() >= HEAD {
            return Ok(None);
        }
        let count = stream.read(&mut buffer)?;
        if count == 0 || since.elapsed() > ARRIVAL {
            return Err(io::Error::from(io::ErrorKind::UnexpectedEof));
        }
        bytes.extend_from_slice(buffer.get(..count).unwrap_or_default());
    }
}

/// A request without its body, which nobody here wants.
fn understood(head: &str) -> Option<Asked<'_>> {
    let mut lines = head.split("\r\n");
    let mut first = lines.next()?.split(' ');
    let (method, target, version) = (first.next()?, first.next()?, first.next()?);
    let is_plain = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_graphic());
    if first.next().is_some() || !matches!(version, "HTTP/1.1" | "HTTP/1.0") {
        return None;
    }
    if !is_plain(method) || !is_plain(target) {
        return None;
    }
    let mut hosts = Vec::new();
    for line in lines {
        let (name, value) = line.split_once(':')?;
        if !is_plain(name) {
            return None;
        }
        if name.eq_ignore_ascii_case("host") {
            hosts.push(value.trim_matches([' ', '\t']));
        }
    }
    Some(Asked {
        method,
        target,
        hosts,
    })
}

fn refuse(stream: &mut TcpStream) -> io::Result<()> {
    let refused = Whole {
        status: 400,
        headers: Vec::new(),
        body: Vec::new(),
    };
    send(stream, &refused, true)?;
    farewell(stream)
}

fn send(to: &mut dyn Write, whole: &Whole, body: bool) -> io::Result<()> {
    let reason = match whole.status {
        200 => "OK",
        302 => "Found",
        400 => "Bad Request",
        403 => "Forbidden",
        404 => "Not Found",
        405 => "Method Not Allowed",
        _ => "",
    };
    let mut head = format!("HTTP/1.1 {} {reason}\r\n", whole.status);
    for (name, value) in &whole.headers {
        if value.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
            let _ = write!(head, "{name}: {value}\r\n");
        }
    }
    let _ = write!(
        head,
        "Content-Length: {}\r\nConnection: close\r\n\r\n",
        whole.body.len()
    );
    to.write_all(head.as_bytes())?;
    if body {
        to.write_all(&whole.body)?;
    }
    to.flush()
}

/// Closes a connection once the browser has what was sent: to close while it still sends would take that back (RFC 9112,
/// section 9.6).
fn farewell(stream: &mut TcpStream) -> io::Result<()> {
    let since = Stopwatch::start();
    stream.shutdown(Shutdown::Write)?;
    stream.set_read_timeout(Some(Duration::from_secs(1)))?;
    let mut buffer = [0; 2048];
    while stream.read(&mut buffer)? > 0 && since.elapsed() < ARRIVAL {}
    Ok(())
}

/// Server-sent events, as the HTML standard of the WHATWG has them.
fn news(to: &mut dyn Write, answers: &dyn Answers, of: &str, mut seen: String) -> io::Result<()> {
    to.write_all(
        b"HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\nCache-Control: no-store\r\n\
          X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\nretry: 1000\n\n",
    )?;
    loop {
        match answers.news(of, &seen, HEARTBEAT) {
            News::Mark(mark) => {
                write!(to, "data: {mark}\n\n")?;
                seen = mark;
            }
            News::None => to.write_all(b":\n\n")?,
            News::Over => return Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn requests_are_understood() {
        let asked = understood("GET /a?b HTTP/1.1\r\nhost: x:1\r\nAccept: */*\r\nHOST:y").unwrap();
        assert_eq!((asked.method, asked.target), ("GET", "/a?b"));
        assert_eq!(asked.hosts, ["x:1", "y"]);
        for broken in [
            "",
            "GET /",
            "GET  / HTTP/1.1",
            "GET / HTTP/1.1 x",
            "GET / HTTP/2.0",
            "GET /ü HTTP/1.1",
            "GET /\n HTTP/1.1",
            "GET / HTTP/1.1\r\nno colon",
            "GET / HTTP/1.1\r\n folded: x",
            "GET / HTTP/1.1\r\nHost : x",
        ] {
            assert_eq!(understood(broken), None, "{broken}");
        }
    }

    #[test]
    fn a_value_cannot_end_its_header() {
        let whole = Whole {
            status: 302,
            headers: vec![
                ("Location", "/a\r\nSet-Cookie: b".to_owned()),
                ("Allow", "GET".to_owned()),
            ],
            body: b"abc".to_vec(),
        };
        let mut sent = Vec::new();
        send(&mut sent, &whole, true).unwrap();
        assert_eq!(
            String::from_utf8(sent).unwrap(),
            "HTTP/1.1 302 Found\r\nAllow: GET\r\nContent-Length: 3\r\nConnection: close\r\n\r\nabc"
        );
    }
}
