//! One rendering of a routine.

use crate::music::key::KeyName;
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

/// The key of a take, as it is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TakeKey {
    /// Half steps from what is written.
    HalfSteps(i32),
    /// A key by its name, as written; the routine must say which one it is in.
    Named(KeyName),
}

impl TakeKey {
    /// Half steps from what is written: to a named key the shorter way, and down where both are as short. `None` if
    /// the routine does not say its key, or is in minor where major is asked for, or the other way round.
    pub fn half_steps(self, routine: &Routine) -> Option<i32> {
        let name = match self {
            TakeKey::HalfSteps(half_steps) => return Some(half_steps),
            TakeKey::Named(name) => name,
        };
        let from = routine.key?;
        if name.mode.is_some_and(|mode| mode != from.mode()) {
            return None;
        }
        let up = from.half_steps_up_to(name.tonic);
        Some(if up < 6 { up } else { up - 12 })
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
