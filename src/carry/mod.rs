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

mod fits;
mod interval;
mod model;
mod replacements;
mod rewrite;

pub use model::{Carried, CarryError, CarryRule, LeftOutLine};

use crate::brass::Instrument;
use crate::music::NoteNames;
use crate::routine::{self, note_names};
use std::ops::Range;

/// Carries the routine with this text to an instrument. A routine that is for this instrument stays as it is.
///
/// # Errors
/// If the text is no routine, or if no line of it can be carried.
pub fn carry(text: &str, to: &'static Instrument, rule: CarryRule) -> Result<Carried, CarryError> {
    let EveryLine { fit, left_out, .. } = carry_every(text, to, rule)?;
    match fit {
        Some(text) => Ok(Carried { text, left_out }),
        None => Err(CarryError::NothingLeft(left_out)),
    }
}

/// A routine for another instrument with every line still in its text.
pub(crate) struct EveryLine {
    /// The text with all lines; those left out stand in it as they could be carried, or unchanged.
    pub text: String,
    /// The text without the lines that are left out; `None` if that is all of them.
    pub fit: Option<String>,
    /// The lines that could not be carried, in order.
    pub left_out: Vec<LeftOutLine>,
}

/// Carries a routine whose notes do not have English names: in English names, and back.
fn in_other_names(
    text: &str,
    names: NoteNames,
    to: &'static Instrument,
    rule: CarryRule,
) -> Result<EveryLine, CarryError> {
    let english = note_names::rewritten(text, NoteNames::English);
    let carried = carry_every(&english, to, rule)?;
    let back = |text: String| note_names::rewritten(&text, names);
    Ok(EveryLine {
        text: back(carried.text),
        fit: carried.fit.map(back),
        ..carried
    })
}

/// Carries the routine with this text to an instrument and keeps every line in the text.
pub(crate) fn carry_every(
    text: &str,
    to: &'static Instrument,
    rule: CarryRule,
) -> Result<EveryLine, CarryError> {
    let routine = routine::read(text).map_err(CarryError::Unreadable)?;
    if routine.names != NoteNames::English {
        return in_other_names(text, routine.names, to, rule);
    }
    if std::ptr::eq(routine.instrument, to) || routine.instrument.name == to.name {
        return Ok(EveryLine {
            text: text.to_owned(),
            fit: Some(text.to_owned()),
            left_out: vec![],
        });
    }
    let (carried, mut left_out) = rewrite::rewrite(text, &routine, to, rule)?;
    // A line that is left out can make another one wrong: a bend that was prepared in it.
    loop {
        let (fit, out) = match fits::without_unfit(&routine, &carried, to, &left_out) {
            Ok((fit, out)) => (Some(fit), out),
            Err(CarryError::NothingLeft(_)) => (None, vec![]),
            Err(error) => return Err(error),
        };
        let done = out.is_empty();
        left_out.extend(out);
        left_out.sort_by_key(|line| line.number);
        if done {
            return Ok(EveryLine {
                text: carried,
                fit,
                left_out,
            });
        }
    }
}

/// Where each of the `count` lines of a routine stands in its text, from the comment over its header to that of the next one.
pub(crate) fn places_of_lines(text: &str, count: usize) -> Result<Vec<Range<usize>>, CarryError> {
    fits::lines(text, count)
}
