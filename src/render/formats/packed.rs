//! Sound as it is packed in another track's file, on its way into this one's: only what stands before it, the
//! labels, is each file's own.

#[cfg(feature = "flac")]
use super::flac;
use super::labels::Labels;
#[cfg(feature = "mp3")]
use super::mp3;
use super::pcm::Format;
use crate::render::file_kind::FileKind;
use crate::timeline::Timeline;
use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;

/// Bytes copied at once.
const AT_ONCE: usize = 64 * 1024;

/// A file that holds the sound.
pub struct Packed {
    /// At the first byte of the sound.
    file: File,
    head: Head,
}

/// What stands before the sound and goes with it.
enum Head {
    #[cfg(feature = "flac")]
    Flac(Vec<u8>),
    #[cfg(feature = "mp3")]
    Mp3,
}

impl Packed {
    /// Opens a file of this program's; none if it is not what it should be, or of a kind whose sound is not packed.
    pub fn open(path: &Path, kind: FileKind) -> Option<Self> {
        let mut file = File::open(path).ok()?;
        let head = match kind {
            #[cfg(feature = "flac")]
            FileKind::Flac => Head::Flac(flac::read_head(&mut file).ok()?),
            #[cfg(feature = "mp3")]
            FileKind::Mp3 => {
                mp3::skip_tags(&mut file).ok()?;
                Head::Mp3
            }
            _ => return None,
        };
        Some(Self { file, head })
    }

    /// Writes a file with these labels and the same sound. `go_on` is asked now and then.
    pub fn copy<E: From<io::Error>>(
        mut self,
        sink: &mut impl Write,
        format: Format,
        labels: &Labels,
        timeline: &Timeline,
        go_on: impl Fn() -> Result<(), E>,
    ) -> Result<(), E> {
        let cues = &timeline.cues;
        match &self.head {
            #[cfg(feature = "flac")]
            Head::Flac(head) => flac::write_metadata(sink, format, labels, cues, head)?,
            #[cfg(feature = "mp3")]
            Head::Mp3 => mp3::write_tags(sink, format, labels, cues, timeline.frames)?,
        }
        let mut bytes = vec![0; AT_ONCE];
        loop {
            go_on()?;
            match self.file.read(&mut bytes)? {
                0 => return Ok(()),
                n => sink.write_all(&bytes[..n])?,
            }
        }
    }
}
