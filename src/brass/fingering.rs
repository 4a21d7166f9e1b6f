//! Fingerings: which valves and which partial sound a pitch.

use super::{instrument::Instrument, partials, valves::Valves};
use crate::music::WrittenPitch;

/// The partial that is too flat to use: 31 cents below the nearest note.
pub const FLAT_PARTIAL: u8 = 7;

/// Valves and the partial they sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fingering {
    /// The valves that are pressed.
    pub valves: Valves,
    /// Number of the partial.
    pub partial: u8,
}

/// Every fingering that sounds the written pitch, shortest tube first, partial 7 included.
pub fn all(instrument: &Instrument, pitch: WrittenPitch) -> Vec<Fingering> {
    Valves::ALL
        .into_iter()
        .filter_map(|valves| {
            let partial = partials::on_tube(instrument, valves, pitch)?;
            Some(Fingering { valves, partial })
        })
        .collect()
}

/// The fingering a player learns first: the shortest tube that sounds the note on a usable partial.
/// `None` only outside the compass.
pub fn standard(instrument: &Instrument, pitch: WrittenPitch) -> Option<Fingering> {
    all(instrument, pitch)
        .into_iter()
        .find(|f| f.partial != FLAT_PARTIAL)
}

/// The other usable fingerings, shortest tube first; never partial 7.
pub fn alternates(instrument: &Instrument, pitch: WrittenPitch) -> Vec<Fingering> {
    let usable = all(instrument, pitch)
        .into_iter()
        .filter(|f| f.partial != FLAT_PARTIAL);
    usable.skip(1).collect()
}
