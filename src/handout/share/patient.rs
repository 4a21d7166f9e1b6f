//! A connection that ends when the other side takes too long over what is sent to it.

use super::body;
use std::io::{self, ErrorKind, IoSlice};
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::time::{Sleep, sleep};

/// A stream on which, while something waits to be sent, a piece of a file's length has to be taken within a limit, or all
/// that waits if that is less: so there is a limit to slowness as well as to silence.
pub struct Patient<S> {
    stream: S,
    limit: Duration,
    /// When patience ends, while something waits.
    ends: Option<Pin<Box<Sleep>>>,
    /// Bytes taken since that was settled.
    taken: u64,
}

impl<S> Patient<S> {
    /// A stream with its limit.
    pub fn new(stream: S, limit: Duration) -> Self {
        Self {
            stream,
            limit,
            ends: None,
            taken: 0,
        }
    }

    /// What came of a write, or the end of patience.
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
                self.taken += *bytes as u64;
                if self.taken >= body::AT_ONCE {
                    self.settle();
                }
            }
            Poll::Ready(Err(_)) => {}
        }
        written
    }

    /// Patience begins anew when something has to wait next.
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
        // HTTP flushes when nothing waits any more.
        self.settle();
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}
