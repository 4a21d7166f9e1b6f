//! What a routine is made from.

use super::course::Played;
use super::sections::Section;
use crate::brass::Instrument;
use crate::exchange::piece::Piece;

/// What is wanted of a routine that is adopted.
#[derive(Clone, Debug)]
pub struct Choice {
    /// What it is to be played on.
    pub instrument: &'static Instrument,
    /// True if the notes of the file are to be taken as they sound, whatever it says.
    pub concert: bool,
    /// Its title, where the file has none.
    pub title: String,
    /// What the file is called.
    pub source: String,
}

/// What every part of the making looks at.
pub(super) struct Maker<'p> {
    pub piece: &'p Piece,
    pub course: &'p [Played],
    pub sections: &'p [Section],
    pub choice: &'p Choice,
}
