//! Fingerings and positions: which tube and which partial sound a pitch.

use super::{instrument::Instrument, partials, tube::Tube};
use crate::music::WrittenPitch;

/// A tube and the partial it sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fingering {
    /// How the tube is made.
    pub tube: Tube,
    /// Number of the partial.
    pub partial: u8,
}

impl Fingering {
    /// True if the partial can be played in tune on this tube.
    pub fn in_tune(self) -> bool {
        partials::in_tune(self.tube, self.partial)
    }
}

/// Every fingering that sounds the written pitch, in the order of the instrument's tubes, those out of tune included.
pub fn all(instrument: &Instrument, pitch: WrittenPitch) -> Vec<Fingering> {
    instrument
        .tubes()
        .filter_map(|tube| {
            let partial = partials::on_tube(instrument, tube, pitch)?;
            Some(Fingering { tube, partial })
        })
        .collect()
}

/// The fingerings that sound the pitch in tune, the usual one first.
pub fn usable(instrument: &Instrument, pitch: WrittenPitch) -> Vec<Fingering> {
    let mut usable = all(instrument, pitch);
    usable.retain(|f| f.in_tune());
    let named = instrument
        .usual
        .iter()
        .find(|(note, _)| note.number() == pitch.number());
    if let Some((_, tube)) = named {
        usable.sort_by_key(|f| f.tube != *tube);
    }
    usable
}

/// The fingering a player learns first: unless the instrument names another, its first tube, which is the shortest, that
/// sounds the note in tune. `None` only outside the compass.
pub fn standard(instrument: &Instrument, pitch: WrittenPitch) -> Option<Fingering> {
    usable(instrument, pitch).into_iter().next()
}

/// The other fingerings that sound the pitch in tune, in the order of the instrument's tubes.
pub fn alternates(instrument: &Instrument, pitch: WrittenPitch) -> Vec<Fingering> {
    usable(instrument, pitch).into_iter().skip(1).collect()
}
