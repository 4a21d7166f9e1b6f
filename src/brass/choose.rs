//! Which built-in routine suits a player, by the highest open note played with ease.

use super::{Level, instrument::Instrument};
use crate::music::WrittenPitch;

/// The routine for players whose level 1 is still to come.
pub const STARTER: &str = "first-sounds";

/// The routine of each level, level 1 first.
const OF_LEVEL: [&str; 5] = [
    "first-steps",
    "second-steps",
    "third-steps",
    "fourth-steps",
    "fifth-steps",
];

/// A routine to play, and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Name of the built-in routine.
    pub routine: &'static str,
    /// When to take it, in a sentence.
    pub when: String,
}

/// What to start with, and what lies on either side of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The note asked about, with its place on the staff: "G4, second-line G".
    pub note: String,
    /// The level it belongs to; none below level 1.
    pub level: Option<Level>,
    /// Name of the built-in routine to start with.
    pub routine: &'static str,
    /// Why that one, in one or two sentences.
    pub why: String,
    /// The routine after it.
    pub next: Option<Step>,
    /// The easier one, for doubt and for bad days.
    pub easier: Option<Step>,
    /// A word for players who should talk to a teacher first.
    pub ask: Option<String>,
}

/// The built-in routine of a level.
pub fn routine_of(level: Level) -> &'static str {
    OF_LEVEL[usize::from(level.number()) - 1]
}

/// Chooses for a player whose highest open note played with ease is `top`.
pub fn choose(instrument: &Instrument, top: WrittenPitch) -> Choice {
    let level = Level::of_top(instrument, top);
    Choice {
        note: top.in_words(),
        level,
        routine: level.map_or(STARTER, routine_of),
        why: String::new(),
        next: None,
        easier: None,
        ask: None,
    }
}
