//! Written values, and how lengths are divided into values of single notes and rests.

use crate::music::{Meter, NoteValue, Whole};
use num_traits::Zero;

/// A value as it is drawn. Parts of a divided note may be shorter than any value of the note language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Value {
    /// How many undotted values make a whole note: 1, 2, 4 … 64.
    pub division: u8,
    /// True if it has a dot.
    pub dotted: bool,
}

impl From<NoteValue> for Value {
    fn from(value: NoteValue) -> Self {
        Self {
            division: value.division(),
            dotted: value.is_dotted(),
        }
    }
}

impl Value {
    /// A whole note.
    pub const WHOLE: Value = Value {
        division: 1,
        dotted: false,
    };

    /// Its length.
    pub fn length(self) -> Whole {
        let plain = Whole::new(1, i64::from(self.division));
        if self.dotted {
            plain * Whole::new(3, 2)
        } else {
            plain
        }
    }

    /// The number of its flags or beams.
    pub fn flags(self) -> usize {
        (self.division.trailing_zeros() as usize).saturating_sub(2)
    }

    /// Every value, longest first.
    fn all() -> impl Iterator<Item = Value> {
        (0..=6).flat_map(|n| {
            [true, false].map(|dotted| Value {
                division: 1 << n,
                dotted,
            })
        })
    }
}

/// Divides a length into values, longest first. A remainder shorter than a sixty-fourth is dropped; the note language
/// cannot produce one.
pub fn notes(mut length: Whole) -> Vec<Value> {
    let mut values = vec![];
    while let Some(value) = Value::all().find(|v| v.length() <= length) {
        length -= value.length();
        values.push(value);
    }
    values
}

/// Divides silence inside a bar into rests that show the beats. `start` counts from the bar line. A rest of a whole bar
/// is one whole rest in every meter.
pub fn rests(start: Whole, length: Whole, meter: Meter) -> Vec<(Whole, Value)> {
    if start.is_zero() && length == meter.bar() {
        return vec![(length, Value::WHOLE)];
    }
    let beat = meter.click();
    let end = start + length;
    let mut now = start;
    let mut rests = vec![];
    while now < end {
        let into_beat = now - (now / beat).floor() * beat;
        let next = if into_beat.is_zero() {
            let two = beat * Whole::from_integer(2);
            let pairs = !meter.is_compound() && meter.beats().is_multiple_of(2);
            let into_two = now - (now / two).floor() * two;
            if pairs && into_two.is_zero() && now + two <= end {
                now + two
            } else {
                (now + beat).min(end)
            }
        } else {
            (now - into_beat + beat).min(end)
        };
        // Before a beat the shortest rest comes first, after it the longest.
        let mut values = notes(next - now);
        if !into_beat.is_zero() {
            values.reverse();
        }
        rests.extend(values.into_iter().map(|v| (v.length(), v)));
        now = next;
    }
    rests
}

#[cfg(test)]
mod tests {
    use super::*;

    fn meter(text: &str) -> Meter {
        Meter::parse(text).unwrap()
    }

    #[test]
    fn lengths_come_out_whole() {
        for n in 1..=128 {
            let length = Whole::new(n, 64);
            let sum: Whole = notes(length).into_iter().map(Value::length).sum();
            assert_eq!(sum, length);
        }
    }

    #[test]
    fn rests_show_the_beats() {
        let cut = |start: (i64, i64), length: (i64, i64), of: &str| -> Vec<String> {
            rests(
                Whole::new(start.0, start.1),
                Whole::new(length.0, length.1),
                meter(of),
            )
            .into_iter()
            .map(|(_, v)| format!("{}{}", v.division, if v.dotted { "." } else { "" }))
            .collect()
        };
        assert_eq!(cut((0, 1), (1, 1), "4/4"), ["1"]);
        assert_eq!(cut((0, 1), (3, 4), "3/4"), ["1"]);
        assert_eq!(cut((1, 2), (1, 2), "4/4"), ["2"]);
        assert_eq!(cut((1, 4), (3, 4), "4/4"), ["4", "2"]);
        assert_eq!(cut((1, 4), (1, 2), "3/4"), ["4", "4"]);
        assert_eq!(cut((1, 8), (7, 8), "4/4"), ["8", "4", "2"]);
        assert_eq!(cut((3, 8), (3, 8), "6/8"), ["4."]);
        assert_eq!(cut((1, 8), (5, 8), "6/8"), ["4", "4."]);
    }
}
