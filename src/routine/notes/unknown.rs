//! Words that are no token of the note language.

use super::slips::MARKS;
use crate::music::{Dynamic, NoteValue, WrittenPitch};
use crate::routine::fault::{Fault, Span};
use crate::routine::model::On;
use crate::routine::suggest::nearest;
use crate::words::{Words, tell};

/// An unknown word.
pub fn word(word: &str, value: Option<&str>, on: On, span: Span) -> Fault {
    const HORN: [&str; 12] = [
        "rest", "tie", "breath", "cresc", "dim", "slur", "triplet", "pp", "mp", "mf", "ff", "sharp",
    ];
    const AIR: [&str; 5] = ["in", "out", "hold", "rest", "tie"];
    let head = word.split(':').next().unwrap_or(word);
    let fault = Fault::new(span, tell::not_understood(word));
    if Dynamic::parse(&word.to_lowercase()).is_some() {
        return fault.hint(tell::write_small(word.to_lowercase()));
    }
    if let Some(fault) = breathing(head, value, on, span) {
        return fault;
    }
    if let Some(hint) = elsewhere(word) {
        return fault.hint(hint);
    }
    let synonym = match head.to_lowercase().as_str() {
        "r" | "pause" | "silence" => Some("rest"),
        "crescendo" | "cresc." | "<" => Some("cresc"),
        "diminuendo" | "decrescendo" | "decresc" | "dim." | ">" => Some("dim"),
        "breathe" | "'" | "v" => Some("breath"),
        "~" | "-" | "_" | "tied" | "hold" => Some("tie"),
        "inhale" | "inspire" => Some("in"),
        "exhale" | "blow" => Some("out"),
        _ => None,
    };
    if let Some(meant) = synonym {
        let meant = value.map_or_else(|| meant.to_owned(), |v| format!("{meant}:{v}"));
        return fault.hint(tell::write_this(&meant));
    }
    if let Some(head) = ["slur", "triplet"]
        .into_iter()
        .find(|h| head.strip_prefix(h).is_some_and(|t| matches!(t, "" | "{")))
    {
        return fault.hint(tell::bracket_after(head));
    }
    if matches!(head, "sfz" | "sf" | "fz" | "sffz") {
        return fault.hint(tell::accent_after_note());
    }
    if word.starts_with(['‖', ':']) {
        return fault.hint(tell::single_bar_line());
    }
    let known: &[&str] = if on == On::Air { &AIR } else { &HORN };
    match nearest(head, known.iter().copied()) {
        Some(meant) => {
            let meant = value.map_or_else(|| meant.to_owned(), |v| format!("{meant}:{v}"));
            fault.hint(tell::did_you_mean(&meant))
        }
        None if on == On::Air => fault.hint(tell::air_line_holds()),
        None => fault.hint(tell::note_is()),
    }
}

/// A breath that is written as in the other kind of line.
fn breathing(head: &str, value: Option<&str>, on: On, span: Span) -> Option<Fault> {
    if !matches!(head.to_lowercase().as_str(), "breath" | "breathe") {
        return None;
    }
    let fault = Fault::new(span, tell::head_not_understood(head));
    match (on, value) {
        (On::Air, value) => {
            let value = value.unwrap_or("half");
            let fault = Fault::new(span, tell::in_or_out(head));
            Some(fault.hint(tell::write_in_or_out(value)))
        }
        (_, Some(value)) => {
            Some(Fault::new(span, tell::breath_no_length()).hint(tell::breath_or_rest(value)))
        }
        _ => Some(fault.hint(tell::write_breath())),
    }
}

/// What is written in another way: a mark, a repeat, a note and its length joined by another sign.
fn elsewhere(word: &str) -> Option<Words> {
    let small = word.to_lowercase();
    if let Some(mark) = MARKS.iter().find(|mark| **mark == small) {
        return Some(tell::in_round_brackets(mark));
    }
    match small.as_str() {
        "tongue" | "tongued" | "detached" => {
            return Some(tell::unslurred_is_tongued());
        }
        "slurred" | "legato(" => {
            return Some(tell::slurred_in_slur());
        }
        _ => {}
    }
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    let repeats = |t: &str| {
        t.strip_prefix('x')
            .or(t.strip_suffix('x'))
            .is_some_and(digits)
    };
    if repeats(&small) || matches!(small.as_str(), "repeat" | "bis") {
        return Some(tell::repeat_is_times());
    }
    let (head, value) = word.split_once(['/', '-', '_', '=', '.', ','])?;
    (WrittenPitch::parse(head).is_some() && NoteValue::parse(value).is_some())
        .then(|| tell::colon_joins(head, value))
}

/// A length that stands apart from its note, `head`; `None` where there is no note before it.
pub fn apart(head: Option<&str>, value: &str, span: Span) -> Fault {
    match head {
        Some(head) => {
            Fault::new(span, tell::colon_no_blanks()).hint(tell::write_head_value(head, value))
        }
        None => {
            Fault::new(span, tell::length_without_note(value)).hint(tell::colon_joins_length(value))
        }
    }
}
