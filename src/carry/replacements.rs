//! Replacements in a text.

use std::ops::Range;

/// Replacements of parts of a text that do not overlap.
#[derive(Debug, Default)]
pub struct Replacements {
    all: Vec<(Range<usize>, String)>,
}

impl Replacements {
    /// Replaces a range of bytes.
    pub fn replace(&mut self, range: Range<usize>, with: impl Into<String>) {
        self.all.push((range, with.into()));
    }

    /// Takes over other replacements.
    pub fn append(&mut self, other: Replacements) {
        self.all.extend(other.all);
    }

    /// The text with everything replaced.
    pub fn apply(mut self, text: &str) -> String {
        self.all.sort_by_key(|(range, _)| range.start);
        let mut out = String::with_capacity(text.len());
        let mut at = 0;
        for (range, with) in self.all {
            // What lies in a part that is replaced as a whole is gone with it.
            if range.start < at {
                continue;
            }
            out.push_str(&text[at..range.start]);
            out.push_str(&with);
            at = range.end;
        }
        out.push_str(&text[at..]);
        out
    }
}
