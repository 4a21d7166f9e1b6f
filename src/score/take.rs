//! One rendering of a routine.

use crate::music::{Decimal, Tempo, Tuning, tempo::OutOfBounds};
use crate::routine::{Guide, Routine};
use num_rational::Ratio;
use std::fmt;

/// The tempo of a take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TakeTempo {
    /// Percent of the written tempo.
    Percent(Decimal),
    /// The routine's base tempo in clicks a minute. Lines with a tempo of their own change in proportion.
    Clicks(Decimal),
}

impl TakeTempo {
    /// The written tempo: 100 %.
    pub const AS_WRITTEN: TakeTempo = TakeTempo::Percent(Decimal::from_integer(100));

    /// The factor for every written tempo.
    pub fn factor(self, routine: &Routine) -> Ratio<i128> {
        match self {
            TakeTempo::Percent(percent) => percent.ratio() / Ratio::from_integer(100),
            TakeTempo::Clicks(clicks) => clicks.ratio() / routine.tempo.clicks_a_minute(),
        }
    }

    /// The base tempo of the take.
    pub fn base(self, routine: &Routine) -> Result<Tempo, OutOfBounds> {
        routine.tempo.scaled(self.factor(routine))
    }
}

impl fmt::Display for TakeTempo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TakeTempo::Percent(p) => write!(f, "{p}%"),
            TakeTempo::Clicks(c) => write!(f, "{c}"),
        }
    }
}

/// What distinguishes one rendering of a routine from another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Take {
    /// Tempo.
    pub tempo: TakeTempo,
    /// Half steps by which lines of pitches are moved.
    pub key: i32,
    /// Guide mode of lines that do not name their own.
    pub guide: Guide,
    /// Tuning.
    pub tuning: Tuning,
}

impl Default for Take {
    fn default() -> Self {
        Self {
            tempo: TakeTempo::AS_WRITTEN,
            key: 0,
            guide: Guide::Together,
            tuning: Tuning::ISO_16,
        }
    }
}
