//! Levels, and what a player of each level plays with ease. Common practice among teachers, without a source.

use super::{instrument::Instrument, partials, tube::Tube};
use crate::music::WrittenPitch;
use crate::words::Words;

/// A player's level: the highest partial of the open horn that is comfortable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Level {
    number: u8,
}

/// The highest open partial of each level, level 1 first: on a trumpet C4, G4, C5, E5, G5. Partial 7 has no level.
const OPEN_TOPS: [u8; 5] = [2, 3, 4, 5, 6];

/// Tubes that lower the horn by this much or more let the next partial speak easily: 1-2 and longer.
const LONG_TUBE_HALF_STEPS: i32 = 3;

/// How comfortable a note is for a player.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Band {
    /// Played with ease.
    Comfortable,
    /// Above that, but within the reach that the routine declares.
    Reach,
    /// Above the reach.
    Beyond,
}

impl Level {
    /// Levels 1–5.
    pub fn all() -> impl Iterator<Item = Level> {
        (1..=OPEN_TOPS.len() as u8).map(|number| Level { number })
    }

    /// The highest level whose open top is not above `top`; `None` below level 1.
    pub fn of_top(instrument: &Instrument, top: WrittenPitch) -> Option<Level> {
        Self::all()
            .filter(|l| l.open_top(instrument).number() <= top.number())
            .last()
    }

    /// 1–5.
    pub fn number(self) -> u8 {
        self.number
    }

    fn rung(self) -> usize {
        usize::from(self.number) - 1
    }

    /// The partial of the highest comfortable note.
    pub fn partial(self, instrument: &Instrument) -> u8 {
        match instrument.ladder {
            Some(ladder) => ladder[self.rung()].1,
            None => OPEN_TOPS[self.rung()],
        }
    }

    /// The highest comfortable note, as written: an open one on every instrument but horns, whose ladder has notes of its
    /// own.
    pub fn open_top(self, instrument: &Instrument) -> WrittenPitch {
        match instrument.ladder {
            Some(ladder) => ladder[self.rung()].0,
            None => partials::written(instrument, instrument.open(), OPEN_TOPS[self.rung()]),
        }
    }

    /// How its highest comfortable note is played, in a sentence: "on the open horn", "in position 1", "on 1-2".
    pub fn way(self, instrument: &Instrument) -> Words {
        let top = self.open_top(instrument);
        let tube = super::fingering::standard(instrument, top).map(|f| f.tube);
        let tube = tube.unwrap_or(instrument.open());
        Words::of(|language| instrument.on_tube(language, tube))
    }

    /// The partial above the open top that long tubes make comfortable, never one that is out of tune.
    pub fn next_partial(self, instrument: &Instrument) -> u8 {
        partials::next_in_tune(self.partial(instrument))
    }

    /// The level above, if there is one.
    pub fn next(self) -> Option<Level> {
        Self::all().find(|l| l.number == self.number + 1)
    }

    /// The level below, if there is one.
    pub fn easier(self) -> Option<Level> {
        Self::all().find(|l| l.number + 1 == self.number)
    }

    /// How many partials a slur on one tube may skip: none at levels 1 and 2, then one more for each level.
    /// A choice that follows what teachers ask for. A horn is played an octave higher in its series, where the same
    /// interval skips twice as many partials and one more.
    pub fn slur_skip(self, instrument: &Instrument) -> u8 {
        let skip = self.number.saturating_sub(2);
        match instrument.ladder {
            Some(_) => 2 * skip + 1,
            None => skip,
        }
    }
}

/// How comfortable a note is for a player whose highest comfortable open note is `top`.
///
/// `tube` is the tube and the partial it is played on; `None` on the mouthpiece. `reach` is the highest
/// note the routine stretches to.
pub fn band(
    instrument: &Instrument,
    top: WrittenPitch,
    reach: Option<WrittenPitch>,
    pitch: WrittenPitch,
    tube: Option<(Tube, u8)>,
) -> Band {
    let speaks_on_long_tube =
        tube.zip(Level::of_top(instrument, top))
            .is_some_and(|((tube, partial), level)| {
                partial == level.next_partial(instrument)
                    && instrument.tube_half_steps(tube) >= LONG_TUBE_HALF_STEPS
            });
    if pitch.number() <= top.number() || speaks_on_long_tube {
        Band::Comfortable
    } else if reach.is_some_and(|r| pitch.number() <= r.number()) {
        Band::Reach
    } else {
        Band::Beyond
    }
}
