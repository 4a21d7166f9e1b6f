//! A connection that ends if the client is too slow to receive.

use super::body;
use super::room::Progress;
use std::io::{self, ErrorKind, IoSlice};
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::time::{Sleep, sleep};

/// A stream with a time limit for sending. While data waits to be sent, the client has to receive a chunk, or all of the
/// data if that is less, within the limit. So both slow and silent clients are disconnected.
pub struct Patient<S> {
    stream: S,
    limit: Duration,
    /// The deadline, while data waits to be sent.
    ends: Option<Pin<Box<Sleep>>>,
    /// Bytes sent since the deadline was set.
    taken: u64,
    progress: Progress,
}

impl<S> Patient<S> {
    /// Wraps a stream with this limit; says so whenever the client takes bytes.
    pub fn new(stream: S, limit: Duration, progress: Progress) -> Self {
        Self {
            stream,
            limit,
            ends: None,
            taken: 0,
            progress,
        }
    }

    /// The outcome of a write, or an error after the deadline.
    fn waited(
        &mut self,
        context: &mut Context<'_>,
        written: Poll<io::Result<usize>>,
    ) -> Poll<io::Result<usize>> {
        match &written {
            Poll::Pending => {
                let limit = self.limit;
                let ends = self.ends.get_or_insert_with(|| Box::pin(sleep(limit)));
                ready!(ends.as_mut().poll(context));
                return Poll::Ready(Err(ErrorKind::TimedOut.into()));
            }
            Poll::Ready(Ok(bytes)) => {
                self.progress.made();
                self.taken += *bytes as u64;
                if self.taken >= body::AT_ONCE {
                    self.settle();
                }
            }
            Poll::Ready(Err(_)) => {}
        }
        written
    }

    /// Clears the deadline; a new one is set when data waits next.
    fn settle(&mut self) {
        self.ends = None;
        self.taken = 0;
    }
}

impl<S: AsyncRead + Unpin> AsyncRead for Patient<S> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        to: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, to)
    }
}

impl<S: AsyncWrite + Unpin> AsyncWrite for Patient<S> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.waited(context, written)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        pieces: &[IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write_vectored(context, pieces);
        self.waited(context, written)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        // HTTP flushes when all data is sent.
        self.settle();
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}
