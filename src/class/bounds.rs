//! Limits of a class list. README.md lists them, and a test compares.

/// The most players of one list.
pub const MOST_PLAYERS: usize = 1000;
/// The most tempos, keys or guide modes of one player.
pub const MOST_OF_EACH: usize = 20;
/// The furthest a take is moved, in half steps.
pub const FARTHEST_KEY: i64 = 24;
