//! Encoded sound copied from another track's file: only the labels before it differ.

#[cfg(feature = "flac")]
use super::flac;
use super::labels::Labels;
#[cfg(feature = "mp3")]
use super::mp3;
use super::pcm::SampleFormat;
use crate::render::file_kind::FileKind;
use crate::render::reading;
use crate::timeline::Timeline;
use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;

/// Bytes copied at once.
const AT_ONCE: usize = 64 * 1024;

/// A file that holds the encoded sound.
pub struct Packed {
    /// At the first byte of the sound.
    file: File,
    head: Head,
}

/// What precedes the sound and is copied with it.
enum Head {
    #[cfg(feature = "flac")]
    Flac(Vec<u8>),
    #[cfg(feature = "mp3")]
    Mp3,
}

impl Packed {
    /// Opens a file that this program wrote; `None` if it is not valid, or its kind is not encoded.
    pub fn open(path: &Path, kind: FileKind) -> Option<Self> {
        let mut file = reading::open_found(path).ok()?;
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

    /// Writes a file with these labels and the same sound. `go_on` is called at intervals.
    pub fn copy<E: From<io::Error>>(
        mut self,
        sink: &mut impl Write,
        format: SampleFormat,
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
