//! Mistakes that are made at every note, counted.

use crate::routine::fault::{Fault, Span};
use crate::words::tell;

/// How many times something occurs in a line, and where first.
#[derive(Debug, Default)]
pub struct Occurrences {
    first: Option<(Span, String)>,
    count: usize,
}

impl Occurrences {
    /// Counts an occurrence.
    pub fn add(&mut self, span: Span) {
        self.add_example(span, "");
    }

    /// Counts an occurrence; the text of the first is kept for the message.
    pub fn add_example(&mut self, span: Span, example: &str) {
        self.first.get_or_insert_with(|| (span, example.to_owned()));
        self.count += 1;
    }

    /// True if there is one.
    pub fn any(&self) -> bool {
        self.count > 0
    }

    /// Adds those of a later part of the file.
    pub fn append(&mut self, later: Occurrences) {
        if self.first.is_none() {
            self.first = later.first;
        }
        self.count += later.count;
    }

    /// Reports them as one fault; `of` is the part of the file that they were counted in.
    pub fn tell(&self, faults: &mut Vec<Fault>, of: &str, make: impl FnOnce(Span, &str) -> Fault) {
        if let Some((span, example)) = &self.first {
            let mut fault = make(*span, example);
            if self.count > 1 {
                fault.label = Some(tell::here_and_more(self.count - 1, of));
            }
            faults.push(fault);
        }
    }
}
