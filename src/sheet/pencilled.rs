//! Pencil marks on a sheet: grey and slanted, above the print, which does not change.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::letters::{BELOW, Face};
use super::page::{DrawnKind, DrawnMark};
use super::part::LinePart;
use super::placed::PlacedBar;
use super::skyline::Skyline;

/// How dark a pencil is.
pub const GREY: u8 = 0x70;

const SIZE: f64 = 1.7;
const BEND: &str = "bend";

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
                put_over(canvas, near, sign);
            }
            if on.bends.contains(&note.index) && note.head == 0 {
                let width = Face::Italic.width(BEND, SIZE);
                let x = one.x.min(end - width).max(0.0);
                let at = (x, -BELOW * SIZE);
                put_over(
                    canvas,
                    near,
                    DrawnMark::text(DrawnKind::Pencil, at, Face::Italic, SIZE, BEND),
                );
            }
        }
    }
    if on.left_out {
        for (from, to) in [((0.0, 4.6), (end, -0.6)), ((0.0, -0.6), (end, 4.6))] {
            canvas.put(DrawnMark::line(DrawnKind::Pencil, from, to, 0.25).shaded(GREY));
        }
    }
}

/// Puts a sign, whose lower edge is at 0, above everything at its place.
fn put_over(canvas: &mut Canvas, near: &Skyline, sign: DrawnMark) {
    const GAP: f64 = 0.4;
    let bounds = sign.bounds();
    let (left, right) = (bounds.left - 0.2, bounds.right + 0.2);
    let low = sign.clone().moved(1.0, 0.0, near.edge(left, right) - GAP);
    let placed = if canvas.above.is_free(&low.bounds()) {
        low
    } else {
        sign.moved(1.0, 0.0, canvas.above.edge(left, right) - GAP)
    };
    canvas.put_clear(placed.shaded(GREY));
}
