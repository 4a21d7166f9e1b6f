//! Places in a teacher's words: which line, which pass, which note.

use super::course::{PlacedNote, Turn};
use crate::score::spoken;
use crate::words::{Words, count, ordinal, tell};
use std::collections::{BTreeMap, BTreeSet};

impl Turn<'_> {
    /// The line's name in quotation marks.
    pub fn line_name(&self) -> Words {
        tell::in_quotes(&self.written.name)
    }

    /// What distinguishes this pass from the line's others: "on 1-2-3, slurred", "3 half steps down".
    /// `None` if nothing does.
    pub fn name(&self) -> Option<Words> {
        spoken::pass_name(self.instrument, self.written, self.pass)
    }
}

impl PlacedNote<'_> {
    /// "F#4, the 3rd note".
    pub fn name(&self) -> Words {
        tell::the_nth_note(self.pitch, ordinal::in_figures(self.index + 1))
    }
}

/// Notes of one line that share a finding.
pub struct Group<'s> {
    /// The first of them.
    pub first: PlacedNote<'s>,
    /// All of them.
    pub all: Vec<PlacedNote<'s>>,
}

impl<'s> Group<'s> {
    /// Groups notes by line.
    pub fn by_line(notes: impl IntoIterator<Item = PlacedNote<'s>>) -> Vec<Group<'s>> {
        Self::by(notes, |n| (n.turn.line.index, 0))
    }

    /// Groups notes by their token in the file: one group for all passes.
    pub fn by_token(notes: impl IntoIterator<Item = PlacedNote<'s>>) -> Vec<Group<'s>> {
        Self::by(notes, |n| (n.turn.line.index, n.note.event))
    }

    fn by(
        notes: impl IntoIterator<Item = PlacedNote<'s>>,
        key: impl Fn(&PlacedNote<'s>) -> (usize, usize),
    ) -> Vec<Group<'s>> {
        let mut groups: Vec<Group<'s>> = vec![];
        let mut known = BTreeMap::new();
        for note in notes {
            let group = *known.entry(key(&note)).or_insert(groups.len());
            match groups.get_mut(group) {
                Some(group) => group.all.push(note),
                None => groups.push(Group {
                    first: note,
                    all: vec![note],
                }),
            }
        }
        groups
    }

    /// Line, first note, its pass, and how many more there are: "“Steps”: F#4, the 3rd note, on 1-2
    /// (and 2 more notes, in 4 passes),". A verb in the singular follows.
    pub fn place(&self) -> Words {
        let line = self.first.turn.line_name();
        let pass = self.first.turn.name();
        let pass = pass.map_or_else(Words::default, tell::further_pass);
        let more = self.more().map_or_else(Words::default, tell::in_brackets);
        tell::place_of_notes(line, self.first.name(), pass, more)
    }

    fn more(&self) -> Option<Words> {
        let tokens: BTreeSet<usize> = self.all.iter().map(|n| n.note.event).collect();
        let passes: BTreeSet<usize> = self.all.iter().map(|n| n.turn.number).collect();
        let notes = count::more_notes(tokens.len() - 1);
        let in_passes = tell::in_passes(count::passes(passes.len()));
        match (tokens.len(), passes.len()) {
            (1, 1) => None,
            (1, _) => Some(in_passes),
            (_, 1) => Some(tell::and_notes(&notes)),
            _ => Some(tell::and_notes_in_passes(&notes, &in_passes)),
        }
    }
}
