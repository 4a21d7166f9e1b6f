//! A problem where it stands, and an edit that mends it.

use crate::edit::{Edit, Value, apply};
use crate::problem::Problem;
use crate::routine::Routine;
use crate::words::say;

/// An edit that mends a problem.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What it does, for a button.
    pub says: String,
    /// The whole text after it.
    pub text: String,
}

/// A problem of a routine that can be read.
pub struct At<'t> {
    pub text: &'t str,
    pub routine: &'t Routine,
    pub problem: &'t Problem,
}

impl At<'_> {
    /// Edits, one after the other, as one mend; `None` if one of them cannot be made, or nothing is changed.
    pub fn mend(&self, says: String, edits: &[Edit]) -> Option<Mend> {
        let mut text = self.text.to_owned();
        for edit in edits {
            text = apply(&text, edit).ok()?.text;
        }
        (text != self.text).then_some(Mend { says, text })
    }

    /// Entries of a line, written as in the file.
    pub fn entries(&self, line: usize, entries: &[(&str, Value)]) -> Option<Mend> {
        let edits: Vec<Edit> = entries
            .iter()
            .map(|(key, value)| Edit::Set {
                line: Some(line),
                key: (*key).to_owned(),
                value: value.clone(),
            })
            .collect();
        let written: Vec<String> = entries
            .iter()
            .map(|(key, value)| format!("{key} = {}", value.written()))
            .collect();
        let says = say::mend_entry(self.routine.words_in, written.join(", "));
        self.mend(says, &edits)
    }
}
