//! A description of a system in words, for readers who cannot see it.

use super::part::LinePart;
use super::slots::Slot;
use crate::notation::value::Value;
use crate::notation::written::{Note, WrittenKind, WrittenSymbol};
use crate::score::Joined;
use crate::words::{key, pitch};

/// What stands on a system: "Line 3, Long tone: 4/4, G 4 half, slurred to F sharp 4 half; G 4 whole".
pub fn system(part: &LinePart<'_>, slots: &[Slot], first: bool) -> String {
    let mut said = format!("Line {}, {}", part.number, part.line.name);
    let mut bars = vec![];
    if first {
        let meter = part.score_line.meter;
        let key = slots
            .first()
            .and_then(|slot| part.passes[slot.pass].written.key);
        bars.extend(key.map(key::aloud));
        bars.push(format!("{} {} time", meter.beats(), meter.unit()));
    } else {
        said += ", goes on";
    }
    for slot in slots {
        let pass = &part.passes[slot.pass];
        let mut words = vec![];
        if slot.opens_pass {
            let said = [&pass.between, &pass.label].into_iter();
            words.extend(said.filter(|words| !words.is_empty()).cloned());
        }
        let before = slot.pass.checked_sub(1).map(|before| &part.passes[before]);
        if slot.opens_pass && before.is_some_and(|before| before.written.key != pass.written.key) {
            words.extend(pass.written.key.map(key::aloud));
        }
        words.extend(
            slot.bar
                .symbols
                .iter()
                .map(|symbol| spoken(part, slot.pass, symbol)),
        );
        bars.push(words.join(", "));
    }
    format!("{said}: {}", bars.join("; "))
}

fn spoken(part: &LinePart<'_>, pass: usize, symbol: &WrittenSymbol) -> String {
    let value = value(symbol.value);
    let length = match symbol.triplet {
        Some(_) => format!("triplet {value}"),
        None => value,
    };
    match symbol.what {
        WrittenKind::Note(note) if note.head > 0 => {
            after(part, pass, &note, format!("tied to {length}"))
        }
        WrittenKind::Note(note) => {
            let how = match part.passes[pass].pass.notes[note.index].joined {
                Joined::Fresh(_) => "",
                Joined::Slurred => "slurred to ",
                Joined::Bent => "bent to ",
            };
            let fingering = part.passes[pass].fingerings[note.index].as_deref();
            let fingering = fingering.map_or(String::new(), |f| format!(" on {f}"));
            let words = format!("{how}{} {length}{fingering}", pitch::aloud(note.pitch));
            after(part, pass, &note, words)
        }
        WrittenKind::Air { word: "", .. } => format!("on for {length}"),
        WrittenKind::Air { word, .. } => format!("{word} {length}"),
        WrittenKind::Rest(true) => "a bar of rest".to_owned(),
        WrittenKind::Rest(false) => format!("rest {length}"),
    }
}

/// With the breath that follows, if one does.
fn after(part: &LinePart<'_>, pass: usize, note: &Note, words: String) -> String {
    let breathes = part.passes[pass].pass.notes[note.index].breath.is_some();
    if breathes && !note.tied_on {
        words + ", breath"
    } else {
        words
    }
}

fn value(value: Value) -> String {
    let name = match value.division {
        1 => "whole",
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        16 => "sixteenth",
        32 => "thirty-second",
        _ => "sixty-fourth",
    };
    if value.dotted {
        format!("dotted {name}")
    } else {
        name.to_owned()
    }
}
