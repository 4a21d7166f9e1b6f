//! A system of music: a staff with everything on, above and below it.

use super::above;
use super::brackets;
use super::canvas::Canvas;
use super::glyph::Glyph;
use super::glyph::defaults::STAFF_LINE_THICKNESS;
use super::joins;
use super::loudness;
use super::notes;
use super::page::{Bounds, DrawnKind, DrawnMark, PlacedHead, PlacedMoment, Role, SheetBlock};
use super::part::LinePart;
use super::pencilled;
use super::placed::{PlacedBar, SystemPlace};
use super::signature::Signature;
use super::slots::Slot;
use super::spacing;
use super::{clef_sign, spoken};
use crate::music::Clef;
use crate::music::Meter;
use crate::notation::written::WrittenKind;

/// The most that a short last system is stretched.
const MOST_STRETCH: f64 = 1.5;

/// How wide what stands before the first bar of a system is, at most: its passes may be in several keys.
pub fn prefix(part: &LinePart<'_>, first: bool) -> f64 {
    let widths = part
        .passes
        .iter()
        .map(|p| Signature::of(p.written.key, part.clef).width());
    clef_width(part) + widths.fold(0.0, f64::max) + meter_room(part, first)
}

/// The room for the meter, which stands in the first system.
fn meter_room(part: &LinePart<'_>, first: bool) -> f64 {
    if first {
        meter_width(part.score_line.meter) + 0.7
    } else {
        0.0
    }
}

/// The clef of a part, which a line for breathing has none of.
fn clef(part: &LinePart<'_>) -> Option<Clef> {
    (part.staff_lines() > 1).then_some(part.clef)
}

fn clef_width(part: &LinePart<'_>) -> f64 {
    clef(part).map_or(0.8, |clef| 0.6 + clef_sign::width(clef) + 0.9)
}

fn digits(number: u8) -> Vec<Glyph> {
    let ten = (number >= 10).then(|| Glyph::meter_digit(number / 10));
    ten.into_iter()
        .chain([Glyph::meter_digit(number % 10)])
        .collect()
}

fn row_width(digits: &[Glyph]) -> f64 {
    digits.iter().map(|g| g.advance()).sum()
}

fn meter_width(meter: Meter) -> f64 {
    row_width(&digits(meter.beats())).max(row_width(&digits(meter.unit())))
}

/// Draws a system; lengths are in staff spaces, from the top of all that is drawn.
pub fn draw(part: &LinePart<'_>, slots: &[Slot], place: SystemPlace) -> SheetBlock {
    let mut canvas = Canvas::new(part.staff_lines());
    let key = slots.first().and_then(|s| part.passes[s.pass].written.key);
    let signature = Signature::of(key, part.clef);
    let front_end = place.front.unwrap_or(clef_width(part) + signature.width());
    let start = front_end + meter_room(part, place.first);
    // The first bar of a system has its signature after the clef.
    let unused = slots.first().map_or(0.0, |slot| slot.change.width());
    let room = place.width - start + unused;
    let bars: Vec<&spacing::Distances> = slots.iter().map(|s| &s.distances).collect();
    let mut factor = spacing::stretch_to(&bars, room);
    if place.last {
        factor = factor.min(MOST_STRETCH);
    }
    let bars = place_bars(&mut canvas, part, slots, (start, unused), factor);
    let end = bars.last().map_or(start, |bar| bar.right);
    staff(&mut canvas, end);
    front(
        &mut canvas,
        part,
        &signature,
        place.first.then_some(front_end),
    );
    for bar in &bars {
        if let Some(line) = bar.slot.bar_line {
            line.draw(&mut canvas, bar.right);
        }
        heads(&mut canvas, part, bar);
    }
    moments(&mut canvas, part, &bars);
    joins::ties(&mut canvas, part, &bars, end);
    joins::breath_ties(&mut canvas, part, &bars, end);
    let brackets = brackets::triplets(&mut canvas, &bars);
    joins::slurs(&mut canvas, part, &bars, &brackets, end);
    above::breath_marks(&mut canvas, part, &bars);
    above::fingerings(&mut canvas, part, &bars);
    above::cues(&mut canvas, part, &bars, end);
    above::air_words(&mut canvas, part, &bars);
    loudness::draw(&mut canvas, part, &bars, end);
    let without_headings = canvas.above.clone();
    above::headings(&mut canvas, part, &bars, place);
    pencilled::signs(&mut canvas, &without_headings, part, &bars, end);
    let words = spoken::system(part, slots, place.first);
    finish(canvas, part, words)
}

