//! A file that is being written: hashed on the way, and only given its name once it is whole.

use super::cut_short;
use blake3::Hasher;
use std::fs::{self, File, Metadata};
use std::io::{self, BufWriter, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

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

/// What a finished file looks like from outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// Its length in bytes.
    pub bytes: u64,
    /// When it was written, in nanoseconds since 1970; 0 where the system cannot say.
    pub modified_ns: u64,
    /// The BLAKE3 hash of its bytes, in hexadecimal.
    pub blake3: String,
}

impl Growing {
    /// A new file in `folder` that will begin with `head`; one whose head is only known at the end begins
    /// with nothing.
    pub fn begin(folder: &Path, head: Vec<u8>) -> io::Result<Self> {
        let (file, path) = cut_short::create(folder)?;
        let mut hasher = Hasher::new();
        hasher.update(&head);
        let hashed = Hashed {
            file,
            position: 0,
            foretold: head.len() as u64,
            hashed_to: head.len() as u64,
            hasher,
            hashed_in_vain: false,
        };
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

/// Length and time of a file.
pub fn size_and_time(metadata: &Metadata) -> (u64, u64) {
    let since = metadata
        .modified()
        .ok()
        .and_then(|time| time.duration_since(UNIX_EPOCH).ok());
    let modified_ns = since.and_then(|s| u64::try_from(s.as_nanos()).ok());
    (metadata.len(), modified_ns.unwrap_or(0))
}

/// The BLAKE3 hash of a whole file, in hexadecimal; `go_on` is asked now and then.
pub fn hash_of(path: &Path, go_on: &dyn Fn() -> bool) -> io::Result<String> {
    hash_from_here(&mut File::open(path)?, go_on)
}

fn hash_from_here(file: &mut File, go_on: &dyn Fn() -> bool) -> io::Result<String> {
    let mut hasher = Hasher::new();
    let mut bytes = vec![0; GATHERED];
    loop {
        let n = file.read(&mut bytes)?;
        if n == 0 || !go_on() {
            return Ok(hasher.finalize().to_hex().to_string());
        }
        hasher.update(&bytes[..n]);
    }
}

/// A file whose bytes are hashed as they are written for the first time. The head is hashed before:
/// what is written over it later is what was foretold. Where anything else is written over, the file is
/// read back at the end.
pub struct Hashed {
    file: File,
    position: u64,
    foretold: u64,
    hashed_to: u64,
    hasher: Hasher,
    hashed_in_vain: bool,
}

impl Hashed {
    fn hash(&mut self) -> io::Result<String> {
        if !self.hashed_in_vain {
            return Ok(self.hasher.finalize().to_hex().to_string());
        }
        self.file.seek(SeekFrom::Start(0))?;
        hash_from_here(&mut self.file, &|| true)
    }
}

impl Write for Hashed {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.file.write(bytes)?;
        let end = self.position + n as u64;
        self.hashed_in_vain |= self.position < self.hashed_to && end > self.foretold;
        if end > self.hashed_to {
            let known = self.hashed_to.saturating_sub(self.position) as usize;
            self.hasher.update(&bytes[known..n]);
            self.hashed_to = end;
        }
        self.position = end;
        Ok(n)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Seek for Hashed {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.position = self.file.seek(to)?;
        Ok(self.position)
    }
}
