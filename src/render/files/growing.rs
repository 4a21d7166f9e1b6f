//! A file that is being written: hashed on the way, and only given its name once it is whole.

use super::hashed::Hashed;
use super::look::{Look, size_and_time};
use super::passing;
use std::fs;
use std::io::{self, BufWriter, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// Bytes gathered before they are handed to the system.
const GATHERED: usize = 256 * 1024;

/// Where the bytes of a file being written go.
pub type Sink = BufWriter<Hashed>;

/// A file under a passing name. Dropped before it is finished, it is removed.
pub struct Growing {
    sink: Option<Sink>,
    head: Vec<u8>,
    path: PathBuf,
}

impl Growing {
    /// A new file in `folder` that will begin with `head`; one whose head is only known at the end begins
    /// with nothing.
    pub fn begin(folder: &Path, head: Vec<u8>) -> io::Result<Self> {
        let (file, path) = passing::create(folder)?;
        let hashed = Hashed::new(file, &head);
        Ok(Self {
            sink: Some(BufWriter::with_capacity(GATHERED, hashed)),
            head,
            path,
        })
    }

    /// Where its bytes go.
    pub fn sink(&mut self) -> &mut Sink {
        self.sink
            .as_mut()
            .expect("only finishing takes the sink, and it takes the file with it")
    }

    /// Appends `tail` and writes the head once more, for it holds the length of all.
    pub fn complete(&mut self, tail: &[u8]) -> io::Result<()> {
        let head = std::mem::take(&mut self.head);
        let sink = self.sink();
        sink.seek(SeekFrom::End(0))?;
        sink.write_all(tail)?;
        sink.seek(SeekFrom::Start(0))?;
        sink.write_all(&head)?;
        sink.flush()
    }

    /// Gives the completed file its name, in place of any file that has it.
    pub fn finish(mut self, name: &Path) -> io::Result<Look> {
        let sink = self
            .sink
            .take()
            .expect("only finishing takes the sink, and it takes the file with it");
        let mut hashed = sink.into_inner().map_err(io::IntoInnerError::into_error)?;
        let blake3 = hashed.hash()?;
        // The lock is held until the passing name is gone: nobody clears it away before.
        let given = fs::rename(&self.path, name);
        if given.is_err() {
            let _ = fs::remove_file(&self.path);
        }
        given?;
        let (bytes, modified_ns) = size_and_time(&hashed.file.metadata()?);
        Ok(Look {
            bytes,
            modified_ns,
            blake3,
        })
    }
}

impl Drop for Growing {
    fn drop(&mut self) {
        if let Some(sink) = self.sink.take() {
            // What is still gathered belongs to a file nobody will see.
            let (hashed, _) = sink.into_parts();
            // Removed while its lock is held. Should that fail, the next run clears it away.
            let _ = fs::remove_file(&self.path);
            drop(hashed);
        }
    }
}
