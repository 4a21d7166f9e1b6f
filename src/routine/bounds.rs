//! Limits of a routine file. README.md lists them, and a test compares.

/// The most bytes a routine file may have: 1 MiB.
pub const LARGEST_FILE: usize = 1 << 20;
/// The most lines a routine may have.
pub const MOST_LINES: usize = 200;
/// The most faults reported for one file; more would not help.
pub const MOST_FAULTS: usize = 100;
/// The most half steps or tubes of one line.
pub const MOST_STEPS: usize = 50;
/// The most tempos of one line.
pub const MOST_TEMPOS: usize = 10;
/// The most times a line may be played.
pub const MOST_TIMES: i64 = 100;
/// The most bars of count-in.
pub const MOST_COUNT_IN: i64 = 16;
/// The furthest a line may be moved, in half steps: the range of the instruments.
pub const FURTHEST_MOVE: i64 = 36;
/// The longest rest, in seconds, bars or beats.
pub const LONGEST_REST: i64 = 3600;
/// Longest title, name or sentence, in characters.
pub const LONGEST_TEXT: usize = 500;
