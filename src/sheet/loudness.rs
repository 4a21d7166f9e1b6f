//! Dynamics and hairpins, on one line under the staff.

use super::canvas::Canvas;
use super::dynamics::{APART, BEFORE_END, UNDER_NOTE, glyph, written};
use super::glyph::defaults::HAIRPIN_THICKNESS;
use super::page::{Bounds, DrawnKind, DrawnMark};
use super::part::LinePart;
use super::placed::PlacedBar;
use crate::music::{Dynamic, Whole};

/// Half the height of an open hairpin.
const OPENING: f64 = 0.55;

/// A sign on the line.
enum Piece {
    Sign(Dynamic),
    /// From a moment to the next sign.
    Hairpin,
}

struct Spot {
    left: f64,
    right: f64,
    piece: Piece,
    /// Parts of a hairpin that lie in other systems: how far open it is at both ends.
    open: (f64, f64),
}

/// Draws the dynamics of all passes of a system.
pub fn draw(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>], end: f64) {
    let changes = written(&part.line.melody.loudness);
    let mut spots: Vec<Spot> = vec![];
    for number in 0..part.passes.len() {
        let own: Vec<&PlacedBar<'_>> = bars.iter().filter(|b| b.slot.pass == number).collect();
        if own.is_empty() {
            continue;
        }
        let (begin, over) = (own[0].slot.bar.start, end_of(&own));
        let first = changes.partition_point(|change| change.at < begin);
        for (index, change) in changes.iter().enumerate().skip(first) {
            if change.since.unwrap_or(change.at) > over {
                break;
            }
            let before = index.checked_sub(1).map_or(Dynamic::Mf, |i| changes[i].to);
            if let Some(since) = change.since {
                hairpin(&mut spots, (since, change.at), change.to > before, &own);
            }
            let goes_on =
                number > 0 && index == 0 && change.at == Whole::ZERO && change.since.is_none();
            if goes_on && changes.last().is_some_and(|l| l.to == change.to) && changes.len() == 1 {
                // Every pass is as loud as the first, so it is written only there.
                continue;
            }
            let x = own.iter().find_map(|bar| {
                let ends = bar.placed.last().map(|p| p.symbol.end());
                let closing = bar.slot.closes_pass && ends == Some(change.at);
                let x = bar.x_of(change.at)?;
                let inside = ends.is_some_and(|e| change.at < e) || closing;
                // A sign for the end of a note is at its end, not under the rest after it.
                let silent = bar
                    .placed
                    .iter()
                    .any(|p| p.symbol.at == change.at && !p.symbol.has_head());
                let before = closing || silent && change.since.is_some();
                inside.then_some(x + if before { BEFORE_END } else { UNDER_NOTE })
            });
            if let Some(x) = x {
                let width = glyph(change.to).width();
                let left = (x - width / 2.0).min(end - width).max(0.0);
                spots.push(Spot {
                    left,
                    right: left + width,
                    piece: Piece::Sign(change.to),
                    open: (0.0, 0.0),
                });
            }
        }
    }
    part_signs_and_hairpins(&mut spots, end);
    put(canvas, spots, end);
}

/// Where bars of a pass end.
fn end_of(bars: &[&PlacedBar<'_>]) -> Whole {
    let last = bars[bars.len() - 1];
    let end = last.placed.last().map(|placed| placed.symbol.end());
    end.unwrap_or(bars[0].slot.bar.start)
}

fn hairpin(
    spots: &mut Vec<Spot>,
    (since, at): (Whole, Whole),
    opens: bool,
    own: &[&PlacedBar<'_>],
) {
    let (begin, over) = (own[0].slot.bar.start, end_of(own));
    if at <= begin || since >= over {
        return;
    }
    let x_of = |moment: Whole| own.iter().rev().find_map(|bar| bar.x_of(moment));
    let left = if since < begin {
        own[0].left
    } else {
        x_of(since).unwrap_or(own[0].left)
    };
    let right = if at > over {
        own[own.len() - 1].right - 0.3
    } else {
        x_of(at).unwrap_or(own[own.len() - 1].right) - 0.3
    };
    let part = |moment: Whole| {
        let part = (moment - since) / (at - since);
        *part.numer() as f64 / *part.denom() as f64
    };
    let (from, to) = (part(since.max(begin)), part(at.min(over)));
    let open = if opens {
        (from, to)
    } else {
        (1.0 - from, 1.0 - to)
    };
    spots.push(Spot {
        left,
        right,
        piece: Piece::Hairpin,
        open,
    });
}

/// Hairpins keep clear of the signs before and after them.
fn part_signs_and_hairpins(spots: &mut [Spot], end: f64) {
    let signs: Vec<(f64, f64)> = spots
        .iter()
        .filter(|s| matches!(s.piece, Piece::Sign(_)))
        .map(|s| (s.left, s.right))
        .collect();
    for spot in spots.iter_mut() {
        if let Piece::Hairpin = spot.piece {
            let middle = (spot.left + spot.right) / 2.0;
            for (left, right) in &signs {
                if *left <= middle && *right + APART > spot.left {
                    spot.left = right + APART;
                } else if *left > middle && left - APART < spot.right {
                    spot.right = left - APART;
                }
            }
            spot.right = spot.right.min(end - 0.2);
        }
    }
}

fn put(canvas: &mut Canvas, spots: Vec<Spot>, end: f64) {
    let reach = |spot: &Spot| match spot.piece {
        Piece::Sign(dynamic) => glyph(dynamic).bounds().top,
        Piece::Hairpin => -OPENING - 0.5,
    };
    let tops = spots
        .iter()
        .map(|s| canvas.below.edge(s.left - 0.2, s.right + 0.2) - reach(s));
    let Some(line) = tops.reduce(f64::max) else {
        return;
    };
    let line = line.max(6.6) + 0.45;
    let mut taken: Vec<Bounds> = vec![];
    for spot in &spots {
        let Piece::Sign(dynamic) = spot.piece else {
            continue;
        };
        let glyph = glyph(dynamic);
        let own = glyph.bounds();
        let mut mark = DrawnMark::glyph(DrawnKind::Dynamic, glyph, spot.left - own.left, line);
        // Two signs that would touch are placed one below the other.
        while taken.iter().any(|b| b.overlaps(&mark.bounds(), -0.2)) {
            mark = mark.moved(1.0, 0.0, 2.4);
        }
        taken.push(mark.bounds());
        canvas.put_clear(mark);
    }
    for spot in &spots {
        if let Piece::Hairpin = spot.piece {
            let middle = line - 0.5;
            // A hairpin at a single short note keeps a visible length.
            let right = spot.right.max(spot.left + 1.0).min(end - 0.1);
            let free =
                |b: &Bounds| b.right <= spot.left || b.left >= right || b.top > middle + OPENING;
            let middle = if taken.iter().all(free) {
                middle
            } else {
                line + 1.6
            };
            for side in [-1.0, 1.0] {
                let at = |open: f64| middle + side * OPENING * open;
                canvas.put(DrawnMark::line(
                    DrawnKind::Hairpin,
                    (spot.left, at(spot.open.0)),
                    (right, at(spot.open.1)),
                    HAIRPIN_THICKNESS,
                ));
            }
            canvas.below.add(Bounds {
                left: spot.left,
                top: middle - OPENING,
                right,
                bottom: middle + OPENING,
            });
        }
    }
}
