//! Places in a teacher's words: which line, which pass, which note.

use super::course::{Met, Turn};
use crate::score::spoken;
use std::collections::{BTreeMap, BTreeSet};

/// "1st", "2nd", "3rd", "11th".
pub fn ordinal(n: usize) -> String {
    let ending = match (n % 100, n % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{n}{ending}")
}

/// "1 note", "3 notes".
pub fn counted(n: usize, one: &str) -> String {
    match n {
        1 => format!("1 {one}"),
        n if one.ends_with("ss") => format!("{n} {one}es"),
        n => format!("{n} {one}s"),
    }
}

/// A length for a sentence: "8 s", "1 min 20 s".
pub fn duration(seconds: f64) -> String {
    let whole = libm::round(seconds) as u64;
    match (whole / 60, whole % 60) {
        (0, s) => format!("{s} s"),
        (m, 0) => format!("{m} min"),
        (m, s) => format!("{m} min {s} s"),
    }
}

impl Turn<'_> {
    /// The line's name in quotation marks.
    pub fn line_name(&self) -> String {
        format!("“{}”", self.written.name)
    }

    /// What tells this pass from the line's others: "on 1-2-3, slurred", "3 half steps down"; nothing
    /// where there is no difference.
    pub fn name(&self) -> Option<String> {
        spoken::pass_name(self.written, self.pass)
    }
}

impl Met<'_> {
    /// "F#4, the 3rd note".
    pub fn name(&self) -> String {
        format!("{}, the {} note", self.pitch, ordinal(self.index + 1))
    }
}

/// Notes of one line of which the same is to be said.
pub struct Group<'s> {
    /// The first of them.
    pub first: Met<'s>,
    /// All of them.
    pub all: Vec<Met<'s>>,
}

impl<'s> Group<'s> {
    /// Gathers notes by line.
    pub fn by_line(notes: impl IntoIterator<Item = Met<'s>>) -> Vec<Group<'s>> {
        Self::by(notes, |n| (n.turn.line.index, 0))
    }

    /// Gathers notes by the token they stand for in the file: one group for all its passes.
    pub fn by_token(notes: impl IntoIterator<Item = Met<'s>>) -> Vec<Group<'s>> {
        Self::by(notes, |n| (n.turn.line.index, n.note.event))
    }

    fn by(
        notes: impl IntoIterator<Item = Met<'s>>,
        key: impl Fn(&Met<'s>) -> (usize, usize),
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
    pub fn place(&self) -> String {
        let line = self.first.turn.line_name();
        let pass = self.first.turn.name();
        let pass = pass.map_or(String::new(), |p| format!(", {p}"));
        let more = self.more();
        let more = more.map_or(String::new(), |m| format!(" ({m})"));
        format!("{line}: {}{pass}{more},", self.first.name())
    }

    fn more(&self) -> Option<String> {
        let tokens: BTreeSet<usize> = self.all.iter().map(|n| n.note.event).collect();
        let passes: BTreeSet<usize> = self.all.iter().map(|n| n.turn.number).collect();
        let notes = counted(tokens.len() - 1, "more note");
        let in_passes = format!("in {}", counted(passes.len(), "pass"));
        match (tokens.len(), passes.len()) {
            (1, 1) => None,
            (1, _) => Some(in_passes),
            (_, 1) => Some(format!("and {notes}")),
            _ => Some(format!("and {notes}, {in_passes}")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_people_say_them() {
        let said: Vec<String> = [1, 2, 3, 4, 11, 12, 13, 21, 102, 111].map(ordinal).to_vec();
        let right = "1st 2nd 3rd 4th 11th 12th 13th 21st 102nd 111th";
        assert_eq!(said.join(" "), right);
        assert_eq!(counted(1, "pass"), "1 pass");
        assert_eq!(counted(3, "pass"), "3 passes");
        assert_eq!(counted(2, "note"), "2 notes");
        assert_eq!(duration(8.4), "8 s");
        assert_eq!(duration(80.0), "1 min 20 s");
        assert_eq!(duration(119.6), "2 min");
    }
}
