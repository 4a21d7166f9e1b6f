//! ABC notation, standard 2.1 (<https://abcnotation.com/wiki/abc:standard:v2.1>): tunes for one voice.
//!
//! `book` finds the tunes of a file and the wanted one, `head` and `key` read its fields, `melody` its music, with
//! `notes`, `lengths`, `signs` and `bars` for what is in it; `measures` is what is filled. [`read()`] returns the same piece as the other readers.

mod bars;
mod book;
mod head;
mod key;
mod lengths;
mod measures;
mod melody;
mod notes;
mod signs;

use super::piece::ImportedPiece;
use crate::problem::Problem;

/// True if a text has the fields of a tune.
pub fn is_abc(text: &str) -> bool {
    book::is_abc(text)
}

/// Decodes a file: UTF-8, or else the single-byte encoding of older files.
pub fn decode(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.trim_start_matches('\u{feff}').to_owned(),
        Err(_) => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}

/// Reads the tune named by `wanted`, by its number or its title. A file of one tune needs no name.
///
/// # Errors
/// If it holds no tune, or several and none is named.
pub fn read(text: &str, wanted: Option<&str>) -> Result<ImportedPiece, Problem> {
    let book = book::Book::of(text)?;
    melody::read(book.choose(wanted)?)
}
