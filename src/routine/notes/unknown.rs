//! Words that are no token of the note language.

use super::slips::MARKS;
use crate::music::{Dynamic, NoteValue, WrittenPitch};
use crate::routine::fault::{Fault, Span};
use crate::routine::model::On;
use crate::routine::suggest::nearest;

/// An unknown word.
pub fn word(word: &str, value: Option<&str>, on: On, span: Span) -> Fault {
    const HORN: [&str; 12] = [
        "rest", "tie", "breath", "cresc", "dim", "slur", "triplet", "pp", "mp", "mf", "ff", "sharp",
    ];
    const AIR: [&str; 5] = ["in", "out", "hold", "rest", "tie"];
    let head = word.split(':').next().unwrap_or(word);
    let fault = Fault::new(span, format!("{word} is not understood"));
    if Dynamic::parse(&word.to_lowercase()).is_some() {
        return fault.hint(format!("write {}", word.to_lowercase()));
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
        return fault.hint(format!("write {meant}"));
    }
    if let Some(head) = ["slur", "triplet"]
        .into_iter()
        .find(|h| head.strip_prefix(h).is_some_and(|t| matches!(t, "" | "{")))
    {
        return fault.hint(format!("its bracket stands right after it: {head}( … )"));
    }
    if matches!(head, "sfz" | "sf" | "fz" | "sffz") {
        return fault.hint("an accent is written after its note: G4:half (accent)");
    }
    if word.starts_with(['‖', ':']) {
        return fault.hint("a bar line is a single |; a repeat is times = 2 on the line");
    }
    let known: &[&str] = if on == On::Air { &AIR } else { &HORN };
    match nearest(head, known.iter().copied()) {
        Some(meant) => {
            let meant = value.map_or_else(|| meant.to_owned(), |v| format!("{meant}:{v}"));
            fault.hint(format!("did you mean {meant}?"))
        }
        None if on == On::Air => {
            fault.hint("a breathing line holds in, out, hold and rest: in:whole out:whole")
        }
        None => fault.hint("a note is its pitch and its length: G4:half"),
    }
}

/// A breath that is written as in the other kind of line.
fn breathing(head: &str, value: Option<&str>, on: On, span: Span) -> Option<Fault> {
    if !matches!(head.to_lowercase().as_str(), "breath" | "breathe") {
        return None;
    }
    let fault = Fault::new(span, format!("{head} is not understood"));
    match (on, value) {
        (On::Air, value) => {
            let value = value.unwrap_or("half");
            let fault = Fault::new(
                span,
                format!("{head} does not say whether it goes in or out"),
            );
            Some(fault.hint(format!("write in:{value} or out:{value}")))
        }
        (_, Some(value)) => Some(
            Fault::new(
                span,
                "a breath has no length: its time is taken from the note before it",
            )
            .hint(format!("write breath; silence is written rest:{value}")),
        ),
        _ => Some(fault.hint("write breath")),
    }
}

/// What is written in another way: a mark, a repeat, a note and its length joined by another sign.
fn elsewhere(word: &str) -> Option<String> {
    let small = word.to_lowercase();
    if let Some(mark) = MARKS.iter().find(|mark| **mark == small) {
        return Some(format!(
            "it stands in round brackets after its note: G4:half({mark})"
        ));
    }
    match small.as_str() {
        "tongue" | "tongued" | "detached" => {
            return Some("what stands in no slur( … ) is tongued".to_owned());
        }
        "slurred" | "legato(" => {
            return Some("slurred notes stand in slur( … )".to_owned());
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
        return Some("a repeat is times = 2, in a row of its own under the line".to_owned());
    }
    let (head, value) = word.split_once(['/', '-', '_', '=', '.', ','])?;
    (WrittenPitch::parse(head).is_some() && NoteValue::parse(value).is_some())
        .then(|| format!("a colon joins a note and its length: {head}:{value}"))
}

/// A length that stands apart from its note, `head`; `None` where there is no note before it.
pub fn apart(head: Option<&str>, value: &str, span: Span) -> Fault {
    match head {
        Some(head) => Fault::new(span, "a colon joins a note and its length, without blanks")
            .hint(format!("write {head}:{value}")),
        None => Fault::new(span, format!("{value} is a length without a note"))
            .hint(format!("a colon joins a note and its length: G4:{value}")),
    }
}
