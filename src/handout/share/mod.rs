//! Serves a folder on the network, read-only: HTTP/1.1 (RFC 9110, RFC 9112).
//!
//! One thread answers, and others read files for it. All resources that a client can use are bounded: connections in total and from one address, the
//! time and the size of a request's head, the bytes of a file in memory for each connection, and the time a client may
//! take to receive them.

mod body;
mod folder;
mod host;
mod kind;
mod lan;
mod listing;
mod packed;
mod patient;
mod range;
mod readers;
mod respond;
mod room;

pub use body::Answer;
pub use folder::{Folder, Found};
pub use lan::lan_address;
pub use readers::Readers;
pub use room::{MOST_CONNECTIONS, MOST_OF_ONE, REST_TIME};

use patient::Patient;
use room::{Progress, Room};

use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Request, Response};
use hyper_util::rt::{TokioIo, TokioTimer};
use std::convert::Infallible;
use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use tokio::io::AsyncWriteExt;
use tokio::net::{TcpListener, TcpStream};
use tokio::task::JoinSet;

/// How long the head of a request may take, and how long a connection may stay idle between requests.
pub const HEAD_TIME: Duration = Duration::from_secs(5);
/// How long a client may take to receive a chunk. A player that pauses for longer requests the rest again.
pub const TAKING_TIME: Duration = Duration::from_secs(60);
/// The most bytes of a request's head.
pub const LARGEST_HEAD: usize = 16 * 1024;
/// The most header fields of a request.
const MOST_FIELDS: usize = 64;
/// How many threads read files. Requests that they do not come to wait.
const READERS: usize = 4;
/// The interval at which a stop is noticed.
const ATTENTION: Duration = Duration::from_millis(100);

/// The response when there are too many connections.
const BUSY: &[u8] = b"HTTP/1.1 503 Service Unavailable\r\nConnection: close\r\nRetry-After: 5\r\n\
    Content-Type: text/plain; charset=utf-8\r\nContent-Length: 42\r\n\r\n\
    Too many are connected; try again shortly.";

/// What a server answers with.
pub trait Site: Send + Sync + 'static {
    /// The answer to a request. Whatever may block is done by `readers`.
    fn answer(
        &self,
        request: Request<Incoming>,
        readers: &Arc<Readers>,
    ) -> impl Future<Output = Response<Answer>> + Send;
}

impl Site for Folder {
    async fn answer(&self, request: Request<Incoming>, readers: &Arc<Readers>) -> Response<Answer> {
        respond::to(&request, self, readers).await
    }
}

/// A server, of a shared folder if nothing else is said.
pub struct Server<S: Site = Folder> {
    listener: std::net::TcpListener,
    site: Arc<S>,
    taking_time: Duration,
}

impl<S: Site> Server<S> {
    /// Binds `address` for `site`. Connections are queued from now on.
    ///
    /// # Errors
    /// If the address cannot be bound.
    pub fn open(site: S, address: SocketAddr) -> io::Result<Self> {
        Self::with(address, |_| site)
    }

    /// Binds `address` for a site that must know what was bound.
    ///
    /// # Errors
    /// If the address cannot be bound.
    pub fn with(address: SocketAddr, site: impl FnOnce(SocketAddr) -> S) -> io::Result<Self> {
        let listener = std::net::TcpListener::bind(address)?;
        listener.set_nonblocking(true)?;
        let site = site(listener.local_addr()?);
        Ok(Self {
            listener,
            site: Arc::new(site),
            taking_time: TAKING_TIME,
        })
    }

    /// Sets a limit other than [`TAKING_TIME`].
    #[must_use]
    pub fn taking_time(mut self, limit: Duration) -> Self {
        self.taking_time = limit;
        self
    }

    /// The bound address, with the port that the system chose if none was given.
    ///
    /// # Errors
    /// If the system does not return it.
    pub fn address(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }

    /// Serves until `stop` becomes true; then closes every connection.
    ///
    /// # Errors
    /// If the runtime cannot be started.
    pub fn run(self, stop: &AtomicBool) -> io::Result<()> {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()?;
        runtime.block_on(self.answer(stop))
    }

    async fn answer(self, stop: &AtomicBool) -> io::Result<()> {
        let listener = TcpListener::from_std(self.listener)?;
        let mut room = Room::default();
        // Nobody waits for their end: a read of a network drive may hang.
        let readers = Arc::new(Readers::start(READERS));
        let mut connections = JoinSet::new();
        while !stop.load(Ordering::Relaxed) {
            let accepted = tokio::time::timeout(ATTENTION, listener.accept()).await;
            while let Some(ended) = connections.try_join_next_with_id() {
                room.release(ended.map_or_else(|error| error.id(), |(id, ())| id));
            }
            let (stream, from) = match accepted {
                Ok(Ok((stream, from))) => (stream, from.ip()),
                // Keep running after a failed connection or a temporary lack of file handles.
                Ok(Err(_)) => {
                    tokio::time::sleep(ATTENTION).await;
                    continue;
                }
                Err(_) => continue,
            };
            if !room.admits(from) {
                turn_away(stream);
                continue;
            }
            // Responses are short or written in large chunks.
            let _ = stream.set_nodelay(true);
            let site = Arc::clone(&self.site);
            let progress = Progress::new();
            let stream = Patient::new(stream, self.taking_time, progress.clone());
            let task = connections.spawn(serve(stream, site, Arc::clone(&readers)));
            room.keep(from, progress, task);
        }
        connections.shutdown().await;
        Ok(())
    }
}

async fn serve<S: Site>(stream: Patient<TcpStream>, site: Arc<S>, readers: Arc<Readers>) {
    let service = service_fn(move |request| {
        let site = Arc::clone(&site);
        let readers = Arc::clone(&readers);
        async move { Ok::<_, Infallible>(site.answer(request, &readers).await) }
    });
    // Nothing needs to be done about a broken connection.
    let _ = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_TIME)
        .max_buf_size(LARGEST_HEAD)
        .max_headers(MOST_FIELDS)
        // A client that has no more to ask still gets its answer.
        .half_close(true)
        .serve_connection(TokioIo::new(stream), service)
        .await;
}

/// Sends the busy response if that is possible without waiting.
fn turn_away(mut stream: TcpStream) {
    tokio::spawn(async move {
        let said = async {
            stream.write_all(BUSY).await?;
            stream.shutdown().await
        };
        let _ = tokio::time::timeout(Duration::from_millis(200), said).await;
    });
}
