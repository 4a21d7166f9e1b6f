//! The body of a response: text, or ranges of a file. Only the chunk that is being sent is in memory.

use hyper::body::{Body, Bytes, Frame, SizeHint};
use std::collections::VecDeque;
use std::fs::File;
use std::io::{self, ErrorKind, Read, Seek, SeekFrom};
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll, ready};
use tokio::sync::oneshot;

use super::readers::Readers;

/// The most bytes of a file that are read at once.
pub const AT_ONCE: u64 = 64 * 1024;

/// The body of a response.
pub struct Answer {
    pieces: VecDeque<BodyPiece>,
    source: Option<Source>,
    /// The chunk that is being read.
    reading: Option<oneshot::Receiver<io::Result<Vec<u8>>>>,
    left: u64,
}

/// A file, and who reads it.
pub struct Source {
    /// The file.
    pub file: Arc<File>,
    /// The threads that read it.
    pub readers: Arc<Readers>,
}

impl Source {
    /// Begins to read from a place on.
    fn read(&self, from: u64, most: u64) -> oneshot::Receiver<io::Result<Vec<u8>>> {
        let file = Arc::clone(&self.file);
        self.readers.run(move || chunk(&file, from, most))
    }
}

/// Some bytes from a place on; none at the end of the file. Nobody else reads this file.
fn chunk(mut file: &File, from: u64, most: u64) -> io::Result<Vec<u8>> {
    file.seek(SeekFrom::Start(from))?;
    let mut bytes = vec![0; most as usize];
    loop {
        match file.read(&mut bytes) {
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            read => {
                bytes.truncate(read?);
                return Ok(bytes);
            }
        }
    }
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

    /// A body of these pieces; ranges are read from `source`.
    pub fn new(pieces: Vec<BodyPiece>, source: Option<Source>) -> Self {
        let pieces: VecDeque<BodyPiece> = pieces.into_iter().filter(|p| p.length() > 0).collect();
        Self {
            left: pieces.iter().map(BodyPiece::length).sum(),
            pieces,
            source,
            reading: None,
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
        let Some(source) = &this.source else {
            return Poll::Ready(Some(Err(ErrorKind::NotFound.into())));
        };
        // A range is read in several chunks; each begins at the end of the last one.
        let reading = this
            .reading
            .get_or_insert_with(|| source.read(from, AT_ONCE.min(to - from)));
        let read = ready!(Pin::new(reading).poll(context));
        this.reading = None;
        let bytes = read.map_err(io::Error::other)??;
        let n = bytes.len();
        if n == 0 {
            // The file became shorter in the meantime. An incomplete response is better than wrong bytes.
            return Poll::Ready(Some(Err(ErrorKind::UnexpectedEof.into())));
        }
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
