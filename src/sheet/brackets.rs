//! Brackets with a 3 over and under triplets.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::glyph::defaults::TUPLET_BRACKET_THICKNESS;
use super::notes::PlacedSymbol;
use super::page::{Bounds, DrawnKind, DrawnMark};
use super::placed::PlacedBar;

/// A triplet before its bracket has a height.
struct Bracket {
    left: f64,
    right: f64,
    /// −1 above the notes, +1 below them.
    side: f64,
}

/// Half the height of a bracket with its 3.
const HALF: f64 = 0.85;

/// Draws the brackets of a system, on the side of the stems, all on one side at one height. Returns their boxes.
pub fn triplets(canvas: &mut Canvas, bars: &[PlacedBar<'_>]) -> Vec<Bounds> {
    let mut all = vec![];
    for bar in bars {
        let same = |a: &PlacedSymbol, b: &PlacedSymbol| a.symbol.triplet == b.symbol.triplet;
        let groups = bar.placed.chunk_by(same);
        all.extend(groups.filter_map(bracket));
    }
    let mut boxes = vec![];
    for side in [-1.0, 1.0] {
        let own = || all.iter().filter(|bracket| bracket.side == side);
        let edges = own().map(|b| {
            if side < 0.0 {
                canvas.above.edge(b.left, b.right).min(0.0)
            } else {
                canvas.below.edge(b.left, b.right).max(4.0)
            }
        });
        let outermost = |a: f64, b: f64| if side < 0.0 { a.min(b) } else { a.max(b) };
        let Some(edge) = edges.reduce(outermost) else {
            continue;
        };
        for bracket in own() {
            boxes.push(draw(canvas, bracket, edge + side * 1.1));
        }
    }
    boxes
}

fn bracket(placed: &[PlacedSymbol]) -> Option<Bracket> {
    let (first, last) = (placed.first()?, placed.last()?);
    first.symbol.triplet?;
    let mut heads = placed.iter().filter(|p| p.symbol.has_head());
    Some(Bracket {
        left: first.x - 0.2,
        right: last.x + last.head + 0.2,
        side: if heads.all(|p| p.up) { -1.0 } else { 1.0 },
    })
}

fn draw(canvas: &mut Canvas, bracket: &Bracket, y: f64) -> Bounds {
    let Bracket { left, right, side } = *bracket;
    let glyph = Glyph::Tuplet3;
    let own = glyph.bounds();
    let middle = (left + right) / 2.0;
    let half = glyph.width() / 2.0 + 0.35;
    let thick = TUPLET_BRACKET_THICKNESS;
    let mut stroke = |from: (f64, f64), to: (f64, f64)| {
        canvas.put(DrawnMark::line(DrawnKind::Bracket, from, to, thick));
    };
    if middle - half > left && middle + half < right {
        stroke((left, y), (middle - half, y));
        stroke((middle + half, y), (right, y));
        stroke((left, y), (left, y - side * 0.6));
        stroke((right, y), (right, y - side * 0.6));
    }
    let at_y = y - (own.top + own.bottom) / 2.0;
    let at_x = middle - (own.left + own.right) / 2.0;
    canvas.put(DrawnMark::glyph(DrawnKind::Bracket, glyph, at_x, at_y));
    let bounds = Bounds {
        left,
        top: y - HALF,
        right,
        bottom: y + HALF,
    };
    canvas.clear_of(bounds);
    bounds
}