/// Places and draws the bars, the first at `start`; of its distances `unused` is not needed.
fn place_bars<'b>(
    canvas: &mut Canvas,
    part: &LinePart<'_>,
    slots: &'b [Slot],
    (start, unused): (f64, f64),
    factor: f64,
) -> Vec<PlacedBar<'b>> {
    let mut left = start;
    let mut bars: Vec<PlacedBar<'_>> = vec![];
    for slot in slots {
        let gaps: Vec<f64> = spacing::stretched(&slot.distances, factor).collect();
        let mut xs = vec![];
        let mut x = left;
        if bars.is_empty() {
            x -= unused;
        } else {
            slot.change.draw(canvas, left);
        }
        for gap in &gaps[..gaps.len() - 1] {
            x += gap;
            xs.push(x);
        }
        let right = x + gaps[gaps.len() - 1];
        let style = |note: &crate::notation::written::Note| {
            part.passes[slot.pass].pass.notes[note.index].style
        };
        let placed = notes::draw(canvas, &slot.bar, &xs, right, part.score_line.meter, style);
        bars.push(PlacedBar {
            slot,
            left,
            right,
            placed,
        });
        left = right;
    }
    bars
}

fn staff(canvas: &mut Canvas, end: f64) {
    let ys: &[f64] = if canvas.lines > 1 {
        &[0.0, 1.0, 2.0, 3.0, 4.0]
    } else {
        &[2.0]
    };
    for y in ys {
        canvas.put(DrawnMark::line(
            DrawnKind::StaffLine,
            (0.0, *y),
            (end, *y),
            STAFF_LINE_THICKNESS,
        ));
    }
}

fn front(canvas: &mut Canvas, part: &LinePart<'_>, signature: &Signature, meter_at: Option<f64>) {
    if let Some(clef) = clef(part) {
        canvas.put_clear(clef_sign::at(clef, 0.6));
    }
    signature.draw(canvas, clef_width(part));
    let Some(x) = meter_at else {
        return;
    };
    let meter = part.score_line.meter;
    let width = meter_width(meter);
    for (number, y) in [(meter.beats(), 1.0), (meter.unit(), 3.0)] {
        let row = digits(number);
        let mut at = x + (width - row_width(&row)) / 2.0;
        for glyph in row {
            canvas.put_clear(DrawnMark::glyph(DrawnKind::Meter, glyph, at, y));
            at += glyph.advance();
        }
    }
}

fn heads(canvas: &mut Canvas, part: &LinePart<'_>, bar: &PlacedBar<'_>) {
    let pass = bar.slot.pass;
    for one in &bar.placed {
        let (note, head, step) = match one.symbol.what {
            WrittenKind::Note(note) => (note.index, note.head, note.step),
            WrittenKind::Air {
                note: Some(note),
                word,
            } => (note, usize::from(word.is_empty()), 4),
            _ => continue,
        };
        canvas.notes.push(PlacedHead {
            line: part.score_line.index,
            pass: part.passes[pass].written.index,
            note,
            head,
            step,
            x: one.middle(),
            y: one.y,
        });
    }
}

fn moments(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>]) {
    let pass = |bar: &PlacedBar<'_>| part.passes[bar.slot.pass].written.index;
    for bar in bars {
        let all = bar.placed.iter().map(|one| PlacedMoment {
            pass: pass(bar),
            at: one.symbol.at,
            x: one.middle(),
        });
        canvas.moments.extend(all);
    }
    if let Some(bar) = bars.last()
        && let Some(last) = bar.placed.last()
    {
        canvas.moments.push(PlacedMoment {
            pass: pass(bar),
            at: last.symbol.end(),
            x: bar.right,
        });
    }
}

/// Moves all down so that the highest mark is at the top.
fn finish(mut canvas: Canvas, part: &LinePart<'_>, words: String) -> SheetBlock {
    // It is kept until the whole sheet is written.
    canvas.marks.shrink_to_fit();
    canvas.notes.shrink_to_fit();
    canvas.moments.shrink_to_fit();
    let block = SheetBlock {
        role: Role::Figure(words),
        line: Some(part.score_line.index),
        height: 0.0,
        marks: canvas.marks,
        notes: canvas.notes,
        moments: canvas.moments,
    };
    let bounds = block.bounds().unwrap_or(Bounds {
        left: 0.0,
        top: 0.0,
        right: 0.0,
        bottom: 0.0,
    });
    let mut block = block.moved(1.0, 0.0, -bounds.top);
    block.height = bounds.bottom - bounds.top;
    block
}
