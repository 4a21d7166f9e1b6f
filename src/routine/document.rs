//! Reads a file of any kind: TOML with a place for every fault.

use super::bounds::{LARGEST_FILE, MOST_FAULTS};
use super::broken_row::Dialect;
use super::fault::{Fault, Span};
use super::fields::Fields;
use super::note_names;
use super::open_text;
use super::toml_text;
use crate::words::tell;

/// Reads the text of a file with `read`, which gets the head of the file, whether it is valid so far, and the
/// list of faults to add to.
///
/// Returns what could be read, if anything, and every fault of the file in order of place. What was read is
/// complete only if there is no fault.
pub fn read<T>(
    text: &str,
    dialect: &Dialect,
    read: impl FnOnce(Fields<'_, '_>, bool, &mut Vec<Fault>) -> Option<T>,
) -> (Option<T>, Vec<Fault>) {
    if text.len() > LARGEST_FILE {
        let what = dialect.file;
        let fault = Fault::new(Span::new(0, 0), tell::too_large_file(what))
            .hint(tell::few_thousand_letters(what));
        return (None, vec![fault]);
    }
    let (repaired, mut faults) = toml_text::repair(text);
    if let Some(open) = open_text::find(&repaired, dialect) {
        // What follows has swallowed names and lines, so that anything said about it would mislead.
        faults.retain(|fault| fault.span.start < open.span.start);
        faults.push(open);
        return (None, in_order(faults, text));
    }
    let (root, errors) = toml::de::DeTable::parse_recoverable(&repaired);
    let broken_rows = toml_text::tell(&repaired, &errors, dialect, &mut faults);
    let head = Fields {
        source: &repaired,
        table: root.get_ref(),
        at: Span::new(0, first_line_end(&repaired)),
        known: dialect.keys[0],
        broken: !errors.is_empty(),
        names: note_names::said(root.get_ref())
            .filter(|_| dialect.knows("names"))
            .unwrap_or_default(),
        faults: Vec::new(),
    };
    let mut read_faults = Vec::new();
    let found = read(head, faults.is_empty(), &mut read_faults);
    // The value of a row that is not understood says nothing beyond the row's own fault.
    read_faults.retain(|fault| {
        let Span { start, end } = fault.span;
        // A value that the parser inserts for a missing one is at the very end of the row, or behind it.
        let put_in = start == end && start > 0;
        !broken_rows
            .iter()
            .any(|row| row.holds(start) || put_in && row.holds(start - 1))
    });
    // If rows are missing, the rows around them may mean something else.
    let found = found.filter(|_| faults.is_empty());
    faults.append(&mut read_faults);
    (found, in_order(faults, text))
}

/// The faults of a file, at whole characters of it and in order of place.
fn in_order(mut faults: Vec<Fault>, text: &str) -> Vec<Fault> {
    for fault in &mut faults {
        fault.span = whole_letters(text, fault.span);
        if let Some((span, _)) = &mut fault.also {
            *span = whole_letters(text, *span);
        }
    }
    faults.sort_by_key(|f| (f.span.start, f.span.end));
    faults.dedup();
    faults.truncate(MOST_FAULTS);
    faults
}

/// A span widened to whole characters of the file: repaired quotes are narrower than curly ones.
fn whole_letters(text: &str, span: Span) -> Span {
    let (mut start, mut end) = (span.start.min(text.len()), span.end.min(text.len()));
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    while !text.is_char_boundary(end) {
        end += 1;
    }
    Span::new(start, end.max(start))
}

fn first_line_end(text: &str) -> usize {
    text.find('\n').unwrap_or(text.len())
}

/// Reports a file of another format than the one expected.
pub fn format(head: &mut Fields<'_, '_>) {
    match head.get("format") {
        None => head.missing("format", tell::no_format(), tell::write_format()),
        Some(entry) => {
            if super::fields::whole_number(entry.value) != Some(1) {
                head.wrong(entry, tell::format_one_only(), tell::later_format());
            }
        }
    }
}
