//! Notes and rests of a bar: heads, ledger lines, accidentals, dots, stems, flags, beams, articulations.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::glyph::defaults::{
    BEAM_SPACING, BEAM_THICKNESS, LEGER_LINE_EXTENSION, LEGER_LINE_THICKNESS, STEM_THICKNESS,
};
use super::page::{Bounds, DrawnKind, DrawnMark, OutlineStep, Shape};
use super::spacing::Extent;
use crate::music::Meter;
use crate::notation::beams::{self, Stroke};
use crate::notation::value::Value;
use crate::notation::written::{Note, WrittenBar, WrittenKind, WrittenSymbol};
use crate::routine::Style;

/// A placed symbol, in staff spaces from the top line of the staff.
#[derive(Clone, Copy, Debug)]
pub struct PlacedSymbol {
    /// What it is.
    pub symbol: WrittenSymbol,
    /// Left edge of its head.
    pub x: f64,
    /// Middle of its head.
    pub y: f64,
    /// Width of its head.
    pub head: f64,
    /// Its stem.
    pub stem: Option<Stem>,
    /// True if its stem goes up, or would if it had one.
    pub up: bool,
    /// Highest and lowest point with stem and articulation.
    pub top: f64,
    /// See `top`.
    pub bottom: f64,
}

/// A stem.
#[derive(Clone, Copy, Debug)]
pub struct Stem {
    /// Middle of its width.
    pub x: f64,
    /// The end away from the head.
    pub tip: f64,
}

impl PlacedSymbol {
    /// Middle of its head.
    pub fn middle(&self) -> f64 {
        self.x + self.head / 2.0
    }
}

/// Gap between an accidental and its head.
const ACCIDENTAL_GAP: f64 = 0.25;
const DOT_GAP: f64 = 0.4;
/// How much further a dot stands that is beside a flag.
const DOT_BESIDE_FLAG: f64 = 0.35;
const STEM: f64 = 3.5;
/// The shortest stem under one beam; each further beam needs its own room.
const BEAMED_STEM: f64 = 3.1;
/// The most that a beam rises or falls.
const STEEPEST: f64 = 1.0;
/// The staff step of the middle line.
const MIDDLE: i32 = 4;

/// Height of a staff step, from the top line downwards.
pub fn height(step: i32) -> f64 {
    4.0 - f64::from(step) / 2.0
}

fn step(symbol: &WrittenSymbol) -> i32 {
    symbol.note().map_or(MIDDLE, |note| note.step)
}

fn is_air(symbol: &WrittenSymbol) -> bool {
    matches!(symbol.what, WrittenKind::Air { .. })
}

fn head_glyph(symbol: &WrittenSymbol) -> Glyph {
    match (symbol.value.division, is_air(symbol)) {
        (1, false) => Glyph::NoteheadWhole,
        (2, false) => Glyph::NoteheadHalf,
        (_, false) => Glyph::NoteheadBlack,
        (1, true) => Glyph::NoteheadSlashWhiteWhole,
        (2, true) => Glyph::NoteheadSlashWhiteHalf,
        (_, true) => Glyph::NoteheadSlashHorizontalEnds,
    }
}

fn rest_glyph(value: Value) -> Glyph {
    match value.division {
        1 => Glyph::RestWhole,
        2 => Glyph::RestHalf,
        4 => Glyph::RestQuarter,
        8 => Glyph::Rest8th,
        16 => Glyph::Rest16th,
        32 => Glyph::Rest32nd,
        _ => Glyph::Rest64th,
    }
}

fn flag_glyph(value: Value, up: bool) -> Option<Glyph> {
    Some(match (value.division, up) {
        (8, true) => Glyph::Flag8thUp,
        (8, false) => Glyph::Flag8thDown,
        (16, true) => Glyph::Flag16thUp,
        (16, false) => Glyph::Flag16thDown,
        (32, true) => Glyph::Flag32ndUp,
        (32, false) => Glyph::Flag32ndDown,
        (64, true) => Glyph::Flag64thUp,
        (64, false) => Glyph::Flag64thDown,
        _ => return None,
    })
}

/// The glyph of an accidental.
pub fn accidental_glyph(alter: i8) -> Glyph {
    match alter {
        0 => Glyph::AccidentalNatural,
        1 => Glyph::AccidentalSharp,
        -1 => Glyph::AccidentalFlat,
        2.. => Glyph::AccidentalDoubleSharp,
        _ => Glyph::AccidentalDoubleFlat,
    }
}

