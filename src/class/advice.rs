//! Whether a routine suits a player's range. Suggestions to the teacher, who has heard the player.

use crate::brass::Level;
use crate::music::WrittenPitch;
use crate::presets::levels;
use crate::routine::Routine;
use crate::words::{Words, tell};

/// A suggestion about a player's routine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Advice {
    /// The player is comfortable higher than the routine asks.
    TryNext(Words),
    /// The routine is written for a player who is comfortable higher.
    TooHigh(Words),
}

impl Advice {
    /// The suggestion as a sentence without its subject: "… might try third-steps".
    pub fn words(&self) -> &Words {
        match self {
            Advice::TryNext(words) | Advice::TooHigh(words) => words,
        }
    }
}

/// A suggestion for a player whose highest comfortable open note is `top`; `None` if the routine suits.
pub fn of(routine: &Routine, top: WrittenPitch) -> Option<Advice> {
    let instrument = routine.instrument;
    let player = Level::of_top(instrument, top);
    let asked = Level::of_top(instrument, routine.comfortable_top);
    let of_routine = routine.comfortable_top;
    let title = &routine.title;
    if player > asked {
        let next = asked.map_or_else(|| Level::all().next(), Level::next)?;
        let next = levels::routine_of(next);
        Some(Advice::TryNext(tell::try_next_level(
            top, title, of_routine, next,
        )))
    } else if player < asked {
        let suits = levels::routine_at(instrument, top);
        Some(Advice::TooHigh(tell::set_too_high(
            top, title, of_routine, suits,
        )))
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of_top(top: &str) -> Option<Advice> {
        let text = include_str!("../../presets/second-steps.toml");
        let routine = crate::routine::read(text).unwrap();
        of(&routine, WrittenPitch::parse(top).unwrap())
    }

    #[test]
    fn levels_are_compared_and_nothing_is_said_where_they_agree() {
        // Second steps are for G4.
        for top in ["G4", "A4", "B4"] {
            assert_eq!(of_top(top), None, "{top}");
        }
        for top in ["C5", "G5"] {
            let next = of_top(top);
            assert!(
                matches!(&next, Some(Advice::TryNext(w)) if w.contains("third-steps")),
                "{next:?}"
            );
        }
        for (top, routine) in [("E4", "first-steps"), ("B3", "first-sounds")] {
            let high = of_top(top);
            assert!(
                matches!(&high, Some(Advice::TooHigh(w)) if w.contains(routine)),
                "{high:?}"
            );
        }
    }
}
