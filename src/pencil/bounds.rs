//! How much a pencil may hold. README.md lists these bounds, and a test compares.

/// The most marks of one pencil.
pub const MOST_MARKS: usize = 500;
/// The lowest percentage of a tempo or a rest.
pub const LEAST_PART: i64 = 10;
/// The highest percentage of a tempo or a rest.
pub const MOST_PART: i64 = 400;
/// The highest number a note is counted by.
pub const MOST_NOTE: i64 = 10_000;

/// What "slower" leaves of a tempo, in percent: a notch is 15 %.
pub const SLOWER: i64 = 85;
/// What "faster" makes of it.
pub const FASTER: i64 = 115;
/// What "shorter" leaves of a rest, in percent: a notch of rest is a quarter of it, two beats of two bars. Less is
/// hardly felt, more turns "a little longer" into waiting.
pub const SHORTER: i64 = 75;
/// What "longer" makes of it.
pub const LONGER: i64 = 125;
