//! The usual routine of each level.

use crate::brass::{Instrument, Level};
use crate::music::WrittenPitch;

/// The routine for players who have not reached level 1 yet.
pub const STARTER: &str = "first-sounds";

/// The routine of each level, level 1 first.
const OF_LEVEL: [&str; 5] = [
    "first-steps",
    "second-steps",
    "third-steps",
    "fourth-steps",
    "fifth-steps",
];

/// The built-in routine of a level.
pub fn routine_of(level: Level) -> &'static str {
    OF_LEVEL[usize::from(level.number()) - 1]
}

/// The built-in routine for players whose highest open note played with ease is `top`.
pub fn routine_at(instrument: &Instrument, top: WrittenPitch) -> &'static str {
    Level::of_top(instrument, top).map_or(STARTER, routine_of)
}
