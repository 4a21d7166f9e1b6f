//! The body of a response: text, or ranges of a file. Only the chunk that is being sent is in memory.

use hyper::body::{Body, Bytes, Frame, SizeHint};
use std::collections::VecDeque;
use std::io::{self, SeekFrom};
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use tokio::fs::File;
use tokio::io::{AsyncRead, AsyncSeek, ReadBuf};

/// The most bytes of a file that are read at once.
pub const AT_ONCE: u64 = 64 * 1024;

/// The body of a response.
pub struct Answer {
    pieces: VecDeque<BodyPiece>,
    file: Option<File>,
    /// True while the file seeks to the next piece.
    seeking: bool,
    left: u64,
}

/// A piece of a body.
pub enum BodyPiece {
    /// Text.
    Text(Bytes),
    /// A range of the file: its first byte, and one past its last.
    FileRange(u64, u64),
}

impl BodyPiece {
    fn length(&self) -> u64 {
        match self {
            BodyPiece::Text(words) => words.len() as u64,
            BodyPiece::FileRange(from, to) => to - from,
        }
    }
}

impl Answer {
    /// A body of text.
    pub fn words(words: impl Into<Bytes>) -> Self {
        Self::new(vec![BodyPiece::Text(words.into())], None)
    }

    /// An empty body.
    pub fn nothing() -> Self {
        Self::new(vec![], None)
    }

    /// A body of these pieces; ranges are read from `file`.
    pub fn new(pieces: Vec<BodyPiece>, file: Option<std::fs::File>) -> Self {
        let pieces: VecDeque<BodyPiece> = pieces.into_iter().filter(|p| p.length() > 0).collect();
        Self {
            left: pieces.iter().map(BodyPiece::length).sum(),
            pieces,
            file: file.map(File::from_std),
            seeking: false,
        }
    }

    /// The length in bytes.
    pub fn length(&self) -> u64 {
        self.left
    }
}

impl Body for Answer {
    type Data = Bytes;
    type Error = io::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<io::Result<Frame<Bytes>>>> {
        let this = &mut *self;
        let (from, to) = match this.pieces.front() {
            None => return Poll::Ready(None),
            Some(BodyPiece::Text(words)) => {
                let words = words.clone();
                this.left -= words.len() as u64;
                this.pieces.pop_front();
                return Poll::Ready(Some(Ok(Frame::data(words))));
            }
            Some(BodyPiece::FileRange(from, to)) => (*from, *to),
        };
        let Some(file) = &mut this.file else {
            return Poll::Ready(Some(Err(io::ErrorKind::NotFound.into())));
        };
        let mut file = Pin::new(file);
        // A range is read in several chunks; each begins at the end of the last one.
        if !this.seeking {
            file.as_mut().start_seek(SeekFrom::Start(from))?;
            this.seeking = true;
        }
        ready!(file.as_mut().poll_complete(context))?;
        let mut bytes = vec![0; AT_ONCE.min(to - from) as usize];
        let mut read = ReadBuf::new(&mut bytes);
        ready!(file.as_mut().poll_read(context, &mut read))?;
        let n = read.filled().len();
        this.seeking = false;
        if n == 0 {
            // The file became shorter in the meantime. An incomplete response is better than wrong bytes.
            return Poll::Ready(Some(Err(io::ErrorKind::UnexpectedEof.into())));
        }
        bytes.truncate(n);
        this.left -= n as u64;
        let from = from + n as u64;
        if from == to {
            this.pieces.pop_front();
        } else {
            this.pieces[0] = BodyPiece::FileRange(from, to);
        }
        Poll::Ready(Some(Ok(Frame::data(bytes.into()))))
    }

    fn is_end_stream(&self) -> bool {
        self.pieces.is_empty()
    }

    fn size_hint(&self) -> SizeHint {
        SizeHint::with_exact(self.left)
    }
}
