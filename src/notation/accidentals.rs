//! Which notes have an accidental. There is no key signature, and a sharp or flat holds until the bar line.

use super::written::{WrittenKind, WrittenPass};
use std::collections::HashMap;

/// Sets the accidentals of passes that follow each other on the same staff.
///
/// In the bar after a sharp or flat the natural note gets a courtesy accidental.
pub fn set(passes: &mut [WrittenPass]) {
    let mut before: HashMap<i32, i8> = HashMap::new();
    for bar in passes.iter_mut().flat_map(|pass| &mut pass.bars) {
        let mut held: HashMap<i32, i8> = HashMap::new();
        for symbol in &mut bar.symbols {
            let WrittenKind::Note(note) = &mut symbol.what else {
                continue;
            };
            // A note tied over the bar line keeps its accidental, without effect on other notes.
            if note.head > 0 {
                continue;
            }
            let (step, alter) = (note.step(), note.pitch.alter());
            let stands = held.get(&step).copied();
            let reminds = stands.is_none() && before.get(&step).is_some_and(|b| *b != alter);
            if stands.unwrap_or(0) != alter || reminds {
                note.accidental = Some(alter);
            }
            held.insert(step, alter);
        }
        // Accidentals hold on in the next part of a divided bar.
        if bar.closed {
            before = held;
        } else {
            before.extend(held);
        }
    }
}
