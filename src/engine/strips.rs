//! The printed lines of a routine, drawn one by one.

use super::request::StripsRequest;
use crate::pencil::Pencil;
use crate::score::Score;
use crate::sheet::page::{PlacedNote, Role};
use crate::sheet::{self, Options, inline};
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
    svg: String,
    places: String,
    width: f64,
    height: f64,
    notes: Vec<Head>,
    words: String,
}

/// One head of a note.
#[derive(Debug, Serialize)]
struct Head {
    id: String,
    head: usize,
    x: f64,
    y: f64,
}

/// A note's name on the sheet: line, pass and note from 1, as in its SVG.
pub fn id(line: usize, pass: usize, note: usize) -> String {
    format!("{}.{}.{}", line + 1, pass + 1, note + 1)
}

/// Draws lines of the teacher's score, with a pencil over them if there is one.
pub fn draw(
    score: &Score<'_>,
    pencil: Option<&Pencil>,
    request: &StripsRequest,
    width: f64,
    options: &Options,
) -> Strips {
    let wanted = |of: usize| match &request.lines {
        Some(lines) => lines.contains(&of),
        None => true,
    };
    let lines = score.lines.iter().enumerate();
    let mut pages = vec![];
    let strips = lines
        .filter(|(_, line)| wanted(line.index))
        .map(|(index, line)| {
            let page = sheet::strip(score, index, options, pencil, width);
            let head = |note: &PlacedNote| Head {
                id: id(note.line, note.pass, note.note),
                head: note.head,
                x: note.x,
                y: note.y,
            };
            let figures = page.blocks.iter().filter_map(|block| match &block.role {
                Role::Figure(words) => Some(words.as_str()),
                _ => None,
            });
            let strip = Strip {
                of: line.index,
                svg: inline::strip(&page, "strip"),
                places: inline::places(&page, line),
                width: page.width,
                height: page.height,
                notes: page
                    .blocks
                    .iter()
                    .flat_map(|b| &b.notes)
                    .map(head)
                    .collect(),
                words: figures.collect::<Vec<_>>().join("; "),
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
