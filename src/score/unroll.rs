//! Routine × take → score.
use super::{Score, Take};
use crate::routine::Routine;

/// Why a routine cannot be unrolled at a take.
#[derive(Clone, Debug, PartialEq)]
pub enum TakeFault {
    /// A line (its index, or none for the routine itself) would be outside 20–300 clicks a minute.
    Tempo {
        /// Index of the line; none for the base tempo.
        line: Option<usize>,
        /// Clicks a minute it would have.
        clicks: f64,
    },
    /// The track would be longer than four hours.
    TooLong {
        /// How long it would be.
        seconds: f64,
    },
    /// No pass of any line fits the instrument in this key.
    NothingFits,
}

/// Lays a routine out at one take.
///
/// # Errors
/// A tempo out of bounds, a track longer than four hours, or a key in which nothing can be played.
pub fn unroll<'r>(_routine: &'r Routine, _take: &Take) -> Result<Score<'r>, TakeFault> {
    Err(TakeFault::NothingFits)
}
