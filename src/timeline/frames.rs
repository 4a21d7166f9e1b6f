//! The one place where exact seconds become frames.

use crate::music::Seconds;
use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::ToPrimitive;

/// The frame nearest to a moment, halves up.
pub fn nearest(seconds: Seconds, sample_rate: u32) -> u64 {
    let twice = 2 * seconds.numer() * i128::from(sample_rate) + seconds.denom();
    let frame = Integer::div_floor(&twice, &(2 * seconds.denom()));
    // Moments inside a take of four hours are never negative and far from 64 bits.
    u64::try_from(frame).unwrap_or(0)
}

/// The frame nearest to a moment of unbounded exactness, halves up.
pub fn nearest_big(seconds: &BigRational, sample_rate: u32) -> u64 {
    let twice = BigInt::from(2) * seconds.numer() * BigInt::from(sample_rate) + seconds.denom();
    let frame = Integer::div_floor(&twice, &(BigInt::from(2) * seconds.denom()));
    frame.to_u64().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_up() {
        let at = |n, d| nearest(Seconds::new(n, d), 2);
        assert_eq!(
            [at(0, 1), at(1, 8), at(1, 4), at(3, 8), at(3, 4)],
            [0, 0, 1, 1, 2]
        );
        let big = BigRational::new(1.into(), 4.into());
        assert_eq!(nearest_big(&big, 2), 1);
    }
}
