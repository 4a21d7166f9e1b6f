//! Decodes the content of a file to text.

use crate::problem::Problem;
use std::borrow::Cow;

/// The most bytes of text that are accepted, uncompressed: 32 MiB. A movement of a symphony takes less.
pub const LARGEST: usize = 32 << 20;

/// Decodes a MusicXML file in UTF-8, UTF-16 or, if its declaration says so, ISO 8859-1.
///
/// # Errors
/// If it has another encoding, or is too large.
pub fn decode<'b>(bytes: impl Into<Cow<'b, [u8]>>) -> Result<String, Problem> {
    let bytes = bytes.into();
    bounded(bytes.len())?;
    let text = match &*bytes {
        [0xff, 0xfe, rest @ ..] => utf_16(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => utf_16(rest, u16::from_be_bytes),
        // Without a byte order mark the first letter, `<`, decides.
        [b'<', 0, ..] => utf_16(&bytes, u16::from_le_bytes),
        [0, b'<', ..] => utf_16(&bytes, u16::from_be_bytes),
        all if says_latin_1(all) => Ok(all.iter().map(|b| char::from(*b)).collect()),
        _ => utf_8(bytes),
    }?;
    // A letter of one byte there may take two here.
    bounded(text.len())?;
    Ok(text)
}

fn bounded(length: usize) -> Result<(), Problem> {
    if length > LARGEST {
        return Err(Problem::error(format!(
            "the music is larger than {} MiB, which no warm-up needs",
            LARGEST >> 20
        )));
    }
    Ok(())
}

/// The bytes themselves become the text: there is one copy of a large file at a time.
fn utf_8(bytes: Cow<'_, [u8]>) -> Result<String, Problem> {
    match String::from_utf8(bytes.into_owned()) {
        Ok(mut text) => {
            if text.starts_with('\u{feff}') {
                text.remove(0);
            }
            Ok(text)
        }
        Err(error) => {
            let bytes = error.as_bytes();
            let line = bytes[..error.utf8_error().valid_up_to()]
                .iter()
                .filter(|b| **b == b'\n')
                .count()
                + 1;
            Err(Problem::error(format!(
                "line {line} of it holds a letter in an encoding that is not UTF-8 or UTF-16"
            ))
            .hint("export it once more from the notation program"))
        }
    }
}

fn utf_16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, Problem> {
    let units = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]]));
    let text: Result<String, _> = char::decode_utf16(units).collect();
    match text {
        Ok(text) if bytes.len().is_multiple_of(2) => Ok(text),
        _ => Err(Problem::error(
            "it is cut short or damaged: its text in UTF-16 ends inside a letter",
        )
        .hint("export it once more from the notation program")),
    }
}

/// True if the declaration names a single-byte encoding.
fn says_latin_1(bytes: &[u8]) -> bool {
    let head = String::from_utf8_lossy(&bytes[..bytes.len().min(200)]).to_lowercase();
    head.split("?>").next().is_some_and(|head| {
        ["iso-8859-1", "latin1", "windows-1252", "us-ascii"]
            .iter()
            .any(|name| head.contains(name))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn encodings_are_known_by_their_first_bytes() {
        let text = "<a>é𝄞</a>";
        let le: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
        let be: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
        let marked = |mark: &[u8], rest: &[u8]| [mark, rest].concat();
        for bytes in [
            text.as_bytes().to_vec(),
            marked(&[0xef, 0xbb, 0xbf], text.as_bytes()),
            marked(&[0xff, 0xfe], &le),
            marked(&[0xfe, 0xff], &be),
            le.clone(),
            be.clone(),
        ] {
            assert_eq!(decode(&bytes).as_deref(), Ok(text));
        }
        let latin = b"<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><a>\xe9</a>";
        assert!(decode(latin).unwrap().contains("<a>é</a>"));
        assert!(decode(b"<a>\n\xe9</a>").is_err());
        assert!(decode(&le[..le.len() - 1]).is_err());
    }
}
