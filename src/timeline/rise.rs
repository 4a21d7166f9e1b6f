//! How long a tone takes to rise. It is decided here and not in the synthesis because a tone starts so much earlier
//! that the middle of its rise is on the beat.

use super::model::Onset;
use crate::brass::Family;

/// From nothing to full height: so many seconds (of a trumpet) and so many periods, shorter the higher the note.
const RISE_SECONDS: f64 = 0.0162;
const RISE_PERIODS: f64 = 3.6;
/// What makes it slower: the softer consonant, the air alone. An accent is quicker by what it adds at first.
const KU_STRETCH: f64 = 1.25;
const AIR_STRETCH: f64 = 1.95;
/// A louder note speaks sooner. It takes as long as above at mf, and half as long so many dB above it.
const MF_DB: f64 = -5.0;
const HALVED_BY_DB: f64 = 55.0;
/// Where in its rise a tone has half its height: there the ear places the note. One that the air alone starts does not
/// overshoot, so it is there later.
const MIDDLE: f64 = 0.45;
const AIR_MIDDLE: f64 = 0.5;

/// Seconds of the rise of a note of `hz`, `db` against forte.
pub fn rise_seconds(family: Family, hz: f64, db: f64, onset: Onset) -> f64 {
    let stretch = match onset {
        Onset::Tongue => 1.0,
        Onset::Ku => KU_STRETCH,
        Onset::Air => AIR_STRETCH,
    };
    let seconds = RISE_SECONDS * family.attack_factor();
    stretch * (seconds + RISE_PERIODS / hz) * libm::exp2((MF_DB - db) / HALVED_BY_DB)
}

/// How many frames of a rise lie before the beat.
pub(super) fn before_the_beat(rise: u64, onset: Onset) -> u64 {
    let middle = match onset {
        Onset::Tongue | Onset::Ku => MIDDLE,
        Onset::Air => AIR_MIDDLE,
    };
    libm::round(middle * rise as f64) as u64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn higher_and_louder_notes_rise_sooner() {
        let tongued = |hz, db| rise_seconds(Family::Trumpet, hz, db, Onset::Tongue);
        assert!(tongued(1_046.5, -5.0) < tongued(164.8, -5.0));
        assert!(tongued(466.2, 4.0) < tongued(466.2, -18.0));
        assert!(rise_seconds(Family::Trumpet, 466.2, -5.0, Onset::Air) > tongued(466.2, -5.0));
    }
}
