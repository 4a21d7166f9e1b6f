//! Takes as they are named on the command line.

use crate::score::{Take, TakeTempo};
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
    /// The take, with defaults for everything else.
    pub fn take(self) -> Take {
        Take {
            tempo: self.tempo,
            key: self.key,
            ..Take::default()
        }
    }
}
