//! Marks that join notes: ties, slurs, triplet brackets.

use super::canvas::Canvas;
use super::curves::{Arch, EASY};
use super::glyph::Glyph;
use super::glyph::defaults::TUPLET_BRACKET_THICKNESS;
use super::notes::PlacedSymbol;
use super::page::{Bounds, DrawnKind, DrawnMark};
use super::part::LinePart;
use super::placed::PlacedBar;
use crate::notation::written::Note;
use crate::score::Pass;

/// A head with its pass.
struct Met<'b> {
    pass: usize,
    note: &'b Note,
    placed: &'b PlacedSymbol,
}

fn heads<'b>(bars: &'b [PlacedBar<'_>]) -> Vec<Met<'b>> {
    let of_bar = |bar: &'b PlacedBar<'_>| {
        let pass = bar.slot.pass;
        bar.placed.iter().filter_map(move |placed| {
            let note = placed.symbol.note()?;
            Some(Met { pass, note, placed })
        })
    };
    bars.iter().flat_map(of_bar).collect()
}

/// Ties, opposite the stems; a tie across the end of a system is drawn as two halves.
pub fn ties(canvas: &mut Canvas, _part: &LinePart<'_>, bars: &[PlacedBar<'_>], end: f64) {
    let heads = heads(bars);
    let start = bars.first().map_or(0.0, |bar| bar.left);
    for (index, met) in heads.iter().enumerate() {
        let side = if met.placed.up { 1.0 } else { -1.0 };
        let y = met.placed.y + side * 0.75;
        if met.note.head > 0 && index == 0 {
            let to = met.placed.x + 0.2;
            tie(canvas, (start - 0.2).min(to - 1.2), to, y, side);
        }
        if met.note.tied_on {
            let dotted = met.placed.symbol.value.dotted;
            let from = met.placed.x + met.placed.head - 0.1 + if dotted { 0.7 } else { 0.0 };
            let to = heads
                .get(index + 1)
                .map_or(end - 0.2, |next| next.placed.x + 0.1);
            tie(canvas, from, to, y, side);
        }
    }
}

fn tie(canvas: &mut Canvas, from: f64, to: f64, y: f64, side: f64) {
    let rise = (0.5 + (to - from) * 0.06).min(1.3);
    let arch = Arch {
        from: (from, y),
        to: (to, y),
        side,
        rise,
        part: EASY,
    };
    canvas.put(arch.tie());
    for stretch in arch.stretches() {
        canvas.clear_of(stretch);
    }
}

/// First and last note of every slur of a pass.
fn slurs_of(pass: &Pass) -> Vec<(usize, usize)> {
    let mut slurs = vec![];
    let mut from = None;
    for (index, note) in pass.notes.iter().enumerate() {
        if note.leads_on {
            from.get_or_insert(index);
        } else if let Some(first) = from.take() {
            slurs.push((first, index));
        }
    }
    slurs
}

/// Slurs: under the heads where all stems go up, else above.
pub fn slurs(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>], end: f64) {
    let heads = heads(bars);
    let start = bars.first().map_or(0.0, |bar| bar.left);
    for of_pass in heads.chunk_by(|a, b| a.pass == b.pass) {
        let pass = part.passes[of_pass[0].pass].pass;
        for (first, last) in slurs_of(pass) {
            let inside: Vec<&Met<'_>> = of_pass
                .iter()
                .filter(|m| (first..=last).contains(&m.note.index))
                .collect();
            let (Some(opens), Some(closes)) = (inside.first(), inside.last()) else {
                continue;
            };
            let begun_before = opens.note.index != first || opens.note.head > 0;
            let goes_on = closes.note.index != last || closes.note.tied_on;
            let under = inside.iter().all(|m| m.placed.up);
            let side = if under { 1.0 } else { -1.0 };
            let outer = |p: &PlacedSymbol| if under { p.bottom } else { p.top };
            let mut from = (opens.placed.middle(), outer(opens.placed) + side * 0.45);
            let mut to = (closes.placed.middle(), outer(closes.placed) + side * 0.45);
            if begun_before {
                from = (start - 0.3, from.1 + side * 0.3);
            }
            if goes_on {
                to = (end - 0.3, to.1 + side * 0.3);
            }
            // At a leap the lower end of a slur is nearer to its note.
            let length = to.0 - from.0;
            let mut arch = Arch {
                from,
                to,
                side,
                rise: (0.9 + length * 0.07).min(2.6),
                part: EASY,
            };
            arch.clear(&obstacles(&inside, side, &arch));
            canvas.put(arch.slur());
            for stretch in arch.stretches() {
                canvas.clear_of(stretch);
            }
        }
    }
}

/// The obstacles of a slur: heads, stems, accidentals and ties of the notes it spans.
fn obstacles(inside: &[&Met<'_>], side: f64, arch: &Arch) -> Vec<(f64, f64)> {
    const CLEAR: f64 = 0.45;
    let mut points = vec![];
    for met in inside {
        let placed = met.placed;
        let outer = if side > 0.0 {
            placed.bottom
        } else {
            placed.top
        };
        let own_end = (placed.middle() - arch.from.0).abs() < 0.01
            || (placed.middle() - arch.to.0).abs() < 0.01;
        if !own_end {
            for x in [placed.x, placed.middle(), placed.x + placed.head] {
                points.push((x, outer + side * CLEAR));
            }
        }
        if let Some(stem) = placed.stem
            && (stem.tip - placed.y) * side > 0.0
            && !own_end
        {
            points.push((stem.x, stem.tip + side * CLEAR));
        }
        if let Some(alter) = met.note.accidental {
            let bounds = super::notes::accidental_glyph(alter).bounds();
            let reach = if side > 0.0 {
                bounds.bottom
            } else {
                bounds.top
            };
            for x in [placed.x - 1.1, placed.x - 0.4] {
                points.push((x, placed.y + reach + side * 0.2));
            }
        }
    }
    points
}

/// Brackets with a 3, on the side of the stems.
pub fn triplets(canvas: &mut Canvas, bars: &[PlacedBar<'_>]) {
    for bar in bars {
        let mut index = 0;
        while index < bar.placed.len() {
            let triplet = bar.placed[index].symbol.triplet;
            let count = bar.placed[index..]
                .iter()
                .take_while(|p| p.symbol.triplet == triplet)
                .count();
            if triplet.is_some() {
                bracket(canvas, &bar.placed[index..index + count]);
            }
            index += count;
        }
    }
}

fn bracket(canvas: &mut Canvas, placed: &[PlacedSymbol]) {
    let (Some(first), Some(last)) = (placed.first(), placed.last()) else {
        return;
    };
    let above = placed
        .iter()
        .filter(|p| p.symbol.has_head() && !p.up)
        .count()
        == 0;
    let side = if above { -1.0 } else { 1.0 };
    let (left, right) = (first.x - 0.2, last.x + last.head + 0.2);
    let edge = if above {
        canvas.above.edge(left, right).min(0.0)
    } else {
        canvas.below.edge(left, right).max(4.0)
    };
    let y = edge + side * 1.1;
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
    canvas.clear_of(Bounds {
        left,
        top: y - 0.85,
        right,
        bottom: y + 0.85,
    });
}
