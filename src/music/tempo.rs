//! Tempo in clicks a minute, exact.

use super::{Decimal, Meter, Seconds, value::Whole};
use num_rational::Ratio;
use std::fmt;

/// The slowest tempo, in clicks a minute.
pub const SLOWEST: i64 = 20;
/// The fastest tempo, in clicks a minute.
pub const FASTEST: i64 = 300;

/// Clicks a minute, 20–300, as an exact ratio.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tempo(Ratio<i128>);

/// A tempo outside 20–300 clicks a minute. Holds the tempo that was asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfBounds(pub f64);

impl Tempo {
    /// A tempo of exactly `clicks` a minute.
    pub fn new(clicks: Ratio<i128>) -> Result<Self, OutOfBounds> {
        let fits = clicks >= Ratio::from_integer(i128::from(SLOWEST))
            && clicks <= Ratio::from_integer(i128::from(FASTEST));
        if fits {
            Ok(Self(clicks))
        } else {
            Err(OutOfBounds(to_f64(clicks)))
        }
    }

    /// A tempo as written.
    pub fn from_decimal(clicks: Decimal) -> Result<Self, OutOfBounds> {
        Self::new(clicks.ratio())
    }

    /// Clicks a minute.
    pub fn clicks_a_minute(self) -> Ratio<i128> {
        self.0
    }

    /// This tempo times `factor`.
    pub fn scaled(self, factor: Ratio<i128>) -> Result<Self, OutOfBounds> {
        Self::new(self.0 * factor)
    }

    /// How long `length` lasts in `meter` at this tempo.
    pub fn seconds(self, length: Whole, meter: Meter) -> Seconds {
        let wide = |w: Whole| Ratio::new(i128::from(*w.numer()), i128::from(*w.denom()));
        wide(length) / wide(meter.click()) * Ratio::from_integer(60) / self.0
    }

    /// The nearest `f64`, for display only.
    pub fn as_f64(self) -> f64 {
        to_f64(self.0)
    }
}

fn to_f64(r: Ratio<i128>) -> f64 {
    *r.numer() as f64 / *r.denom() as f64
}

impl fmt::Display for Tempo {
    /// Clicks a minute with at most one decimal: `72`, `61.2`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.0 * Ratio::from_integer(10)).round().to_integer();
        if tenths % 10 == 0 {
            write!(f, "{}", tenths / 10)
        } else {
            write!(f, "{}.{}", tenths / 10, tenths % 10)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_of_four_at_seventy_two_lasts_ten_thirds_of_a_second() {
        let tempo = Tempo::from_decimal(Decimal::from_integer(72)).unwrap();
        let four = Meter::parse("4/4").unwrap();
        assert_eq!(tempo.seconds(four.bar(), four), Ratio::new(10, 3));
        let six = Meter::parse("6/8").unwrap();
        assert_eq!(tempo.seconds(six.bar(), six), Ratio::new(5, 3));
    }

    #[test]
    fn bounds_hold_at_both_ends() {
        let at = |n| Tempo::from_decimal(Decimal::from_integer(n));
        assert!(at(20).is_ok() && at(300).is_ok());
        assert!(at(19).is_err() && at(301).is_err());
        assert_eq!(
            at(72)
                .unwrap()
                .scaled(Ratio::new(85, 100))
                .unwrap()
                .to_string(),
            "61.2"
        );
    }
}
