//! Takes as they are named on the command line.

use super::Failure;
use crate::routine::Routine;
use crate::score::{Take, TakeFault, TakeTempo, spoken};
use clap::Args;

pub use crate::score::spoken::{a4, guide, in_words, key, notice, temperament, tempo};

/// Tempo and key of a command that shows one take.
#[derive(Args, Clone, Copy, Debug)]
pub struct OneTake {
    /// Tempo: clicks a minute (72) or a part of what is written (85%)
    #[arg(long, value_name = "TEMPO", value_parser = tempo, default_value = "100%",
        allow_hyphen_values = true)]
    tempo: TakeTempo,

    /// Half steps to move lines of pitches by
    #[arg(long, value_name = "HALF-STEPS", value_parser = key, default_value = "0",
        allow_hyphen_values = true)]
    key: i32,
}

impl OneTake {
    /// The take, all else as it is when nothing is said.
    pub fn take(self) -> Take {
        Take {
            tempo: self.tempo,
            key: self.key,
            ..Take::default()
        }
    }
}

/// Why a take cannot be.
pub fn refusal(fault: &TakeFault, take: &Take, routine: &Routine) -> Failure {
    let refusal = spoken::refusal(fault, take, routine);
    // What is wrong with the routine as written is the routine's fault, not the option's.
    let as_written = take.tempo == TakeTempo::AS_WRITTEN && take.key == 0;
    let said = if as_written {
        Failure::error(refusal.message)
    } else {
        Failure::usage(refusal.message)
    };
    said.hint(refusal.hint)
}
