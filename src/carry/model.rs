//! What carrying a routine gives.

use crate::problem::Problem;
use crate::routine::Fault;

/// What a note keeps when it is carried to another instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CarryRule {
    /// Its tube and its partial.
    Partials,
    /// Its sounding pitch, in the octave that is comfortable.
    Concert,
}

impl CarryRule {
    /// The words on the command line.
    pub const WORDS: [(&'static str, CarryRule); 2] = [
        ("partials", CarryRule::Partials),
        ("concert", CarryRule::Concert),
    ];
}

/// A routine for another instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// Its text.
    pub text: String,
    /// The lines that could not be carried, in order.
    pub left_out: Vec<LeftOutLine>,
}

/// A line that could not be carried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOutLine {
    /// Its number in the routine that was carried, from 1.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// Why, in a sentence, and what would be right.
    pub problem: Problem,
}

/// Why nothing was carried.
#[derive(Clone, Debug, PartialEq)]
pub enum CarryError {
    /// The text is no routine.
    Unreadable(Vec<Fault>),
    /// None of its lines can be played on the other instrument.
    NothingLeft(Vec<LeftOutLine>),
    /// A part of it is written in a way that cannot be replaced in the text.
    Untouchable(Problem),
}
