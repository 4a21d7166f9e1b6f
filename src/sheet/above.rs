//! Signs above a staff: breath marks, fingerings, words at notes, the tempo, the names of passes.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::letters::{ABOVE, BELOW, Face};
use super::page::{Bounds, DrawnKind, DrawnMark, Shape};
use super::part::{LinePart, LinePass};
use super::placed::{PlacedBar, SystemPlace};
use crate::music::Meter;
use crate::notation::written::WrittenKind;
use crate::words::{Language, say};

const GAP: f64 = 0.45;
/// Beside words at a note: nearer, a fingering would read as one of them.
const BESIDE: f64 = 0.9;
/// The same after the name of a pass, which may end with a figure.
const AFTER_NAME: f64 = 2.5;

/// A comma at the end of the note it follows, on the top line.
pub fn breath_marks(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>]) {
    let glyph = Glyph::BreathMarkComma;
    for bar in bars {
        for (index, one) in bar.placed.iter().enumerate() {
            let Some(note) = one.symbol.note() else {
                continue;
            };
            let breathes = part.passes[bar.slot.pass].pass.notes[note.index]
                .breath
                .is_some();
            if !breathes || note.tied_on {
                continue;
            }
            let next = bar.placed.get(index + 1).map_or(bar.right, |next| {
                let accidental = next.symbol.note().and_then(|n| n.accidental);
                next.x - accidental.map_or(0.0, |a| 0.3 + super::notes::accidental_glyph(a).width())
            });
            let x = next - glyph.width() - 0.6;
            let edge = canvas.above.edge(x - 0.1, x + glyph.width() + 0.1);
            let y = edge.min(0.0) - 0.35;
            canvas.put_clear(DrawnMark::glyph(DrawnKind::BreathMark, glyph, x, y));
        }
    }
}

/// Fingerings of a system on one line of text.
pub fn fingerings(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>]) {
    let size = part.sizes.fingerings / part.sizes.space;
    let mut all: Vec<(f64, f64, &str)> = vec![];
    for bar in bars {
        let pass = &part.passes[bar.slot.pass];
        for one in &bar.placed {
            let Some(note) = one.symbol.note().filter(|n| n.head == 0) else {
                continue;
            };
            if let Some(text) = &pass.fingerings[note.index] {
                let width = Face::Regular.width(text, size);
                all.push((one.middle() - width / 2.0, width, text));
            }
        }
    }
    let edges = all
        .iter()
        .map(|(x, width, _)| canvas.above.edge(*x, x + width));
    let Some(edge) = edges.reduce(f64::min) else {
        return;
    };
    let y = edge.min(-0.4) - GAP - BELOW * size * 0.2;
    for (x, _, text) in all {
        canvas.put_clear(DrawnMark::text(
            DrawnKind::Fingering,
            (x, y),
            Face::Regular,
            size,
            text,
        ));
    }
}

/// Words at notes: "third slide out", "bend", "air", "ku".
pub fn cues(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>], end: f64) {
    let mut all: Vec<(f64, &str)> = vec![];
    for bar in bars {
        let pass = &part.passes[bar.slot.pass];
        for one in &bar.placed {
            if let Some(note) = one.symbol.note().filter(|n| n.head == 0) {
                all.extend(pass.cues[note.index].map(|word| (one.x, word)));
            }
        }
    }
    // Short words are nearest to their notes: a long one would push them away.
    all.sort_by_key(|(_, word)| word.len());
    for (x, word) in all {
        words(canvas, x, end, word, part.sizes.words());
    }
}

/// Puts words above everything at that place, with their left end at `x` if there is room before the system's end.
fn words(canvas: &mut Canvas, x: f64, end: f64, text: &str, size: f64) {
    let face = Face::Italic;
    let width = face.width(text, size);
    let x = x.min(end - width).max(0.0);
    let y = canvas.above.edge(x - BESIDE, x + width + BESIDE) - GAP - BELOW * size;
    canvas.put_clear(DrawnMark::text(DrawnKind::Words, (x, y), face, size, text));
}

/// "in", "out" and "hold" under the line of a breathing staff.
pub fn air_words(canvas: &mut Canvas, part: &LinePart<'_>, bars: &[PlacedBar<'_>]) {
    let size = part.sizes.words();
    for one in bars.iter().flat_map(|bar| &bar.placed) {
        let WrittenKind::Air { word, .. } = one.symbol.what else {
            continue;
        };
        if word.is_empty() {
            continue;
        }
        let word = breath_word(part.language, word);
        let width = Face::Italic.width(word, size);
        let x = one.middle() - width / 2.0;
        let y = canvas.below.edge(x, x + width).max(3.0) + 0.3 + ABOVE * size;
        canvas.put_clear(DrawnMark::text(
            DrawnKind::Words,
            (x, y),
            Face::Italic,
            size,
            word,
        ));
    }
}

/// What a breathing player does, in a language: "in", "out", "hold".
pub fn breath_word(language: Language, word: &str) -> &'static str {
    match word {
        "in" => say::breathe_in(language),
        "out" => say::breathe_out(language),
        _ => say::breathe_hold(language),
    }
}

