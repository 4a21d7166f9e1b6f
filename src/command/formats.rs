//! Kinds of file as they are named on the command line.

use crate::render::FileKind;
use crate::words::{Words, tell};

/// Reads `wav`, `flac` or `mp3`.
///
/// # Errors
/// A message to show after the option's name.
pub fn kind(text: &str) -> Result<FileKind, Words> {
    let text = text.trim().to_lowercase();
    let text = text.strip_prefix('.').unwrap_or(&text);
    let kind = FileKind::ALL
        .into_iter()
        .find(|kind| kind.word() == text)
        .ok_or(tell::formats_are())?;
    if kind.is_built_in() {
        return Ok(kind);
    }
    let word = kind.word();
    Err(format!(
        "this leadpipe was built without {word} files: build it with --features {word}, or leave {word} out").into())
}

/// The best kind for phones that this build can write.
pub fn for_phones() -> FileKind {
    let built_in = FileKind::ALL.into_iter().rev().find(|k| k.is_built_in());
    built_in.unwrap_or(FileKind::Wav)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_named_as_files_end() {
        assert_eq!(kind("wav"), Ok(FileKind::Wav));
        assert_eq!(kind(" .WAV"), Ok(FileKind::Wav));
        assert_eq!(kind("mp3").is_ok(), cfg!(feature = "mp3"));
        assert_eq!(kind("flac").is_ok(), cfg!(feature = "flac"));
        for text in ["", "ogg", "mp3 flac"] {
            assert!(kind(text).is_err(), "{text}");
        }
    }
}
