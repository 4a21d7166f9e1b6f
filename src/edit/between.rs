//! What stands between notes: dynamics, breaths, bar lines.

use super::entries::Change;
use super::model::{Edit, Selection, Splice};
use super::notes::{Kind, Notes};
use super::splices::splice;
use super::structure::Structure;
use crate::problem::{Problem, Text};
use crate::routine;
use crate::words::list;

/// Dynamics as they are written among notes.
const DYNAMICS: [&str; 8] = ["pp", "p", "mp", "mf", "f", "ff", "cresc", "dim"];
const BREATH: &str = "breath";

/// Changes what stands before or behind a sign.
pub fn change(structure: &Structure<'_>, edit: &Edit) -> Result<Change, Problem> {
    let (line, at) = match *edit {
        Edit::Dynamic { line, at, .. }
        | Edit::Breath { line, at, .. }
        | Edit::Bar { line, at, .. } => (line, at),
        _ => unreachable!("edits of what stands between notes come here"),
    };
    let notes = Notes::of(structure, line)?;
    notes.selected(at, at)?;
    let splices = match edit {
        Edit::Dynamic { dynamic, .. } => loud(&notes, at, dynamic.as_deref())?,
        Edit::Breath { on, .. } => behind(&notes, at, BREATH, *on),
        Edit::Bar { on, .. } => behind(&notes, at, "|", *on),
        _ => vec![],
    };
    let signs = Some((at, at));
    Ok((splices, Some(Selection { line, signs })))
}

/// That a routine which could be read still can: a breath inside a slur, for one, is refused in the reader's words.
pub fn still_reads(before: &str, after: &str) -> Result<(), Problem> {
    match (routine::read(before), routine::read(after)) {
        (Ok(_), Err(mut faults)) if !faults.is_empty() => {
            Err(faults.swap_remove(0).in_text(Text::Routine))
        }
        _ => Ok(()),
    }
}

fn loud(notes: &Notes, at: usize, dynamic: Option<&str>) -> Result<Vec<Splice>, Problem> {
    if dynamic.is_some_and(|word| !DYNAMICS.contains(&word)) {
        return Err(
            Problem::error("that is no dynamic").hint(format!("it is {}", list::or(&DYNAMICS)))
        );
    }
    let mut first = notes.signs[at].token;
    while first > 0 && matches!(notes.kinds[first - 1].1, Kind::Open(_)) {
        first -= 1;
    }
    let there = first.checked_sub(1).filter(|token| {
        notes.kinds[*token].1 == Kind::Word && DYNAMICS.contains(&notes.text(*token))
    });
    let start = notes.place(first).start;
    Ok(match (there, dynamic) {
        (Some(token), Some(word)) => vec![splice(notes.place(token), word)],
        (Some(token), None) => vec![splice(notes.place(token).start..start, "")],
        (None, Some(word)) => vec![splice(start..start, format!("{word} "))],
        (None, None) => vec![],
    })
}

/// A word behind a sign, or no longer.
fn behind(notes: &Notes, at: usize, word: &str, on: bool) -> Vec<Splice> {
    let mut last = at;
    while last + 1 < notes.signs.len() && notes.head(last + 1) == "tie" {
        last += 1;
    }
    let mut next = notes.signs[last].behind;
    while matches!(notes.kinds.get(next), Some((_, Kind::Close))) {
        next += 1;
    }
    let end = notes.place(next - 1).end;
    // A breath stands before the bar line that follows it.
    let between = (next..notes.kinds.len())
        .take_while(|token| notes.kinds[*token].1 == Kind::Bar || notes.text(*token) == BREATH);
    let there = between.clone().find(|token| notes.text(*token) == word);
    match (there, on) {
        (None, true) => {
            let behind_breath = (word == "|").then(|| between.last()).flatten();
            let end = behind_breath.map_or(end, |token| notes.place(token).end);
            vec![splice(end..end, format!(" {word}"))]
        }
        (Some(token), false) => vec![splice(
            notes.place(token - 1).end..notes.place(token).end,
            "",
        )],
        _ => vec![],
    }
}
