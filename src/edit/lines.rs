//! Whole lines: added, removed, moved, written twice.

use super::entries::Change;
use super::model::{Edit, Selection, Splice, quoted};
use super::splices::splice;
use super::structure::Structure;
use crate::problem::Problem;
use crate::routine::bounds::MOST_LINES;

/// Changes the order or the number of lines.
pub fn change(structure: &Structure<'_>, edit: &Edit) -> Result<Change, Problem> {
    let selected = |line| Some(Selection { line, signs: None });
    Ok(match edit {
        Edit::AddLine { at, name, notes } => {
            let end = structure.row_break();
            let (name, notes) = (quoted(name), quoted(notes));
            let block = format!("[[line]]{end}name = {name}{end}notes = {notes}{end}");
            let at = (*at).min(structure.count());
            room(structure)?;
            (vec![insert(structure, at, &block)?], selected(at))
        }
        Edit::DuplicateLine { line } => {
            room(structure)?;
            let block = structure.text[structure.block(*line)?].to_owned();
            let copy = insert(structure, line + 1, &block)?;
            (vec![copy], selected(line + 1))
        }
        Edit::RemoveLine { line } => {
            let block = structure.block(*line)?;
            if structure.count() == 1 {
                return Err(Problem::error("a routine has at least one line")
                    .hint("add another line before this one is removed"));
            }
            let left = (*line).min(structure.count() - 2);
            (vec![splice(block, "")], selected(left))
        }
        Edit::MoveLine { line, to } => {
            let block = structure.block(*line)?;
            let to = (*to).min(structure.count() - 1);
            if to == *line {
                return Ok((vec![], selected(to)));
            }
            let before = if to > *line { to + 1 } else { to };
            let text = structure.text[block.clone()].to_owned();
            let moved = insert(structure, before, &text)?;
            (vec![moved, splice(block, "")], selected(to))
        }
        _ => unreachable!("edits of lines alone come here"),
    })
}

fn room(structure: &Structure<'_>) -> Result<(), Problem> {
    if structure.count() < MOST_LINES {
        return Ok(());
    }
    Err(
        Problem::error(format!("a routine has at most {MOST_LINES} lines"))
            .hint("write what follows into a second routine"),
    )
}

/// Writes a block before a line, or behind the last, with a blank row between it and its neighbours.
fn insert(structure: &Structure<'_>, before: usize, block: &str) -> Result<Splice, Problem> {
    let end = structure.row_break();
    let block = block.trim_end();
    if before < structure.count() {
        let at = structure.block(before)?.start;
        return Ok(splice(at..at, format!("{block}{end}{end}")));
    }
    let text = structure.text;
    let gap = match text {
        _ if text.ends_with(&format!("{end}{end}")) => String::new(),
        _ if text.ends_with('\n') => end.to_owned(),
        _ => format!("{end}{end}"),
    };
    Ok(splice(text.len()..text.len(), format!("{gap}{block}{end}")))
}
