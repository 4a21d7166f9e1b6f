//! Takes as they are named on the command line.

use super::Failure;
use crate::routine::Routine;
use crate::score::{Take, TakeFault, TakeTempo, spoken};

pub use crate::score::spoken::{a4, guide, in_words, key, notice, temperament, tempo};

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
