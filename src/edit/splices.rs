//! Replacements that can be taken back.

use super::model::Splice;

/// The text with everything replaced, and the replacements that give the old text back. Splices are in order and do not overlap.
pub fn apply(text: &str, splices: &[Splice]) -> (String, Vec<Splice>) {
    let mut out = String::with_capacity(text.len());
    let mut inverse = vec![];
    let mut at = 0;
    for splice in splices {
        out.push_str(&text[at..splice.start]);
        let start = out.len();
        out.push_str(&splice.with);
        inverse.push(Splice {
            start,
            end: out.len(),
            with: text[splice.start..splice.end].to_owned(),
        });
        at = splice.end;
    }
    out.push_str(&text[at..]);
    (out, inverse)
}

/// In order of place; those at one place stay in the order in which they were made. Two that overlap become one.
pub fn in_order(mut splices: Vec<Splice>) -> Vec<Splice> {
    splices.retain(|splice| splice.start != splice.end || !splice.with.is_empty());
    splices.sort_by_key(|splice| (splice.start, splice.end));
    let mut out: Vec<Splice> = vec![];
    for splice in splices {
        match out.last_mut() {
            Some(last) if splice.start < last.end => {
                last.end = last.end.max(splice.end);
                last.with.push_str(&splice.with);
            }
            _ => out.push(splice),
        }
    }
    out
}

/// A replacement.
pub fn splice(range: std::ops::Range<usize>, with: impl Into<String>) -> Splice {
    Splice {
        start: range.start,
        end: range.end,
        with: with.into(),
    }
}
