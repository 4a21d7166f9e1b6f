//! Kinds of sound file a track can be written as.

use serde::{Deserialize, Serialize};

/// A kind of sound file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FileKind {
    /// WAV: uncompressed samples.
    Wav,
    /// FLAC: lossless, about a third of the size.
    Flac,
    /// MP3: what every phone plays, a tenth of the size or less.
    Mp3,
}

impl FileKind {
    /// All of them, lossless ones first.
    pub const ALL: [FileKind; 3] = [FileKind::Wav, FileKind::Flac, FileKind::Mp3];

    /// Its word, which is also the file extension.
    pub fn word(self) -> &'static str {
        match self {
            FileKind::Wav => "wav",
            FileKind::Flac => "flac",
            FileKind::Mp3 => "mp3",
        }
    }

    /// True if this build of the program can write it.
    pub fn is_built_in(self) -> bool {
        match self {
            FileKind::Wav => true,
            FileKind::Flac => cfg!(feature = "flac"),
            FileKind::Mp3 => cfg!(feature = "mp3"),
        }
    }

    /// True if the file contains the name of the routine, the take and a picture, so that it changes with them.
    pub fn is_labelled(self) -> bool {
        self != FileKind::Wav
    }
}

/// A set of file kinds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileKinds([bool; FileKind::ALL.len()]);

impl FileKinds {
    /// The empty set.
    pub const NONE: Self = Self([false; FileKind::ALL.len()]);
    /// WAV alone.
    pub const WAV: Self = Self([true, false, false]);

    /// This set with `kind` added.
    pub const fn with(mut self, kind: FileKind) -> Self {
        self.0[kind as usize] = true;
        self
    }

    /// True if the set contains `kind`.
    pub fn has(self, kind: FileKind) -> bool {
        self.0[kind as usize]
    }
}

impl FromIterator<FileKind> for FileKinds {
    fn from_iter<I: IntoIterator<Item = FileKind>>(kinds: I) -> Self {
        kinds.into_iter().fold(Self::NONE, Self::with)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_those_that_were_named() {
        let kinds: FileKinds = [FileKind::Mp3, FileKind::Wav].into_iter().collect();
        let has = FileKind::ALL.map(|kind| kinds.has(kind));
        assert_eq!(has, [true, false, true]);
        assert_eq!(FileKinds::NONE.with(FileKind::Wav), FileKinds::WAV);
    }
}
