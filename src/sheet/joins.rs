//! Marks that join notes: ties and slurs.

use super::canvas::Canvas;
use super::curves::{Arch, EASY};
use super::notes::PlacedSymbol;
use super::page::Bounds;
use super::part::LinePart;
use super::placed::PlacedBar;
use crate::notation::written::{Note, WrittenKind, WrittenSymbol};
use crate::score::Pass;
use std::ops::RangeInclusive;

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

/// A breath that goes on is tied, as a note is.
pub fn breath_ties(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>], end: f64) {
    const UNDER: f64 = 3.2;
    let start = bars.first().map_or(0.0, |bar| bar.left);
    let all: Vec<(usize, &PlacedSymbol)> = bars
        .iter()
        .flat_map(|bar| bar.placed.iter().map(|one| (bar.slot.pass, one)))
        .collect();
    let goes_on = |symbol: &WrittenSymbol| matches!(symbol.what, WrittenKind::Air { word: "", .. });
    for (index, (pass, one)) in all.iter().enumerate() {
        if !goes_on(&one.symbol) {
            continue;
        }
        let to = one.x + 0.3;
        let from = match index.checked_sub(1).map(|before| all[before]) {
            Some((of, before)) if of == *pass => before.x + before.head - 0.3,
            _ => (start - 0.2).min(to - 1.2),
        };
        tie(canvas, from, to, UNDER, 1.0);
    }
    let Some((pass, one)) = all.last() else {
        return;
    };
    let (all, end_of_one) = (&part.passes[*pass].written.bars, one.symbol.end());
    let begun = all.partition_point(|bar| bar.start <= end_of_one);
    let mut symbols = all[..begun]
        .iter()
        .rev()
        .take(1)
        .flat_map(|bar| &bar.symbols);
    if symbols.any(|next| next.at == end_of_one && goes_on(next)) {
        tie(canvas, one.x + one.head - 0.3, end - 0.2, UNDER, 1.0);
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

/// First and last note of every slur over some of these notes of a pass. Of a slur that begins before or ends after them
/// one note more is told: a pass may have many systems.
fn slurs_over(pass: &Pass, notes: RangeInclusive<usize>) -> Vec<(usize, usize)> {
    let mut slurs = vec![];
    let mut from = None;
    let first = notes.start().saturating_sub(1);
    let around = pass.notes.iter().enumerate().skip(first);
    for (index, note) in around.take_while(|(index, _)| *index <= notes.end() + 1) {
        if note.leads_on && index <= *notes.end() {
            from.get_or_insert(index);
        } else if let Some(first) = from.take() {
            slurs.push((first, index));
        }
    }
    slurs
}

/// Slurs: under the heads where all stems go up, else above; outside of brackets.
pub fn slurs(
    canvas: &mut Canvas,
    part: &LinePart<'_>,
    bars: &[PlacedBar<'_>],
    brackets: &[Bounds],
    end: f64,
) {
    let heads = heads(bars);
    let start = bars.first().map_or(0.0, |bar| bar.left);
    for of_pass in heads.chunk_by(|a, b| a.pass == b.pass) {
        let pass = part.passes[of_pass[0].pass].pass;
        let (Some(one), Some(other)) = (of_pass.first(), of_pass.last()) else {
            continue;
        };
        for (first, last) in slurs_over(pass, one.note.index..=other.note.index) {
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
            let outer = |p: &PlacedSymbol| outside(p, side, brackets);
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
            let mut points = obstacles(&inside, side, &arch);
            points.extend(corners(brackets, side, &arch));
            arch.clear(&points);
            canvas.put(arch.slur());
            for stretch in arch.stretches() {
                canvas.clear_of(stretch);
            }
        }
    }
}

/// The outermost point of a note on one side, with a bracket that stands over or under it.
fn outside(placed: &PlacedSymbol, side: f64, brackets: &[Bounds]) -> f64 {
    const MIDDLE: f64 = 2.0;
    let own = if side > 0.0 {
        placed.bottom
    } else {
        placed.top
    };
    let x = placed.middle();
    let over = brackets.iter().filter(|b| b.left <= x && x <= b.right);
    // A bracket on the other side is no nearer to the slur than the note is.
    over.map(|b| if side > 0.0 { b.bottom } else { b.top })
        .filter(|edge| (edge - MIDDLE) * side > 0.0)
        .fold(own, |outer, edge| {
            if side > 0.0 {
                outer.max(edge)
            } else {
                outer.min(edge)
            }
        })
}

/// The outer corners of the brackets that a slur passes.
fn corners(brackets: &[Bounds], side: f64, arch: &Arch) -> Vec<(f64, f64)> {
    const CLEAR: f64 = 0.3;
    let passed = brackets.iter().filter(|b| {
        let edge = if side > 0.0 { b.bottom } else { b.top };
        b.right > arch.from.0 && b.left < arch.to.0 && (edge - 2.0) * side > 0.0
    });
    passed
        .flat_map(|b| {
            let y = if side > 0.0 { b.bottom } else { b.top } + side * CLEAR;
            [b.left, (b.left + b.right) / 2.0, b.right].map(|x| (x, y))
        })
        .collect()
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
