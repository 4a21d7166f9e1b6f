//! Frames of an earlier run's track, read back from its WAV file.

use crate::render::formats::SampleFormat;
use crate::render::reading;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::path::Path;

/// Bytes read at once: whole frames in every format.
const AT_ONCE: usize = 96 * 1024;

/// An open WAV file of a known format.
pub struct Kept {
    file: File,
    data_start: u64,
    data_bytes: u64,
    frame_bytes: u64,
}

impl Kept {
    /// Opens `path`, written earlier in `format`, and finds its frames.
    pub fn open(path: &Path, format: SampleFormat) -> io::Result<Self> {
        let mut file = reading::open_found(path)?;
        let mut head = [0; 12];
        file.read_exact(&mut head)?;
        let mut position = 12;
        loop {
            let mut chunk = [0; 8];
            file.read_exact(&mut chunk)?;
            position += 8;
            let [.., a, b, c, d] = chunk;
            let size = u64::from(u32::from_le_bytes([a, b, c, d]));
            if chunk.starts_with(b"data") {
                return Ok(Self {
                    file,
                    data_start: position,
                    data_bytes: size,
                    frame_bytes: format.frame_bytes(),
                });
            }
            position = file.seek(SeekFrom::Start(position + size + size % 2))?;
        }
    }

    /// True if the file holds these frames.
    pub fn holds(&self, first_frame: u64, frames: u64) -> bool {
        first_frame
            .checked_add(frames)
            .and_then(|end| end.checked_mul(self.frame_bytes))
            .is_some_and(|end| end <= self.data_bytes)
    }

    /// Passes the bytes of these frames to `to`, piece by piece.
    pub fn read<E: From<io::Error>>(
        &mut self,
        first_frame: u64,
        frames: u64,
        mut to: impl FnMut(&[u8]) -> Result<(), E>,
    ) -> Result<(), E> {
        let start = self.data_start + first_frame * self.frame_bytes;
        self.file.seek(SeekFrom::Start(start))?;
        let mut left = (frames * self.frame_bytes) as usize;
        let mut bytes = vec![0; AT_ONCE.min(left)];
        while left > 0 {
            let piece = &mut bytes[..AT_ONCE.min(left)];
            self.file.read_exact(piece)?;
            to(piece)?;
            left -= piece.len();
        }
        Ok(())
    }
}