/// A heading before it has a height.
struct Heading {
    x: f64,
    across: f64,
    /// Its last row on a baseline at 0.
    marks: Vec<DrawnMark>,
}

/// The tempo above the first system and the name above every pass, on one line of text if there is room.
pub fn headings(
    canvas: &mut Canvas,
    part: &LinePart<'_>,
    bars: &[PlacedBar<'_>],
    place: SystemPlace,
) {
    let mut all = vec![];
    let x_of = |index: usize| {
        if index == 0 {
            // In a score a line joins the staves there.
            if place.front.is_some() { 0.6 } else { 0.0 }
        } else {
            bars[index].left + 0.5
        }
    };
    let opening: Vec<usize> = (0..bars.len())
        .filter(|i| bars[*i].slot.opens_pass)
        .collect();
    for (number, index) in opening.iter().enumerate() {
        let x = x_of(*index);
        let next = opening
            .get(number + 1)
            .map_or(place.width, |next| x_of(*next) - 1.0);
        let pass = &part.passes[bars[*index].slot.pass];
        let tempo = place.first && *index == 0 && part.shows_tempo;
        all.extend(heading(part, pass, x, next - x, tempo, place));
    }
    let base_over = |canvas: &Canvas, heading: &Heading| {
        let (left, right) = (heading.x - 0.4, heading.x + heading.across + AFTER_NAME);
        canvas.above.edge(left, right).min(-0.6) - GAP - BELOW * part.sizes.words() - 0.2
    };
    let common = all.iter().map(|h| base_over(canvas, h)).fold(0.0, f64::min);
    for heading in all {
        let base = common.min(base_over(canvas, &heading));
        let moved = heading
            .marks
            .into_iter()
            .map(|m| m.moved(1.0, heading.x, base));
        let moved: Vec<DrawnMark> = moved.collect();
        let boxes = moved
            .iter()
            .map(DrawnMark::bounds)
            .reduce(|a, b| a.with(&b));
        if let Some(bounds) = boxes {
            canvas.above.add(Bounds {
                right: bounds.right + 0.8,
                ..bounds
            });
        }
        moved.into_iter().for_each(|mark| canvas.put(mark));
    }
}

/// The words over a pass: those that lead to it, and its name. They take several rows if they are longer than `room`.
fn heading(
    part: &LinePart<'_>,
    pass: &LinePass<'_>,
    x: f64,
    room: f64,
    tempo: bool,
    place: SystemPlace,
) -> Option<Heading> {
    const NARROWEST: f64 = 24.0;
    let size = part.sizes.words();
    let mut marks = vec![];
    let at = if tempo {
        tempo_mark(part, &mut marks)
    } else {
        0.0
    };
    let room = (room - at).max(NARROWEST).min(place.width - at);
    let between = Face::Italic.wrapped(&pass.between, size, room);
    let between = between.into_iter().map(|row| (Face::Italic, row));
    let name = Face::Bold.wrapped(&pass.label, size, room);
    let rows: Vec<(Face, String)> = between
        .chain(name.into_iter().map(|row| (Face::Bold, row)))
        .collect();
    let widths = rows.iter().map(|(face, row)| face.width(row, size));
    let across = at + widths.fold(0.0, f64::max);
    let count = rows.len();
    for (row, (face, text)) in rows.into_iter().enumerate() {
        let y = -1.2 * size * (count - 1 - row) as f64;
        marks.push(DrawnMark::text(DrawnKind::Words, (at, y), face, size, text));
    }
    let x = x.min(place.width - across).max(0.0);
    (!marks.is_empty()).then_some(Heading { x, across, marks })
}

/// A note of the value of one click and "= 72"; returns where the next word can begin.
fn tempo_mark(part: &LinePart<'_>, marks: &mut Vec<DrawnMark>) -> f64 {
    let meter = part.score_line.meter;
    let size = part.sizes.words();
    let space = 0.365 * size;
    let (glyph, dotted) = click_glyph(meter);
    let mut small = |glyph: Glyph, x: f64| {
        marks.push(DrawnMark::new(
            DrawnKind::Tempo,
            Shape::Glyph {
                glyph,
                at: (x, 0.0),
                space,
            },
        ));
        x + glyph.advance() * space
    };
    let mut x = small(glyph, 0.0);
    if dotted {
        x = small(Glyph::MetAugmentationDot, x + 0.2);
    }
    let tempos: Vec<String> = part
        .rungs
        .iter()
        .map(|l| part.language.number(l.tempo))
        .collect();
    let text = format!("= {}", tempos.join(part.language.between_numbers()));
    x += 0.55;
    let end = x + Face::Bold.width(&text, size);
    marks.push(DrawnMark::text(
        DrawnKind::Tempo,
        (x, 0.0),
        Face::Bold,
        size,
        text,
    ));
    end + 1.5
}

fn click_glyph(meter: Meter) -> (Glyph, bool) {
    if meter.is_compound() {
        (Glyph::MetNoteQuarterUp, true)
    } else {
        let glyph = match meter.unit() {
            2 => Glyph::MetNoteHalfUp,
            4 => Glyph::MetNoteQuarterUp,
            _ => Glyph::MetNote8thUp,
        };
        (glyph, false)
    }
}