fn goes_up(steps: impl Iterator<Item = i32>) -> bool {
    let (low, high) = steps.fold((i32::MAX, i32::MIN), |(l, h), s| (l.min(s), h.max(s)));
    // The note farthest from the middle line decides; stems go down if two are equally far.
    MIDDLE - low > high - MIDDLE
}

/// The room a symbol takes. One that is not beamed carries its own flag.
pub fn extent(symbol: &WrittenSymbol, beamed: bool) -> Extent {
    let mut extent = Extent::default();
    if let WrittenKind::Rest(_) = symbol.what {
        extent.right = rest_glyph(symbol.value).width();
    } else {
        extent.right = head_glyph(symbol).width();
        let step = step(symbol);
        if step <= -2 || step >= 10 {
            extent.left = LEGER_LINE_EXTENSION - 0.15;
            extent.right += LEGER_LINE_EXTENSION - 0.15;
        }
    }
    if symbol.value.dotted {
        extent.right += DOT_GAP + Glyph::AugmentationDot.width();
    }
    let up = goes_up([step(symbol)].into_iter()) || is_air(symbol);
    if symbol.has_head()
        && !beamed
        && let Some(flag) = flag_glyph(symbol.value, up)
    {
        let stem = if up { head_glyph(symbol).width() } else { 0.0 };
        extent.right = extent.right.max(stem + flag.bounds().right);
        if symbol.value.dotted && up {
            extent.right += DOT_BESIDE_FLAG;
        }
    }
    if let Some(alter) = symbol.note().and_then(|n| n.accidental) {
        let own = ACCIDENTAL_GAP + accidental_glyph(alter).width();
        extent.left = own.max(extent.left);
    }
    extent
}

/// Draws the symbols of a bar with their heads' left edges at `xs`; `end` is the bar line. `style` says
/// how a note is held.
pub fn draw(
    canvas: &mut Canvas,
    bar: &WrittenBar,
    xs: &[f64],
    end: f64,
    meter: Meter,
    style: impl Fn(&Note) -> Option<Style>,
) -> Vec<PlacedSymbol> {
    let mut placed: Vec<PlacedSymbol> = bar
        .symbols
        .iter()
        .zip(xs)
        .map(|(symbol, x)| place(symbol, *x))
        .collect();
    let groups = beams::of_bar(bar, meter);
    for group in &groups {
        beam(canvas, &mut placed, group);
    }
    for (index, one) in placed.iter_mut().enumerate() {
        let alone = !groups.iter().any(|group| group.contains(&index));
        if let WrittenKind::Rest(whole_bar) = one.symbol.what {
            if whole_bar {
                let glyph = rest_glyph(one.symbol.value);
                let start = xs[0] - 0.9;
                one.x = start.max((start + end - glyph.width()) / 2.0);
            }
            rest(canvas, one);
            continue;
        }
        if alone && one.symbol.value.division > 1 {
            stem_alone(canvas, one);
        }
        head(canvas, one);
        if let Some(style) = one.symbol.note().filter(|n| n.head == 0).and_then(&style) {
            articulation(canvas, one, style);
        }
        let bounds = Bounds {
            left: one.x,
            top: one.top,
            right: one.x + one.head,
            bottom: one.bottom,
        };
        canvas.clear_of(bounds);
    }
    placed
}

fn place(symbol: &WrittenSymbol, x: f64) -> PlacedSymbol {
    let y = height(step(symbol));
    let head = if symbol.has_head() {
        head_glyph(symbol).width()
    } else {
        rest_glyph(symbol.value).width()
    };
    let half = if symbol.has_head() {
        head_glyph(symbol).bounds().bottom
    } else {
        0.5
    };
    // Breathing is drawn on one line, where all stems go up.
    let up = is_air(symbol) || goes_up([step(symbol)].into_iter());
    PlacedSymbol {
        symbol: *symbol,
        x,
        y,
        head,
        stem: None,
        up,
        top: y - half,
        bottom: y + half,
    }
}

fn rest(canvas: &mut Canvas, one: &mut PlacedSymbol) {
    let glyph = rest_glyph(one.symbol.value);
    // A whole rest hangs from the second line from above; on a single line, from that.
    one.y = if one.symbol.value.division == 1 && canvas.lines > 1 {
        1.0
    } else {
        2.0
    };
    let mark = DrawnMark::glyph(DrawnKind::Rest, glyph, one.x, one.y);
    let bounds = mark.bounds();
    (one.top, one.bottom) = (bounds.top, bounds.bottom);
    canvas.put_clear(mark);
    if one.symbol.value.dotted {
        dot(canvas, one.x + glyph.width() + DOT_GAP, 1.5);
    }
}

