//! A description of a system in words, for readers who cannot see it.

use super::above::breath_word;
use super::part::LinePart;
use super::slots::Slot;
use crate::notation::value::Value;
use crate::notation::written::{Note, WrittenKind, WrittenSymbol};
use crate::score::Joined;
use crate::words::{Language, key, pitch, say};

/// What stands on a system: "Line 3, Long tone: 4/4, G 4 half, slurred to F sharp 4 half; G 4 whole".
pub fn system(part: &LinePart<'_>, slots: &[Slot], first: bool) -> String {
    let language = part.language;
    let mut bars = vec![];
    if first {
        let meter = part.score_line.meter;
        let key = slots
            .first()
            .and_then(|slot| part.passes[slot.pass].written.key);
        bars.extend(key.map(|key| key::aloud(language, part.names, key)));
        bars.push(say::meter(language, meter.beats(), meter.unit()));
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
            words.extend(
                pass.written
                    .key
                    .map(|key| key::aloud(language, part.names, key)),
            );
        }
        words.extend(
            slot.bar
                .symbols
                .iter()
                .map(|symbol| spoken(part, slot.pass, symbol)),
        );
        bars.push(words.join(", "));
    }
    let bars = bars.join("; ");
    match first {
        true => say::system(language, part.number, &part.line.name, bars),
        false => say::system_goes_on(language, part.number, &part.line.name, bars),
    }
}

fn spoken(part: &LinePart<'_>, pass: usize, symbol: &WrittenSymbol) -> String {
    let language = part.language;
    let value = value(language, symbol.value);
    let length = match symbol.triplet {
        Some(_) => say::triplet(language, value),
        None => value,
    };
    match symbol.what {
        WrittenKind::Note(note) if note.head > 0 => {
            after(part, pass, &note, say::tied_to(language, length))
        }
        WrittenKind::Note(note) => {
            let own = format!(
                "{} {length}",
                pitch::aloud(language, part.names, note.pitch)
            );
            let words = match part.passes[pass].pass.notes[note.index].joined {
                Joined::Fresh(_) => own,
                Joined::Slurred => say::slurred_to(language, own),
                Joined::Bent => say::bent_to(language, own),
            };
            let words = match part.passes[pass].fingerings[note.index].as_deref() {
                Some(fingering) => say::with_fingering(language, words, fingering),
                None => words,
            };
            after(part, pass, &note, words)
        }
        WrittenKind::Air { word: "", .. } => say::air_goes_on(language, length),
        WrittenKind::Air { word, .. } => format!("{} {length}", breath_word(language, word)),
        WrittenKind::Rest(true) => say::bar_of_rest(language).to_owned(),
        WrittenKind::Rest(false) => say::rest_of(language, length),
    }
}

/// With the breath that follows, if one does.
fn after(part: &LinePart<'_>, pass: usize, note: &Note, words: String) -> String {
    let breathes = part.passes[pass].pass.notes[note.index].breath.is_some();
    if breathes && !note.tied_on {
        say::breath_after(part.language, words)
    } else {
        words
    }
}

fn value(language: Language, value: Value) -> String {
    let name = say::note_value(language, value.division);
    if value.dotted {
        say::dotted(language, name)
    } else {
        name
    }
}
