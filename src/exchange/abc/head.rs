//! The fields of a tune: meter, unit of length, tempo, key.

use super::key::{self, Key};
use super::lengths::fraction;
use crate::exchange::piece::{MeterSign, on_grid};
use crate::music::{Decimal, Whole};
use num_rational::Ratio;
use num_traits::{Signed, Zero};

/// What the fields say at a moment of a tune.
pub(super) struct Head {
    pub meter: MeterSign,
    /// The length of a note without a number; `None` if the meter decides.
    pub unit: Option<Whole>,
    pub key: Key,
}

impl Head {
    pub fn new() -> Self {
        Self {
            meter: MeterSign::Free,
            unit: None,
            key: Key::default(),
        }
    }

    /// Reads a field `M:`.
    pub fn set_meter(&mut self, text: &str) {
        self.meter = match text.trim() {
            "C" | "c" => MeterSign::Of(4, 4),
            "C|" | "c|" => MeterSign::Of(2, 2),
            text => {
                // (2+3)/8 is five eighths.
                let text = text.replace(['(', ')', ' '], "");
                let sign = text.split_once('/').and_then(|(beats, unit)| {
                    let beats = beats.split('+').map(|part| part.parse::<u32>().ok());
                    let beats: Option<u32> = beats.map(|beats| beats.filter(|n| *n <= 100)).sum();
                    Some((beats?, unit.parse::<u32>().ok()?))
                });
                match sign {
                    Some((beats @ 1..=100, unit @ 1..=64)) => MeterSign::Of(beats, unit),
                    _ => MeterSign::Free,
                }
            }
        };
    }

    /// Reads a field `K:`.
    pub fn set_key(&mut self, text: &str) {
        self.key = key::read(text, self.key);
    }

    /// How long a full bar is, if there is a meter.
    pub fn bar(&self) -> Option<Whole> {
        match self.meter {
            MeterSign::Of(beats, unit) => on_grid(i128::from(beats), i128::from(unit)),
            MeterSign::Free => None,
        }
    }

    /// The length of a note without a number: a sixteenth in a meter of less than three quarters, else an eighth.
    pub fn unit(&self) -> Whole {
        let short = self.bar().is_some_and(|bar| bar < Whole::new(3, 4));
        let of_meter = if short {
            Whole::new(1, 16)
        } else {
            Whole::new(1, 8)
        };
        self.unit.unwrap_or(of_meter)
    }

    /// True if three of a unit make a beat.
    pub fn is_compound(&self) -> bool {
        matches!(self.meter, MeterSign::Of(6 | 9 | 12, _))
    }
}

/// A tempo: its words, and quarters per minute.
pub(super) fn tempo(text: &str, unit: Whole) -> (Option<&str>, Option<Ratio<i128>>) {
    let (before, words, after) = match text.split_once('"') {
        Some((before, rest)) => match rest.split_once('"') {
            Some((words, after)) => (before, Some(words), after),
            None => (before, None, rest),
        },
        None => (text, None, ""),
    };
    let plain = [before, after]
        .into_iter()
        .find(|text| !text.trim().is_empty());
    let quarters = plain.and_then(|text| {
        let (beat, number) = text.split_once('=').unwrap_or(("", text));
        let number = Decimal::parse(number.trim()).ok()?.ratio();
        let beats: Option<Vec<Whole>> = beat.split_whitespace().map(fraction).collect();
        // Old files give a number of units alone.
        let beat = match beats.as_deref() {
            Some([]) | None => unit,
            Some(beats) => beats.iter().sum(),
        };
        let beat = Ratio::new(i128::from(*beat.numer()), i128::from(*beat.denom()));
        let fits = number.is_positive() && number < Ratio::from_integer(100_000);
        (fits && !beat.is_zero()).then(|| number * beat * Ratio::from_integer(4))
    });
    (words.filter(|words| !words.trim().is_empty()), quarters)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tempos() {
        let eighth = Whole::new(1, 8);
        let quarters = |text| tempo(text, eighth).1.map(|n| n.to_integer());
        assert_eq!(quarters("1/4=120"), Some(120));
        assert_eq!(quarters("3/8=60"), Some(90));
        assert_eq!(quarters("1/4 1/8=40"), Some(60));
        assert_eq!(quarters("120"), Some(60));
        assert_eq!(quarters("\"Allegro\" 1/2=50"), Some(100));
        assert_eq!(tempo("\"Andante\"", eighth), (Some("Andante"), None));
    }

    #[test]
    fn the_meter_decides_the_unit() {
        let unit = |meter: &str| {
            let mut head = Head::new();
            head.set_meter(meter);
            head.unit()
        };
        assert_eq!(unit("2/4"), Whole::new(1, 16));
        assert_eq!(unit("3/4"), Whole::new(1, 8));
        assert_eq!(unit("C|"), Whole::new(1, 8));
        assert_eq!(unit("none"), Whole::new(1, 8));
        assert_eq!(unit("(2+3)/16"), Whole::new(1, 16));
    }
}
