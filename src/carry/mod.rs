//! Carries a routine to another instrument: the text of a routine becomes the text of another one.
//!
//! By [`CarryRule::Partials`] every note keeps its tube and its partial; by [`CarryRule::Concert`] it keeps its sounding pitch, in
//! the octave that is comfortable. Only what depends on the instrument is replaced; comments, order and blank lines stay. A
//! line that the other instrument cannot play, or not with ease, is left out, and the reason is told.
//!
//! ```
//! use leadpipe::brass::Instrument;
//! use leadpipe::carry::{CarryRule, carry};
//!
//! let text = r#"
//! format = 1
//! title = "Two long tones"
//! instrument = "trumpet in B-flat"
//! comfortable_top = "G4"
//! tempo = 72
//! [[line]]
//! name = "Long tone"
//! notes = "slur( G4:half F#4:half ) | G4:whole"
//! "#;
//! let trombone = Instrument::named("trombone").unwrap();
//! let carried = carry(text, trombone, CarryRule::Partials).unwrap();
//! assert!(carried.text.contains("slur( F3:half E3:half ) | F3:whole"));
//! assert!(carried.left_out.is_empty());
//! ```

mod edits;
mod fits;
mod interval;
mod rewrite;

use crate::brass::Instrument;
use crate::problem::Problem;
use crate::routine::{self, Fault};

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

/// Carries the routine with this text to an instrument. A routine that is for this instrument stays as it is.
///
/// # Errors
/// If the text is no routine, or if no line of it can be carried.
pub fn carry(text: &str, to: &'static Instrument, rule: CarryRule) -> Result<Carried, CarryError> {
    let routine = routine::read(text).map_err(CarryError::Unreadable)?;
    if std::ptr::eq(routine.instrument, to) || routine.instrument.name == to.name {
        return Ok(Carried {
            text: text.to_owned(),
            left_out: vec![],
        });
    }
    let (mut carried, mut left_out) = rewrite::rewrite(text, &routine, to, rule)?;
    // A line that is left out can make another one wrong: a bend that was prepared in it.
    loop {
        let (next, out) = fits::without_unfit(&routine, &carried, to, &left_out)?;
        let done = out.is_empty();
        left_out.extend(out);
        left_out.sort_by_key(|line| line.number);
        carried = next;
        if done {
            return Ok(Carried {
                text: carried,
                left_out,
            });
        }
    }
}
