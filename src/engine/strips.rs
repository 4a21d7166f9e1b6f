//! The printed lines of a routine, drawn one by one.

use super::request::StripsRequest;
use crate::music::NoteNames;
use crate::pencil::Pencil;
use crate::score::{Joined, Played, Score, ScoreLine};
use crate::sheet::inline::{self, Places};
use crate::sheet::{self, Page, SheetOptions};
use serde::Serialize;

/// Drawings of lines.
#[derive(Debug, Serialize)]
pub struct Strips {
    ok: bool,
    strips: Vec<Strip>,
    glyphs: String,
}

/// One line.
#[derive(Debug, Serialize)]
struct Strip {
    of: usize,
    width: f64,
    svg: String,
    places: Places,
    notes: Vec<Note>,
}

/// A note of the first pass that is drawn.
#[derive(Debug, Serialize)]
struct Note {
    /// Its number in the pass, from 1, as in the pencil's marks.
    note: usize,
    /// The written pitch; `None` for breathing.
    name: Option<String>,
    /// True if the teacher has it bent.
    bent: bool,
    /// Index of its system.
    system: usize,
    /// Centre of its first head.
    x: f64,
}

/// Draws lines of the teacher's score, with the pencil's marks if there is a pencil.
pub fn draw(
    score: &Score<'_>,
    pencil: Option<&Pencil>,
    request: &StripsRequest,
    width: f64,
    options: &SheetOptions,
) -> Strips {
    let wanted = |of: usize| match &request.lines {
        Some(lines) => lines.contains(&of),
        None => true,
    };
    let lines = score.lines.iter().enumerate();
    let mut pages = vec![];
    let strips = lines
        .filter(|(_, line)| line.rung == 0 && wanted(line.index))
        .map(|(index, line)| {
            let page = sheet::strip(score, index, options, pencil, width);
            let strip = Strip {
                of: line.index,
                width: page.width,
                svg: inline::strip(&page, "strip"),
                places: inline::places(&page, line, score),
                notes: first_notes(score.routine.names, &page, line),
            };
            pages.push(page);
            strip
        });
    Strips {
        ok: true,
        strips: strips.collect(),
        glyphs: inline::definitions(pages.iter()),
    }
}

/// The notes of the first drawn pass, each once.
fn first_notes(names: NoteNames, page: &Page, line: &ScoreLine) -> Vec<Note> {
    let systems = || page.blocks.iter().enumerate();
    let Some(first) = systems().flat_map(|(_, block)| &block.notes).next() else {
        return vec![];
    };
    let pass = &line.passes[first.pass];
    let name = |note: usize| match pass.notes.get(note)?.played {
        Played::Pitch { written, .. } => Some(names.of(written)),
        Played::In | Played::Out => None,
    };
    systems()
        .flat_map(|(system, block)| block.notes.iter().map(move |note| (system, note)))
        .filter(|(_, note)| note.pass == first.pass && note.head == 0)
        .map(|(system, note)| Note {
            note: note.note + 1,
            name: name(note.note),
            bent: pass
                .notes
                .get(note.note)
                .is_some_and(|n| n.joined == Joined::Bent),
            system,
            x: inline::to_decimals(note.x, 2),
        })
        .collect()
}
