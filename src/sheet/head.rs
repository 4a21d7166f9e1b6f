//! The head of a sheet: title, purpose, instrument and length, and the player's highest comfortable note.

use super::clef_sign;
use super::glyph::Glyph;
use super::glyph::defaults::{LEGER_LINE_EXTENSION, LEGER_LINE_THICKNESS, STAFF_LINE_THICKNESS};
use super::letters::{ABOVE, Face};
use super::notes;
use super::page::{DrawnKind, DrawnMark, Role, SheetBlock};
use super::sizes::Sizes;
use super::words;
use crate::brass::Level;
use crate::music::WrittenPitch;
use crate::routine::On;
use crate::score::{Played, Score};
use crate::words::{pitch, say};

/// The blocks of the head with the gaps before them.
pub fn group(score: &Score<'_>, width: f64, sizes: &Sizes) -> Vec<(f64, SheetBlock)> {
    let routine = score.routine;
    let (drawn, drawn_width) = for_whom(score, sizes);
    let large = sizes.title;
    let room = width - drawn_width - 16.0;
    let mut title = SheetBlock::new(Role::Title);
    let mut y = 0.0;
    for row in Face::Bold.wrapped(&routine.title, large, room) {
        y += large * 1.05;
        title.marks.push(DrawnMark::text(
            DrawnKind::Text,
            (0.0, y - large * 0.25),
            Face::Bold,
            large,
            row,
        ));
    }
    title.height = y;
    let mut text = SheetBlock::new(Role::Paragraph);
    let mut y = 0.0;
    let facts = words::facts(score);
    let paragraphs = [
        (
            routine.purpose.as_deref().unwrap_or_default(),
            Face::Italic,
            sizes.purpose,
        ),
        (facts.as_str(), Face::Regular, sizes.facts),
    ];
    for (words, face, size) in paragraphs {
        for row in face.wrapped(words, size, room) {
            text.marks.push(DrawnMark::text(
                DrawnKind::Text,
                (0.0, y + ABOVE * size),
                face,
                size,
                row,
            ));
            y += size * 1.3;
        }
    }
    text.height = y;
    // The staff is beside title and text, so it adds height only if it is higher than they are.
    let beside = title.height + 3.0 + text.height;
    let mut staff = drawn.moved(1.0, width - drawn_width, 0.0);
    let lower = (staff.height - beside).max(0.0);
    let up = beside.min(staff.height);
    staff = staff.moved(1.0, 0.0, -up);
    staff.height = lower;
    vec![(0.0, title), (3.0, text), (0.0, staff)]
}

/// The note that the player needs, the words under it, and the same described. At the first level a routine may begin
/// on a longer tube with a lower note, and whoever has that can begin.
fn needed(score: &Score<'_>) -> (WrittenPitch, String, String) {
    let top = score.routine.comfortable_top;
    let clef = score.instrument().clef;
    let (language, names) = (score.routine.words_in, score.routine.names);
    let first_level = Level::of_top(score.instrument(), top).is_none_or(|l| l.easier().is_none());
    let first_line = score.lines.iter().find(|line| line.on == On::Horn);
    let notes = first_line
        .into_iter()
        .flat_map(|line| &line.passes[0].notes);
    let highest = notes
        .filter_map(|note| match note.played {
            Played::Pitch { written, tube, .. } => Some((written, tube?)),
            Played::In | Played::Out => None,
        })
        .max_by_key(|(pitch, _)| pitch.number());
    match highest.filter(|(pitch, _)| first_level && pitch.number() < top.number()) {
        Some((note, tube)) => {
            let with = score.instrument().with(language, tube);
            let place = pitch::on_staff(language, names, note, clef);
            (
                note,
                say::enough_to_begin(language, names.of(note), &with),
                say::enough_to_begin_described(language, place, &with),
            )
        }
        None => {
            let place = pitch::on_staff(language, names, top, clef);
            (
                top,
                say::should_be_easy(language, names.of(top)),
                say::should_be_easy_described(language, place),
            )
        }
    }
}

/// The note that the player needs on a small staff, and words under it.
fn for_whom(score: &Score<'_>, sizes: &Sizes) -> (SheetBlock, f64) {
    let space = sizes.small_space.0;
    let (top, words, described) = needed(score);
    let size = sizes.small + 1.0;
    let words_width = Face::Regular.width(&words, size);
    let staff_width: f64 = 11.0;
    let width = (staff_width * space).max(words_width);
    let mut marks = small_staff(staff_width);
    let clef = score.instrument().clef;
    marks.push(clef_sign::at(clef, 0.5));
    marks.extend(whole_note(clef.step(top), top.alter(), 6.3));
    let mut block = SheetBlock::new(Role::Figure(described));
    let left = (width - staff_width * space) / 2.0;
    // Room for ledger lines over the staff and for the clef under it.
    let above = 2.2;
    block.marks = marks
        .into_iter()
        .map(|m| m.moved(space, left, above * space))
        .collect();
    // Under the clef, or under a note on ledger lines below it.
    let lowest = f64::max(6.4, notes::height(clef.step(top)) + 1.2);
    let floor = (above + lowest) * space;
    let at = ((width - words_width) / 2.0, floor + ABOVE * size);
    block.marks.push(DrawnMark::text(
        DrawnKind::Text,
        at,
        Face::Regular,
        size,
        words,
    ));
    block.height = floor + size;
    (block, width)
}

/// Five lines, in staff spaces.
pub fn small_staff(width: f64) -> Vec<DrawnMark> {
    let line = |n: u32| {
        let y = f64::from(n);
        DrawnMark::line(
            DrawnKind::StaffLine,
            (0.0, y),
            (width, y),
            STAFF_LINE_THICKNESS,
        )
    };
    (0..5).map(line).collect()
}

/// A whole note `step` steps above the lowest line, with its accidental and ledger lines, its left edge at `x`.
pub fn whole_note(step: i32, alter: i8, x: f64) -> Vec<DrawnMark> {
    let y = notes::height(step);
    let glyph = Glyph::NoteheadWhole;
    let mut marks = vec![];
    let ledgers = (step..=-2).chain(10..=step).filter(|s| s % 2 == 0);
    for ledger in ledgers {
        let y = notes::height(ledger);
        marks.push(DrawnMark::line(
            DrawnKind::LedgerLine,
            (x - LEGER_LINE_EXTENSION, y),
            (x + glyph.width() + LEGER_LINE_EXTENSION, y),
            LEGER_LINE_THICKNESS,
        ));
    }
    marks.push(DrawnMark::glyph(DrawnKind::Head, glyph, x, y));
    if alter != 0 {
        let sign = notes::accidental_glyph(alter);
        marks.push(DrawnMark::glyph(
            DrawnKind::Accidental,
            sign,
            x - 0.3 - sign.bounds().right,
            y,
        ));
    }
    marks
}
