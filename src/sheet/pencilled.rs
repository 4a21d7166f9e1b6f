//! Pencil marks on a sheet: grey and slanted, above the print, which does not change.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::letters::{BELOW, Face};
use super::page::{DrawnKind, DrawnMark};
use super::part::LinePart;
use super::placed::PlacedBar;
use super::skyline::Skyline;
use crate::words::say;

/// How dark a pencil is.
pub const GREY: u8 = 0x70;

/// The signs at notes, and the strokes through a line that is left out. `near` is the outline above the staff without the
/// names of passes: a sign is placed below the names if it fits, else above all.
pub fn signs(
    canvas: &mut Canvas,
    near: &Skyline,
    part: &LinePart<'_>,
    bars: &[PlacedBar<'_>],
    end: f64,
) {
    let on = &part.pencil;
    let grey = part.sizes.grey(GREY);
    let size = part.sizes.words();
    let mut breaths = vec![];
    for bar in bars {
        for (index, one) in bar.placed.iter().enumerate() {
            let Some(note) = one.symbol.note() else {
                continue;
            };
            if on.breaths.contains(&note.index) && !note.tied_on {
                let glyph = Glyph::BreathMarkComma;
                let next = bar.placed.get(index + 1).map_or(bar.right, |next| next.x);
                let x = (next - glyph.width() - 0.5).max(one.x);
                let sign = DrawnMark::glyph(DrawnKind::Pencil, glyph, x, -glyph.bounds().bottom);
                breaths.push(sign);
            }
            if on.bends.contains(&note.index) && note.head == 0 {
                let word = say::bend(part.language);
                let width = Face::Italic.width(word, size);
                let x = one.x.min(end - width).max(0.0);
                let at = (x, -BELOW * size);
                let bend = DrawnMark::text(DrawnKind::Pencil, at, Face::Italic, size, word);
                put_over(canvas, near, vec![bend], grey);
            }
        }
    }
    put_over(canvas, near, breaths, grey);
    if on.left_out {
        for (from, to) in [((0.0, 4.6), (end, -0.6)), ((0.0, -0.6), (end, 4.6))] {
            canvas.put(DrawnMark::line(DrawnKind::Pencil, from, to, 0.25).shaded(grey));
        }
    }
}

/// Puts signs, whose lower edges are at 0, above everything at their places, all at one height.
fn put_over(canvas: &mut Canvas, near: &Skyline, signs: Vec<DrawnMark>, grey: u8) {
    const GAP: f64 = 0.4;
    let over = |outline: &Skyline| {
        let edges = signs.iter().map(|sign| {
            let bounds = sign.bounds();
            outline.edge(bounds.left - 0.2, bounds.right + 0.2) - GAP
        });
        edges.reduce(f64::min)
    };
    let (Some(low), Some(high)) = (over(near), over(&canvas.above)) else {
        return;
    };
    let at = |y: f64| {
        signs
            .iter()
            .map(move |sign| sign.clone().moved(1.0, 0.0, y))
    };
    let free = at(low).all(|sign| canvas.above.is_free(&sign.bounds()));
    for sign in at(if free { low } else { high }) {
        canvas.put_clear(sign.shaded(grey));
    }
}
