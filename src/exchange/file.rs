//! A file of music of any kind: its first bytes decide of which, not its name.

use super::piece::ImportedPiece;
use super::{abc, midi, musicxml, other_files};
use crate::problem::Problem;

/// The most bytes of a file, compressed or not: the bound for uncompressed music.
pub const LARGEST: u64 = musicxml::text::LARGEST as u64;

/// Reads the music of a file: the part, or the tune, named by `part`.
///
/// # Errors
/// If it holds no music that leadpipe reads, or several parts or tunes and none is named.
pub fn read(bytes: Vec<u8>, part: Option<&str>) -> Result<ImportedPiece, Problem> {
    if midi::read::is_midi(&bytes) {
        return midi::read(&bytes, part);
    }
    if musicxml::container::is_packed(&bytes) {
        let score = musicxml::container::unpack(&bytes)?;
        drop(bytes);
        return musicxml::read(&musicxml::text::decode(score)?, part);
    }
    if let Some(refusal) = other_files::refusal(&bytes) {
        return Err(refusal);
    }
    if is_tune(&bytes) {
        let text = abc::decode(&bytes);
        drop(bytes);
        return abc::read(&text, part);
    }
    let text = musicxml::text::decode(bytes)?;
    if !text.trim_start().starts_with('<') {
        return Err(other_files::no_music());
    }
    musicxml::read(&text, part)
}

/// True for the content of a file that [`read()`] takes for music, however broken it is: a routine is none.
pub fn is_music(bytes: &[u8]) -> bool {
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let first = text.iter().find(|byte| !byte.is_ascii_whitespace());
    midi::read::is_midi(bytes)
        || musicxml::container::is_packed(bytes)
        || first == Some(&b'<')
        || matches!(
            bytes,
            [b'<', 0, ..] | [0, b'<', ..] | [0xff, 0xfe, b'<', ..] | [0xfe, 0xff, 0, b'<', ..]
        )
        || is_tune(bytes)
}

/// True for text that is ABC and nothing else: a row of a routine begins with neither `X:` nor `K:`.
fn is_tune(bytes: &[u8]) -> bool {
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    !text.contains(&0)
        && text.trim_ascii_start().first() != Some(&b'<')
        && abc::is_abc(&abc::decode(text))
}
