//! Finds where the lines of the routine begin: at rehearsal marks, double bars and repeats; without these at
//! systems; in a MIDI file at markers, or after long rests.

use super::course::PlayedMeasure;
use super::losses::Losses;
use crate::exchange::piece::{ImportedPiece, MarkKind};
use crate::problem::Problem;
use crate::routine::bounds::MOST_LINES;
use std::ops::Range;

/// Bars of rest that separate two lines if nothing else does.
const LONG_REST: usize = 2;

/// A stretch of the course that becomes a line.
#[derive(Clone, Debug)]
pub(super) struct Section {
    /// Indices into the course.
    pub places: Range<usize>,
    /// Its name in the file.
    pub name: Option<String>,
    /// True if the music continues from the previous line: only its meter or its tempo changes.
    pub goes_on: bool,
    /// True if a tie leads over that change.
    pub tied: bool,
}

/// Divides a course into lines.
pub(super) fn of(
    piece: &ImportedPiece,
    course: &[PlayedMeasure],
    losses: &mut Losses,
) -> Result<Vec<Section>, Problem> {
    let held = held_over(piece, course);
    let wanted = wanted(piece, course);
    let mut starts: Vec<(usize, bool)> = vec![];
    // The last bar of the line so far that is not silent.
    let mut before: Option<&PlayedMeasure> = None;
    for (place, here) in course.iter().enumerate() {
        let begins = wanted[place] && !held[place];
        let must = !begins && before.is_some_and(|before| changes(before, here));
        if place == 0 || begins || must {
            starts.push((place, must));
            before = None;
        }
        if !here.silent {
            before = Some(here);
        }
    }
    let ends = starts.iter().skip(1).map(|(place, _)| *place);
    let ends: Vec<usize> = ends.chain([course.len()]).collect();
    let mut sections: Vec<Section> = vec![];
    for ((start, goes_on), end) in starts.into_iter().zip(ends) {
        let silent = course[start..end].iter().all(|p| p.silent);
        let name = name(piece, &course[start..end], losses);
        match sections.last_mut() {
            // Bars of rest alone are the rest of the previous line.
            Some(before) if silent => before.places.end = end,
            _ => sections.push(Section {
                places: start..end,
                name,
                goes_on,
                tied: goes_on && tied_over(piece, course, start),
            }),
        }
    }
    // Rests before the first note become part of the first line: there is a count-in.
    if sections.len() > 1 && course[sections[0].places.clone()].iter().all(|p| p.silent) {
        let first = sections.remove(0);
        sections[0].places.start = first.places.start;
    }
    if sections.len() > MOST_LINES {
        return Err(Problem::error(format!(
            "it comes to {} lines, and a routine has at most {MOST_LINES}",
            sections.len()
        ))
        .hint("export a part of it, or put double bars where its exercises end"));
    }
    Ok(sections)
}

/// True if a line that has come to `before` must end, because a line has one meter and one tempo. A tempo over
/// rests alone does not count.
fn changes(before: &PlayedMeasure, here: &PlayedMeasure) -> bool {
    !here.silent && (here.meter != before.meter || here.tempo != before.tempo)
}

/// True if the first note at a place is the end of one that is tied to it.
fn tied_over(piece: &ImportedPiece, course: &[PlayedMeasure], place: usize) -> bool {
    let symbols = |place: usize| &piece.measures[course[place].measure].symbols;
    let before = place.checked_sub(1).and_then(|place| symbols(place).last());
    before.is_some_and(|before| before.tied_on)
        && symbols(place).first().is_some_and(|first| first.tied_from)
}

/// Where the file marks a beginning.
fn wanted(piece: &ImportedPiece, course: &[PlayedMeasure]) -> Vec<bool> {
    let measure = |place: usize| &piece.measures[course[place].measure];
    let has_name = |place: usize| {
        let mut marks = measure(place).marks.iter();
        marks.any(|m| matches!(m.kind, MarkKind::Name(_)))
    };
    let double = |place: usize| {
        place > 0
            && !course[place].again
            && (course[place].after_repeat
                || measure(place).double_before
                || measure(place - 1).double_after)
    };
    let all = 0..course.len();
    let marked: Vec<bool> = all.clone().map(|p| has_name(p) || double(p)).collect();
    if marked.iter().skip(1).any(|m| *m) {
        return marked;
    }
    if piece.rests_by_clock {
        let long = |place: usize| {
            let silent = course[..place].iter().rev().take_while(|p| p.silent);
            !course[place].silent && silent.count() >= LONG_REST
        };
        return all.map(long).collect();
    }
    all.map(|place| measure(place).new_system).collect()
}

/// Measures that a tie or a slur enters from the previous one.
fn held_over(piece: &ImportedPiece, course: &[PlayedMeasure]) -> Vec<bool> {
    let mut held = vec![false; course.len()];
    let mut open: Vec<(u8, usize)> = vec![];
    let mut tied = false;
    for (place, played) in course.iter().enumerate() {
        for (index, symbol) in piece.measures[played.measure].symbols.iter().enumerate() {
            if index == 0 && tied && symbol.tied_from {
                held[place] = true;
            }
            for number in &symbol.slurs_end {
                let Some(found) = open.iter().rposition(|(n, _)| n == number) else {
                    continue;
                };
                let (_, from) = open.remove(found);
                // A slur that is never closed would join everything.
                const LONGEST: usize = 16;
                if place - from <= LONGEST {
                    held[from + 1..=place].fill(true);
                }
            }
            for number in &symbol.slurs_begin {
                open.retain(|(n, _)| n != number);
                open.push((*number, place));
            }
            tied = symbol.tied_on;
        }
    }
    held
}

/// The name over the first bars of a section.
fn name(piece: &ImportedPiece, section: &[PlayedMeasure], losses: &mut Losses) -> Option<String> {
    let mut names = section.iter().flat_map(|played| {
        let marks = piece.measures[played.measure].marks.iter();
        marks.filter_map(move |mark| match &mark.kind {
            MarkKind::Name(name) => Some((played.measure, name)),
            _ => None,
        })
    });
    let (_, first) = names.next()?;
    for (measure, other) in names {
        if other != first {
            let what = format!("the mark “{other}” begins no line, for a slur or tie goes over it");
            losses.lose(Some(measure), what);
        }
    }
    Some(first.clone())
}