fn dot(canvas: &mut Canvas, x: f64, y: f64) {
    canvas.put_clear(DrawnMark::glyph(
        DrawnKind::Dot,
        Glyph::AugmentationDot,
        x,
        y,
    ));
}

fn head(canvas: &mut Canvas, one: &mut PlacedSymbol) {
    let step = step(&one.symbol);
    let below = (step..=-2).filter(|s| s % 2 == 0);
    let above = (10..=step).filter(|s| s % 2 == 0);
    for ledger in below.chain(above) {
        let y = height(ledger);
        canvas.put(DrawnMark::line(
            DrawnKind::LedgerLine,
            (one.x - LEGER_LINE_EXTENSION, y),
            (one.x + one.head + LEGER_LINE_EXTENSION, y),
            LEGER_LINE_THICKNESS,
        ));
    }
    canvas.put(DrawnMark::glyph(
        DrawnKind::Head,
        head_glyph(&one.symbol),
        one.x,
        one.y,
    ));
    if let Some(alter) = one.symbol.note().and_then(|n| n.accidental) {
        let glyph = accidental_glyph(alter);
        let x = one.x - ACCIDENTAL_GAP - glyph.bounds().right;
        canvas.put_clear(DrawnMark::glyph(DrawnKind::Accidental, glyph, x, one.y));
    }
    if one.symbol.value.dotted {
        // A dot is never on a line.
        let y = if step % 2 == 0 { one.y - 0.5 } else { one.y };
        let flagged =
            one.up && one.symbol.value.flags() > 0 && one.stem.is_some_and(|s| s.tip > y - 3.6);
        let x = one.x + one.head + DOT_GAP + if flagged { DOT_BESIDE_FLAG } else { 0.0 };
        dot(canvas, x, y);
    }
}

fn stem_x(one: &PlacedSymbol) -> f64 {
    let glyph = head_glyph(&one.symbol);
    let half = STEM_THICKNESS / 2.0;
    if one.up {
        let (x, _) = glyph.anchor("stemUpSE").unwrap_or((one.head, 0.0));
        one.x + x - half
    } else {
        let (x, _) = glyph.anchor("stemDownNW").unwrap_or((0.0, 0.0));
        one.x + x + half
    }
}

fn draw_stem(canvas: &mut Canvas, one: &mut PlacedSymbol, tip: f64) {
    let anchor = if one.up { "stemUpSE" } else { "stemDownNW" };
    let (_, y) = head_glyph(&one.symbol).anchor(anchor).unwrap_or((0.0, 0.0));
    let x = stem_x(one);
    canvas.put(DrawnMark::line(
        DrawnKind::Stem,
        (x, one.y + y),
        (x, tip),
        STEM_THICKNESS,
    ));
    one.stem = Some(Stem { x, tip });
    one.top = one.top.min(tip);
    one.bottom = one.bottom.max(tip);
}

fn stem_alone(canvas: &mut Canvas, one: &mut PlacedSymbol) {
    let flags = one.symbol.value.flags();
    let length = STEM + 0.75 * flags.saturating_sub(2) as f64;
    // The stem of a note on ledger lines reaches the middle line.
    let tip = if one.up {
        (one.y - length).min(2.0)
    } else {
        (one.y + length).max(2.0)
    };
    draw_stem(canvas, one, tip);
    if let Some(flag) = flag_glyph(one.symbol.value, one.up) {
        let x = stem_x(one) - STEM_THICKNESS / 2.0;
        let mark = DrawnMark::glyph(DrawnKind::Flag, flag, x, tip);
        canvas.clear_of(mark.bounds());
        canvas.put(mark);
    }
}

/// True if a group is one pattern several times: its beam is level, as the pattern stands still.
fn repeats(steps: &[i32]) -> bool {
    let all = steps.len();
    (1..=all / 2)
        .any(|n| all.is_multiple_of(n) && steps.iter().skip(n).zip(steps).all(|(a, b)| a == b))
}

