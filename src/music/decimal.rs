//! Exact decimal numbers, read from text without passing through floating point.

use num_rational::Ratio;
use std::fmt;

/// A number with at most three decimals, as a teacher writes a tempo: `72`, `72.5`, `66.667`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Decimal {
    thousandths: i64,
}

/// Why a text is not a [`Decimal`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalError {
    /// Something other than digits, a point and more digits.
    NotANumber,
    /// More than three digits after the point.
    TooFine,
    /// More than a million: nothing in music needs it.
    TooLarge,
}

impl Decimal {
    /// The whole number `n`.
    pub const fn from_integer(n: i64) -> Self {
        Self {
            thousandths: n * 1000,
        }
    }

    /// Reads `72`, `72.5` or `-3`. Underscores, exponents and infinities are refused.
    pub fn parse(text: &str) -> Result<Self, DecimalError> {
        let (negative, digits) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let all_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
        if whole.is_empty() || !all_digits(whole) || !all_digits(part) {
            return Err(DecimalError::NotANumber);
        }
        if digits.ends_with('.') {
            return Err(DecimalError::NotANumber);
        }
        let part = part.trim_end_matches('0');
        if part.len() > 3 {
            return Err(DecimalError::TooFine);
        }
        let whole = whole.trim_start_matches('0');
        if whole.len() > 7 {
            return Err(DecimalError::TooLarge);
        }
        let digit_sum = |s: &str| s.bytes().fold(0i64, |n, b| n * 10 + i64::from(b - b'0'));
        let scale = [1000, 100, 10, 1][part.len()];
        let size = digit_sum(whole) * 1000 + digit_sum(part) * scale;
        if size > 1_000_000_000 {
            return Err(DecimalError::TooLarge);
        }
        Ok(Self {
            thousandths: if negative { -size } else { size },
        })
    }

    /// The number as an exact ratio.
    pub fn ratio(self) -> Ratio<i128> {
        Ratio::new(i128::from(self.thousandths), 1000)
    }

    /// The nearest `f64`: for display and for sound, never for time.
    pub fn as_f64(self) -> f64 {
        self.thousandths as f64 / 1000.0
    }

    /// True if the number is greater than zero.
    pub fn is_positive(self) -> bool {
        self.thousandths > 0
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.thousandths < 0 { "-" } else { "" };
        let size = self.thousandths.unsigned_abs();
        let text = format!("{sign}{}.{:03}", size / 1000, size % 1000);
        f.write_str(text.trim_end_matches('0').trim_end_matches('.'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_exactly_and_prints_what_it_read() {
        for text in ["72", "72.5", "66.667", "0.1", "-3", "300"] {
            assert_eq!(Decimal::parse(text).unwrap().to_string(), text);
        }
        assert_eq!(Decimal::parse("72.500").unwrap().to_string(), "72.5");
        assert_eq!(Decimal::parse("0.1").unwrap().ratio(), Ratio::new(1, 10));
    }

    #[test]
    fn refuses_what_is_not_a_plain_number() {
        for text in ["", ".", "7.", ".5", "1e3", "inf", "7_2", "--1", "0x10", "½"] {
            assert_eq!(
                Decimal::parse(text),
                Err(DecimalError::NotANumber),
                "{text}"
            );
        }
        assert_eq!(Decimal::parse("66.6667"), Err(DecimalError::TooFine));
        assert_eq!(
            Decimal::parse("99999999999999999999"),
            Err(DecimalError::TooLarge)
        );
    }
}
