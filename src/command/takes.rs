//! Takes as they are named on the command line.

use super::{Exit, Failure};
use crate::edition::Wanted;
use crate::routine::Routine;
use crate::score::{Take, TakeKey, TakeTempo, spoken};
use clap::Args;

pub use crate::score::spoken::{a4, guide, in_words, key, notice, temperament, tempo};

/// Tempo and key of a command that shows one take.
#[derive(Args, Clone, Copy, Debug)]
pub struct OneTake {
    /// Tempo: clicks a minute (72) or a part of what is written (85%)
    #[arg(long, value_name = "TEMPO", value_parser = tempo, default_value = "100%",
        allow_hyphen_values = true)]
    tempo: TakeTempo,

    /// Key to move lines of pitches to: half steps (-2), or its name ("B-flat major", Bb) where the
    /// routine says its own
    #[arg(long, value_name = "KEY", value_parser = key, default_value = "0",
        allow_hyphen_values = true)]
    key: TakeKey,
}

impl OneTake {
    /// The take of a routine, with defaults for everything else.
    pub fn take(self, routine: &Routine) -> Result<Take, Failure> {
        Ok(Take {
            tempo: self.tempo,
            key: half_steps(self.key, routine)?,
            ..Take::default()
        })
    }
}

/// Half steps to a key in a routine.
fn half_steps(key: TakeKey, routine: &Routine) -> Result<i32, Failure> {
    spoken::key_in(key, routine).map_err(|problem| Failure::of(Exit::WrongUsage, problem))
}

/// The wanted takes of a routine, in these keys.
pub fn in_keys(wanted: Wanted, keys: &[TakeKey], routine: &Routine) -> Result<Vec<Take>, Failure> {
    let keys = keys.iter().map(|key| half_steps(*key, routine));
    let wanted = Wanted {
        keys: keys.collect::<Result<_, _>>()?,
        ..wanted
    };
    Ok(wanted.takes())
}