fn beam(canvas: &mut Canvas, placed: &mut [PlacedSymbol], group: &[usize]) {
    let air = is_air(&placed[group[0]].symbol);
    let up = air || goes_up(group.iter().map(|i| step(&placed[*i].symbol)));
    for index in group {
        placed[*index].up = up;
    }
    let toward = if up { -1.0 } else { 1.0 };
    let at = |i: usize| &placed[group[i]];
    let last = group.len() - 1;
    let (first_x, last_x) = (stem_x(at(0)), stem_x(at(last)));
    let (first_y, last_y) = (at(0).y, at(last).y);
    // An inner note that sticks out beyond both ends makes the beam level.
    let level = group[1..last].iter().any(|i| {
        let y = placed[*i].y;
        (y - first_y) * toward > 0.0 && (y - last_y) * toward > 0.0
    });
    let steps: Vec<i32> = group.iter().map(|i| step(&placed[*i].symbol)).collect();
    let rise = if level || repeats(&steps) {
        0.0
    } else {
        ((last_y - first_y) * 0.5).clamp(-STEEPEST, STEEPEST)
    };
    let slope = rise / (last_x - first_x);
    let symbols: Vec<WrittenSymbol> = group.iter().map(|i| placed[*i].symbol).collect();
    // How far outwards the beam's outer edge lies at the first stem: far enough for every stem, and over
    // the middle line.
    let mut outwards = f64::NEG_INFINITY;
    for (i, symbol) in symbols.iter().enumerate() {
        let one = at(i);
        let further =
            (symbol.value.flags().saturating_sub(1)) as f64 * (BEAM_THICKNESS + BEAM_SPACING);
        let tip = (one.y * toward + BEAMED_STEM + further * 0.8).max(2.0 * toward);
        outwards = outwards.max(tip - slope * (stem_x(one) - first_x) * toward);
    }
    let edge = |x: f64| outwards * toward + slope * (x - first_x);
    for index in group {
        let x = stem_x(&placed[*index]);
        draw_stem(canvas, &mut placed[*index], edge(x));
    }
    let half = STEM_THICKNESS / 2.0;
    for (number, stroke) in beams::strokes(&symbols) {
        let inward = -toward * number as f64 * (BEAM_THICKNESS + BEAM_SPACING);
        let (left, right) = match stroke {
            Stroke::Between(from, to) => (
                stem_x(&placed[group[from]]) - half,
                stem_x(&placed[group[to]]) + half,
            ),
            Stroke::Stub(at, true) => {
                let x = stem_x(&placed[group[at]]) - half;
                (x, x + 1.1)
            }
            Stroke::Stub(at, false) => {
                let x = stem_x(&placed[group[at]]) + half;
                (x - 1.1, x)
            }
        };
        let thick = -toward * BEAM_THICKNESS;
        let point = |x: f64, by: f64| (x, edge(x) + inward + by);
        let mark = DrawnMark::new(
            DrawnKind::Beam,
            Shape::Area(vec![
                OutlineStep::Move(point(left, 0.0)),
                OutlineStep::Line(point(right, 0.0)),
                OutlineStep::Line(point(right, thick)),
                OutlineStep::Line(point(left, thick)),
                OutlineStep::Close,
            ]),
        );
        canvas.clear_of(mark.bounds());
        canvas.put(mark);
    }
}

fn articulation(canvas: &mut Canvas, one: &mut PlacedSymbol, style: Style) {
    // On the head's side, opposite the stem.
    let below = one.up;
    let glyph = match (style, below) {
        (Style::Staccato, true) => Glyph::ArticStaccatoBelow,
        (Style::Staccato, false) => Glyph::ArticStaccatoAbove,
        (Style::Legato, true) => Glyph::ArticTenutoBelow,
        (Style::Legato, false) => Glyph::ArticTenutoAbove,
        (Style::Accent, true) => Glyph::ArticAccentBelow,
        (Style::Accent, false) => Glyph::ArticAccentAbove,
    };
    let away = if below { 1.0 } else { -1.0 };
    let size = glyph.bounds().bottom - glyph.bounds().top;
    // In the staff a small sign stands in the middle of a space; a wide one stands outside.
    let step = step(&one.symbol);
    let next = step - if below { 2 } else { -2 };
    let outside = if below { next < 0 } else { next > 8 };
    let centre = if outside || style == Style::Accent {
        let edge = if below {
            one.y.max(4.0)
        } else {
            one.y.min(0.0)
        };
        edge + away * (0.5 + size / 2.0)
    } else if next % 2 == 0 {
        height(next) + away * 0.5
    } else {
        height(next)
    };
    let centre = if (centre - one.y).abs() < 0.8 {
        one.y + away * 0.9
    } else {
        centre
    };
    let own = glyph.bounds();
    let y = centre - (own.top + own.bottom) / 2.0;
    let x = one.middle() - (own.left + own.right) / 2.0;
    let mark = DrawnMark::glyph(DrawnKind::Articulation, glyph, x, y);
    let bounds = mark.bounds();
    one.top = one.top.min(bounds.top);
    one.bottom = one.bottom.max(bounds.bottom);
    canvas.clear_of(bounds);
    canvas.put(mark);
}
