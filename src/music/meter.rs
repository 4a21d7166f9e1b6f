//! Meters, and the note value of one click in each.

use super::value::Whole;
use std::fmt;

/// A meter with a click: x/4, x/2, x/8. Compound 6/8, 9/8 and 12/8 click dotted quarters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Meter {
    beats: u8,
    unit: u8,
}

/// The most beats in a bar.
pub const MOST_BEATS: u8 = 16;

impl Meter {
    /// Reads `4/4`, `3/4`, `6/8`. The unit must be 2, 4 or 8, and a bar has at most 16 beats.
    pub fn parse(text: &str) -> Option<Self> {
        let (beats, unit) = text.split_once('/')?;
        let number = |s: &str| {
            let plain = !s.is_empty() && s.len() <= 2 && s.bytes().all(|b| b.is_ascii_digit());
            plain.then(|| s.parse::<u8>().ok()).flatten()
        };
        let (beats, unit) = (number(beats.trim())?, number(unit.trim())?);
        let fits = (1..=MOST_BEATS).contains(&beats) && matches!(unit, 2 | 4 | 8);
        fits.then_some(Self { beats, unit })
    }

    /// The upper number.
    pub fn beats(self) -> u8 {
        self.beats
    }

    /// The lower number: 2, 4 or 8.
    pub fn unit(self) -> u8 {
        self.unit
    }

    /// True for 6/8, 9/8 and 12/8, which are felt in dotted quarters.
    pub fn is_compound(self) -> bool {
        self.unit == 8 && matches!(self.beats, 6 | 9 | 12)
    }

    /// Length of a bar.
    pub fn bar(self) -> Whole {
        Whole::new(i64::from(self.beats), i64::from(self.unit))
    }

    /// Length of one click.
    pub fn click(self) -> Whole {
        if self.is_compound() {
            Whole::new(3, 8)
        } else {
            Whole::new(1, i64::from(self.unit))
        }
    }

    /// Clicks in one bar.
    pub fn clicks_per_bar(self) -> u32 {
        if self.is_compound() {
            u32::from(self.beats) / 3
        } else {
            u32::from(self.beats)
        }
    }

    /// The note value of one click: "quarter", "half", "dotted quarter", "eighth".
    pub fn click_name(self) -> &'static str {
        match self.unit {
            _ if self.is_compound() => "dotted quarter",
            2 => "half",
            4 => "quarter",
            _ => "eighth",
        }
    }

    /// The default length of the count-in in bars: the fewest whole bars that hold four clicks.
    pub fn usual_count_in(self) -> u32 {
        4u32.div_ceil(self.clicks_per_bar())
    }
}

impl fmt::Display for Meter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.beats, self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clicks_are_what_a_conductor_beats() {
        let click = |text: &str| {
            let m = Meter::parse(text).unwrap();
            (m.click_name(), m.clicks_per_bar(), m.usual_count_in())
        };
        assert_eq!(click("4/4"), ("quarter", 4, 1));
        assert_eq!(click("3/4"), ("quarter", 3, 2));
        assert_eq!(click("2/2"), ("half", 2, 2));
        assert_eq!(click("6/8"), ("dotted quarter", 2, 2));
        assert_eq!(click("12/8"), ("dotted quarter", 4, 1));
        assert_eq!(click("3/8"), ("eighth", 3, 2));
        assert_eq!(click("1/4"), ("quarter", 1, 4));
    }

    #[test]
    fn other_meters_are_refused() {
        for text in [
            "4/16", "0/4", "17/4", "4", "4/3", "+4/4", "4/4/4", "", "/", "c",
        ] {
            assert_eq!(Meter::parse(text), None, "{text}");
        }
    }
}
