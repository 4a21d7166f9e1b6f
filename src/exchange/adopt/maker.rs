//! What a routine is made from.

use super::course::PlayedMeasure;
use super::keys::Keys;
use super::sections::Section;
use crate::brass::Instrument;
use crate::exchange::piece::ImportedPiece;

/// Options for adopting a routine.
#[derive(Clone, Debug)]
pub struct AdoptOptions {
    /// The instrument it is to be played on.
    pub instrument: &'static Instrument,
    /// True to read the notes of the file at sounding pitch, whatever the file says.
    pub concert: bool,
    /// Its title, if the file has none.
    pub title: String,
    /// The name of the file.
    pub source: String,
}

/// Input that all steps share.
pub(super) struct Maker<'p> {
    pub piece: &'p ImportedPiece,
    pub course: &'p [PlayedMeasure],
    pub sections: &'p [Section],
    pub keys: &'p Keys,
    pub choice: &'p AdoptOptions,
}
