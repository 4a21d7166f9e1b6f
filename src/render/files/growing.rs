//! A file being written: hashed on the way, and renamed only when it is complete.

use super::hashed::Hashed;
use super::look::{Look, size_and_time};
use super::passing;
use std::fs::{self, File};
use std::io::{self, BufWriter, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// Size of the write buffer in bytes.
const GATHERED: usize = 256 * 1024;

/// Where the bytes of a file being written go.
pub type Sink = BufWriter<Hashed>;

/// A file under a temporary name. It is removed if it is dropped before it is finished.
pub struct Growing {
    sink: Option<Sink>,
    head: Vec<u8>,
    path: PathBuf,
}

impl Growing {
    /// A new file in `folder` that will begin with `head`; empty if the head is only known at the end.
    pub fn begin(folder: &Path, head: Vec<u8>) -> io::Result<Self> {
        let (file, path) = passing::create(folder)?;
        let hashed = Hashed::new(file, &head);
        Ok(Self {
            sink: Some(BufWriter::with_capacity(GATHERED, hashed)),
            head,
            path,
        })
    }

    /// A complete file that will get the name `path`, with the permissions of the file that is there.
    pub(super) fn whole(folder: &Path, path: &Path, bytes: &[u8]) -> io::Result<Self> {
        let mut file = Self::begin(folder, Vec::new())?;
        file.sink().write_all(bytes)?;
        file.complete(b"")?;
        file.permit_as(path)?;
        Ok(file)
    }

    /// The writer for its bytes.
    pub fn sink(&mut self) -> &mut Sink {
        self.sink
            .as_mut()
            .expect("only finishing takes the sink, and it takes the file with it")
    }

    /// Appends `tail` and writes the head again, because it holds the total length.
    pub fn complete(&mut self, tail: &[u8]) -> io::Result<()> {
        let head = std::mem::take(&mut self.head);
        let sink = self.sink();
        sink.seek(SeekFrom::End(0))?;
        sink.write_all(tail)?;
        sink.seek(SeekFrom::Start(0))?;
        sink.write_all(&head)?;
        sink.flush()
    }

    /// Gives the file the permissions, and where this is allowed the owner, of the file at `path`, if there is one.
    pub fn permit_as(&mut self, path: &Path) -> io::Result<()> {
        let Ok(there) = fs::metadata(path) else {
            return Ok(());
        };
        let file = &self.sink().get_ref().file;
        let own = file.metadata()?;
        own_as(file, &own, &there);
        if own.permissions() != there.permissions() {
            file.set_permissions(there.permissions())?;
        }
        Ok(())
    }

    /// Renames the completed file, replacing any file of that name.
    pub fn rename(mut self, path: &Path) -> io::Result<Look> {
        let look = self.closed()?;
        fs::rename(&self.path, path)?;
        self.renamed();
        Ok(look)
    }

    /// Writes the completed file to the disk.
    pub(super) fn sync(&mut self) -> io::Result<()> {
        self.sink().get_ref().file.sync_all()
    }

    /// Its temporary path.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// The look of the completed file. Errors that the system reports when a file is closed are reported here.
    pub(super) fn closed(&mut self) -> io::Result<Look> {
        let hashed = self.sink().get_mut();
        let blake3 = hashed.hash()?;
        // The file itself stays open, because its lock keeps others from removing it while it has no name of its own.
        close(hashed.file.try_clone()?)?;
        let (bytes, modified_ns) = size_and_time(&hashed.file.metadata()?);
        Ok(Look {
            bytes,
            modified_ns,
            blake3,
        })
    }

    /// Closes the file, which has no temporary name any more.
    pub(super) fn renamed(&mut self) {
        if let Some(sink) = self.sink.take() {
            drop(sink.into_parts());
        }
    }
}

/// Closes a file and returns the error that the system reports then: a network file system may report only now that the
/// disk is full.
#[cfg(unix)]
fn close(file: File) -> io::Result<()> {
    Ok(nix::unistd::close(file)?)
}

#[cfg(not(unix))]
fn close(file: File) -> io::Result<()> {
    drop(file);
    Ok(())
}

/// Gives the file the owner and group that `there` has. Only the administrator may do that; others keep their own.
#[cfg(unix)]
fn own_as(file: &File, own: &fs::Metadata, there: &fs::Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    if (own.uid(), own.gid()) != (there.uid(), there.gid()) {
        let _ = fchown(file, Some(there.uid()), Some(there.gid()));
    }
}

#[cfg(not(unix))]
fn own_as(_: &File, _: &fs::Metadata, _: &fs::Metadata) {}

impl Drop for Growing {
    fn drop(&mut self) {
        if let Some(sink) = self.sink.take() {
            // The buffered bytes belong to a file that is about to be removed.
            let (hashed, _) = sink.into_parts();
            // Removed while its lock is held. If that fails, the next run removes it.
            let _ = fs::remove_file(&self.path);
            drop(hashed);
        }
    }
}
