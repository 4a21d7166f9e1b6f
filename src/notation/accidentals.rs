//! Which notes have an accidental: those that the key signature does not have so. A sharp or flat holds until the bar
//! line.

use super::written::{WrittenKind, WrittenPass};
use crate::music::Key;
use std::collections::HashMap;

/// Sets the accidentals of passes that follow each other on the same staff.
///
/// In the bar after a sharp or flat the note that is as in the signature again gets a courtesy accidental.
pub fn set(passes: &mut [WrittenPass]) {
    let mut before: HashMap<i32, i8> = HashMap::new();
    let mut signature: Option<Key> = None;
    for pass in passes {
        if pass.key != signature {
            // The new signature says it all.
            before.clear();
            signature = pass.key;
        }
        for bar in &mut pass.bars {
            let mut held: HashMap<i32, i8> = HashMap::new();
            for symbol in &mut bar.symbols {
                let WrittenKind::Note(note) = &mut symbol.what else {
                    continue;
                };
                // A note tied over the bar line keeps its accidental, without effect on other notes.
                if note.head > 0 {
                    continue;
                }
                let (step, alter) = (note.step, note.pitch.alter());
                let usual = pass.key.map_or(0, |key| key.alter(note.pitch.letter()));
                let stands = held.get(&step).copied();
                let reminds = stands.is_none() && before.get(&step).is_some_and(|b| *b != alter);
                if stands.unwrap_or(usual) != alter || reminds {
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
}
