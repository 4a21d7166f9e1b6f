//! The foot of a sheet: a fingering chart of the notes used, the routine's shape, the caution.

use super::clef_sign;
use super::glyph::Glyph;
use super::head::{small_staff, whole_note};
use super::letters::{ABOVE, Face};
use super::page::{DrawnKind, DrawnMark, Role, SheetBlock};
use super::pages::{Follows, Group};
use super::paragraph::paragraph;
use super::shape;
use super::sizes::Sizes;
use super::slide;
use crate::brass::{Tube, caution};
use crate::music::WrittenPitch;
use crate::score::{Joined, Played, Score};
use crate::words::{Language, say};

/// Between the parts of the foot.
const GAP: f64 = 14.0;
/// Width of one note of the chart, in staff spaces.
const NOTE: f64 = 7.4;

/// Groups of blocks with the gaps before them; each group stays together.
pub fn groups(score: &Score<'_>, width: f64, sizes: &Sizes) -> Vec<Group> {
    let language = score.routine.words_in;
    let mut groups = vec![];
    let mut put = |blocks, follows| {
        groups.push(Group {
            gap: GAP,
            blocks,
            follows,
        });
    };
    let heading = |text| heading(text, sizes.said);
    let used = notes_used(score);
    if !used.is_empty() {
        let title = match score.instrument().has_slide() {
            true => say::positions_used(language),
            false => say::fingerings_used(language),
        };
        let mut chart = vec![(0.0, heading(title))];
        let per_row = ((width / sizes.small_space.1 - 4.0) / NOTE)
            .floor()
            .max(1.0) as usize;
        // Rows are as even as possible, so that the last row does not hold one note.
        let rows = used.len().div_ceil(per_row);
        for row in used.chunks(used.len().div_ceil(rows)) {
            chart.push((4.0, chart_row(row, score, sizes)));
        }
        put(chart, Follows::Freely);
    }
    let picture = shape::block(score, width, sizes);
    let shape = vec![(0.0, heading(say::its_shape(language))), (3.0, picture)];
    put(shape, Follows::Freely);
    groups.push(caution(language, width, sizes));
    groups
}

/// What every player reads before playing.
pub fn caution(language: Language, width: f64, sizes: &Sizes) -> Group {
    let heading = |text| heading(text, sizes.said);
    let mut words = vec![(0.0, heading(say::before_you_play(language)))];
    let paragraphs = match sizes.tight {
        true => vec![caution::long(language).join(" ")],
        false => caution::long(language).map(str::to_owned).to_vec(),
    };
    for text in &paragraphs {
        let block = paragraph(text, Face::Regular, sizes.small, width);
        words.extend(block.map(|block| (2.0, block)));
    }
    Group {
        gap: GAP,
        blocks: words,
        follows: Follows::NotAlone,
    }
}

fn heading(text: &str, size: f64) -> SheetBlock {
    let mut block = SheetBlock::new(Role::Heading(text.to_owned()));
    block.marks.push(DrawnMark::text(
        DrawnKind::Text,
        (0.0, ABOVE * size),
        Face::Bold,
        size,
        text,
    ));
    block.height = size;
    block
}

/// Every note that is played with valves, lowest first, with each of its fingerings. Bends are not included.
fn notes_used(score: &Score<'_>) -> Vec<(WrittenPitch, Tube)> {
    let notes = score
        .lines
        .iter()
        .flat_map(|l| &l.passes)
        .flat_map(|p| &p.notes);
    let fingered = notes.filter_map(|note| match note.played {
        Played::Pitch {
            written,
            tube: Some(tube),
            partial: Some(_),
            ..
        } if note.joined != Joined::Bent => Some((written, tube)),
        _ => None,
    });
    let mut used: Vec<(WrittenPitch, Tube)> = fingered.collect();
    used.sort_by_key(|(pitch, tube)| {
        let half_steps = score.instrument().tube_half_steps(*tube);
        (pitch.number(), pitch.staff_step(), half_steps, tube.bits())
    });
    used.dedup();
    used
}

fn chart_row(notes: &[(WrittenPitch, Tube)], score: &Score<'_>, sizes: &Sizes) -> SheetBlock {
    let (language, instrument) = (score.routine.words_in, score.instrument());
    let names = score.routine.names;
    let (space, size) = (sizes.small_space.1, sizes.at_notes);
    let width = 3.6 + NOTE * notes.len() as f64;
    let mut marks = small_staff(width);
    marks.push(clef_sign::at(instrument.clef, 0.4));
    let mut low: f64 = 5.6;
    let mut high: f64 = -1.6;
    for (index, (pitch, _)) in notes.iter().enumerate() {
        let x = 3.6 + NOTE * index as f64 + (NOTE - Glyph::NoteheadWhole.width()) / 2.0;
        for mark in whole_note(instrument.clef.step(*pitch), pitch.alter(), x) {
            low = low.max(mark.bounds().bottom);
            high = high.min(mark.bounds().top);
            marks.push(mark);
        }
    }
    let said: Vec<String> = notes
        .iter()
        .map(|(pitch, tube)| format!("{} {tube}", names.of(*pitch)))
        .collect();
    let described = match instrument.has_slide() {
        true => say::positions_described(language, said.join(", ")),
        false => say::fingerings_described(language, said.join(", ")),
    };
    let mut block = SheetBlock::new(Role::Figure(described));
    block.marks = marks
        .into_iter()
        .map(|mark| mark.moved(space, 0.0, -high * space))
        .collect();
    let y = (low - high + 0.6) * space + ABOVE * size;
    for (index, (_, tube)) in notes.iter().enumerate() {
        let text = tube.to_string();
        let middle = (3.6 + NOTE * (index as f64 + 0.5)) * space;
        let x = middle - Face::Regular.width(&text, size) / 2.0;
        block.marks.push(DrawnMark::text(
            DrawnKind::Fingering,
            (x, y),
            Face::Regular,
            size,
            text,
        ));
    }
    block.height = y + 2.0;
    if instrument.has_slide() {
        let top = block.height + 1.0;
        for (index, (_, tube)) in notes.iter().enumerate() {
            let middle = 3.6 + NOTE * (index as f64 + 0.5);
            let drawn = slide::drawn(instrument, *tube, middle);
            let drawn = drawn.into_iter().map(|mark| mark.moved(space, 0.0, top));
            block.marks.extend(drawn);
        }
        block.height = top + slide::HEIGHT * space;
    }
    block
}
