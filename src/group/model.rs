//! What arranging a routine for a group gives.

use crate::carry::CarryRule;
use crate::problem::Problem;
use crate::routine::Fault;

/// A routine arranged for a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Arranged {
    /// The text of each player's routine. Unrolled at the same take they have the same clock.
    pub parts: Vec<String>,
    /// The lines of the common clock in order: line `n` of every part is turn `n`.
    pub turns: Vec<Turn>,
    /// Players who rest in a line though it is played.
    pub resting: Vec<RestingPlayer>,
}

/// A line as it is played by some or all of the group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    /// Index of the line in the routine that was arranged.
    pub line: usize,
    /// Who plays, as indices of instruments, in order.
    pub players: Vec<usize>,
    /// How the line was carried to them.
    pub rule: CarryRule,
}

/// A player who has no turn in a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RestingPlayer {
    /// Index of the instrument.
    pub player: usize,
    /// Index of the line in the routine that was arranged.
    pub line: usize,
    /// Why the line cannot be played, and what would be right.
    pub problem: Problem,
}

/// Why nothing was arranged.
#[derive(Clone, Debug, PartialEq)]
pub enum GroupError {
    /// The text is no routine.
    Unreadable(Vec<Fault>),
    /// The routine cannot be played by a player, an index of an instrument.
    Unplayable {
        /// Index of the instrument.
        player: usize,
        /// Why.
        problem: Problem,
    },
}
