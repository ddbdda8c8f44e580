//! The server of a preview: requests in, files of a site out, on a thread of its own.
//!
//! The library is `hyper`: of the established ones it is the one that is maintained, bounds the size
//! and the time of a request's head, and brings few crates. It answers what is cheap itself and asks
//! the owner of the pages for the rest, one request after the other. Must never look at a file, decode
//! a path, or answer anything but GET and HEAD for a host that it is.

use std::convert::Infallible;
use std::io;
use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, mpsc};
use std::thread;
use std::time::Duration;

use http_body_util::Full;
use hyper::body::{Body as _, Bytes, Incoming};
use hyper::header::{self, HeaderName, HeaderValue};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, oneshot, watch};
use tokio::time;

use super::path;

/// Bytes of the longest head of a request.
const MOST_HEAD: usize = 16 * 1024;
/// How long a request's head may take, and a connection stay without one.
const PATIENCE: Duration = Duration::from_secs(30);
/// Connections at a time; more are closed.
const MOST_OPEN: usize = 128;
/// How long a page waits for a change before it asks again.
const HELD: Duration = Duration::from_secs(20);

/// Where pages ask for changes, from the site's root.
const CHANGES: &str = "preview/changes";

/// A file that somebody wants.
#[derive(Debug)]
pub struct Ask {
    /// Its path from the site's root, in plain letters.
    pub path: String,
    /// Where the file goes; none when there is no such file.
    pub reply: oneshot::Sender<Option<Vec<u8>>>,
}

/// A server that runs.
#[derive(Debug)]
pub struct Server {
    /// Where it listens.
    pub address: SocketAddr,
    /// What is asked for.
    pub asks: mpsc::Receiver<Ask>,
    /// The number of the state that is shown.
    pub state: watch::Sender<i64>,
}

impl Server {
    /// Listens at an address; port 0 is a free one. It ends with the process, and so does its port.
    ///
    /// # Errors
    /// What the system says when it gives no such port or thread.
    pub fn start(address: IpAddr, port: u16) -> io::Result<Server> {
        let listener = std::net::TcpListener::bind((address, port))?;
        listener.set_nonblocking(true)?;
        let address = listener.local_addr()?;
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
        let (ask, asks) = mpsc::channel();
        let (state, states) = watch::channel(0);
        let is_open = !address.ip().is_loopback();
        let desk = Desk { ask, states, port: address.port(), is_open };
        let serve = move || {
            runtime.block_on(async {
                if let Ok(listener) = TcpListener::from_std(listener) {
                    accept(listener, desk).await;
                }
            });
        };
        thread::Builder::new().name("preview".to_owned()).spawn(serve)?;
        Ok(Server { address, asks, state })
    }
}

/// What every connection has at hand.
#[derive(Clone)]
struct Desk {
    ask: mpsc::Sender<Ask>,
    states: watch::Receiver<i64>,
    port: u16,
    is_open: bool,
}

async fn accept(listener: TcpListener, desk: Desk) {
    let room = Arc::new(Semaphore::new(MOST_OPEN));
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            // Out of something: it may come back.
            time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        let Ok(place) = room.clone().try_acquire_owned() else { continue };
        let desk = desk.clone();
        tokio::spawn(async move {
            connection(stream, desk).await;
            drop(place);
        });
    }
}

async fn connection(stream: TcpStream, desk: Desk) {
    let service = service_fn(|request| async { Ok::<_, Infallible>(desk.answer(request).await) });
    // A reader that goes away, or sends what is no request, is no fault of ours.
    let _ = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(PATIENCE)
        .max_buf_size(MOST_HEAD)
        .serve_connection(TokioIo::new(stream), service)
        .await;
}

impl Desk {
    async fn answer(&self, request: Request<Incoming>) -> Response<Full<Bytes>> {
        if !self.is_for_us(&request) {
            return plain(StatusCode::MISDIRECTED_REQUEST);
        }
        if request.method() != Method::GET && request.method() != Method::HEAD {
            let mut refused = plain(StatusCode::METHOD_NOT_ALLOWED);
            refused.headers_mut().insert(header::ALLOW, HeaderValue::from_static("GET, HEAD"));
            return closing(refused);
        }
        if !request.body().is_end_stream() {
            return closing(plain(StatusCode::PAYLOAD_TOO_LARGE));
        }
        let Some(path) = path::wanted(request.uri().path()) else {
            return plain(StatusCode::NOT_FOUND);
        };
        if path == CHANGES {
            return self.changes(request.uri().query().unwrap_or_default()).await;
        }
        let (reply, file) = oneshot::channel();
        let kind = path::kind(&path);
        if self.ask.send(Ask { path, reply }).is_err() {
            return plain(StatusCode::SERVICE_UNAVAILABLE);
        }
        match file.await {
            Ok(Some(bytes)) => response(StatusCode::OK, kind, bytes),
            Ok(None) => plain(StatusCode::NOT_FOUND),
            Err(_) => plain(StatusCode::SERVICE_UNAVAILABLE),
        }
    }

    /// Whether a request names this server, once, and no other one in its target.
    fn is_for_us(&self, request: &Request<Incoming>) -> bool {
        let mut hosts = request.headers().get_all(header::HOST).iter();
        let (host, other) = (hosts.next(), hosts.next());
        let host = host.and_then(|host| host.to_str().ok()).unwrap_or_default();
        let is_own = path::is_own(host, self.port, self.is_open);
        is_own && other.is_none() && request.uri().authority().is_none()
    }

    /// Answers when there is another state than the one that a page shows, or when it waited long enough.
    async fn changes(&self, query: &str) -> Response<Full<Bytes>> {
        let since = path::value(query, "since").and_then(|since| since.parse::<i64>().ok());
        let mut states = self.states.clone();
        let changed = states.wait_for(|number| Some(*number) != since);
        let now = match time::timeout(HELD, changed).await {
            Ok(Ok(number)) => *number,
            Ok(Err(_)) => return plain(StatusCode::SERVICE_UNAVAILABLE),
            Err(_) => *self.states.borrow(),
        };
        response(StatusCode::OK, "application/json", format!("{{\"now\":{now}}}").into_bytes())
    }
}

/// A status as a page of its own.
fn plain(status: StatusCode) -> Response<Full<Bytes>> {
    response(status, "text/plain; charset=utf-8", format!("{status}\n").into_bytes())
}

/// Answers, and reads no more from whoever asked.
fn closing(mut answer: Response<Full<Bytes>>) -> Response<Full<Bytes>> {
    answer.headers_mut().insert(header::CONNECTION, HeaderValue::from_static("close"));
    answer
}

fn response(status: StatusCode, kind: &'static str, bytes: Vec<u8>) -> Response<Full<Bytes>> {
    let mut response = Response::new(Full::new(Bytes::from(bytes)));
    *response.status_mut() = status;
    let readers = HeaderName::from_static("cross-origin-resource-policy");
    // A page states the rest of its policy itself.
    let policy = "frame-ancestors 'none'; base-uri 'none'; form-action 'none'";
    for (name, value) in [
        (header::CONTENT_TYPE, kind),
        (header::CACHE_CONTROL, "no-store"),
        (header::CONTENT_SECURITY_POLICY, policy),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (readers, "same-origin"),
    ] {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}
