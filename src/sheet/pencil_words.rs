//! A pencil's marks in words, for each line and for the whole routine.

use crate::pencil::{Change, Pencil, lay, words};
use crate::routine::Routine;
use crate::words::say;

/// A pencil's marks for one line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OnLine {
    /// Words beside the line, one entry a mark.
    pub words: Vec<String>,
    /// Notes after which to breathe, by their index in a pass.
    pub breaths: Vec<usize>,
    /// Notes to bend, by their index in a pass.
    pub bends: Vec<usize>,
    /// The line is crossed out.
    pub left_out: bool,
}

/// The pencil's marks for line `index` of the routine.
pub fn on_line(pencil: &Pencil, routine: &Routine, index: usize) -> OnLine {
    let mut on = OnLine::default();
    let own = |target| lay::find_line(target, routine).ok().flatten() == Some(index);
    for mark in pencil.marks.iter().filter(|m| own(&m.target)) {
        match &mark.change {
            Change::BreathAfter(note) => on.breaths.extend(note.checked_sub(1)),
            Change::Bend(Some(note)) => on.bends.extend(note.checked_sub(1)),
            Change::LeaveOut => {
                on.left_out = true;
                on.words.push(words::mark(routine.words_in, mark));
            }
            _ => on.words.push(words::mark(routine.words_in, mark)),
        }
    }
    on
}

/// The pencil's marks for the whole routine, and its owner.
pub fn on_whole(pencil: &Pencil, routine: &Routine) -> String {
    let language = routine.words_in;
    let whole = pencil
        .marks
        .iter()
        .filter(|m| lay::find_line(&m.target, routine) == Ok(None));
    let said: Vec<String> = whole.map(|mark| words::mark(language, mark)).collect();
    let whose = match &pencil.player {
        Some(player) => say::pencil_of(language, player),
        None => say::pencil_of_nobody(language).to_owned(),
    };
    if said.is_empty() {
        whose
    } else {
        say::pencil_in_every_line(language, whose, said.join(" · "))
    }
}
