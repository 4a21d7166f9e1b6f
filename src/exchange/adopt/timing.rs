//! Meter and tempo of each line.

use super::course::{self, PlayedMeasure};
use super::lengths;
use super::losses::Losses;
use super::maker::Maker;
use super::sections::Section;
use super::tune::Tune;
use crate::music::{Decimal, Meter, tempo};
use num_rational::Ratio;
use num_traits::Zero;

/// Clicks a minute if the file gives none.
const DEFAULT_TEMPO: i64 = 72;

/// A line's tempo and meter.
pub(super) struct Timed {
    pub meter: Meter,
    pub clicks: Decimal,
    /// It is written so many times as long as in the file, and played so many times as fast.
    pub factor: i64,
    /// False if no tempo was written.
    pub said: bool,
}

impl Maker<'_> {
    /// Converts a tune's lengths to note values, and determines its meter and tempo.
    pub(super) fn timed(&self, section: &Section, tune: &mut Tune, losses: &mut Losses) -> Timed {
        let places = &self.course[section.places.clone()];
        let first = places.iter().find(|p| !p.silent).unwrap_or(&places[0]);
        let written = first.meter.meter();
        let brought = lengths::bring(tune, written);
        let at = Some(first.measure);
        let factor = brought.factor;
        if factor > 1 {
            let times = times_word(factor);
            let what = format!(
                "notes shorter than a sixteenth: all of it is written {times} as long, and played {times} as fast"
            );
            losses.lose(at, what);
        }
        for measure in brought.moved.notes {
            let what = "uneven groups of notes are moved to the nearest sixteenths";
            losses.lose(Some(measure), what);
        }
        for measure in brought.moved.lost {
            losses.lose_note(measure, "notes too short for a sixteenth are left out");
        }
        let meter = match factor {
            1 => written,
            factor => lengths::longer_meter(written, factor).unwrap_or(written),
        };
        let quarters = first.tempo.unwrap_or_else(|| {
            let click = written.click();
            let click = Ratio::new(i128::from(*click.numer()), i128::from(*click.denom()));
            Ratio::from_integer(i128::from(DEFAULT_TEMPO) * 4) * click
        });
        let faster = quarters * Ratio::from_integer(i128::from(factor));
        let asked = course::clicks(faster, meter);
        let (slowest, fastest) = (tempo::SLOWEST, tempo::FASTEST);
        let clicks = asked.clamp(
            Decimal::from_integer(slowest),
            Decimal::from_integer(fastest),
        );
        if clicks != asked {
            let what = format!("a tempo of {asked} clicks a minute is {clicks} here");
            losses.lose(at, what);
        }
        Timed {
            meter,
            clicks,
            factor,
            said: first.tempo.is_some(),
        }
    }

    /// Duration of a measure as it is played.
    pub(super) fn seconds(&self, played: &PlayedMeasure) -> f64 {
        let meter = played.meter.meter();
        let length = match self.piece.measures[played.measure].length {
            length if length.is_zero() && !self.piece.rests_by_clock => meter.bar(),
            length => length,
        };
        match played.tempo {
            Some(quarters) => course::seconds(length, quarters),
            None => {
                let clicks = length / meter.click();
                let clicks = *clicks.numer() as f64 / *clicks.denom() as f64;
                clicks * 60.0 / DEFAULT_TEMPO as f64
            }
        }
    }
}

fn times_word(factor: i64) -> &'static str {
    if factor == 2 { "twice" } else { "four times" }
}

/// The most frequent value among the lines; the first of several.
pub(super) fn most<T: PartialEq + Copy>(timings: &[Timed], of: impl Fn(&Timed) -> T) -> T {
    let all: Vec<T> = timings.iter().map(of).collect();
    let count = |value: &T| all.iter().filter(|v| *v == value).count();
    let most = all.iter().map(count).max().unwrap_or(0);
    let found = all.iter().find(|value| count(value) == most);
    *found.expect("there are lines")
}
