//! Holds a routine against the piece that it was made from: the routine is exported and read again, and every note of
//! it must be the one in the file, or something must be said of its bar.

use super::course::{self, PlayedMeasure};
use super::losses::Losses;
use super::sections::Section;
use super::symbols::Walker;
use super::timing::Timed;
use super::tune::{Tune, TuneEvent, TuneEventKind};
use crate::exchange::musicxml::{self, FingeredNotes};
use crate::exchange::piece::ImportedPiece;
use crate::music::Whole;
use crate::routine;
use crate::score::{Take, unroll};
use num_traits::Zero;

/// The most notes that are compared: an export of more would take more memory than a file may.
const MOST: usize = 5_000;

/// Whether the notes of a routine are those of its piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Compared {
    /// All of them, but for what is listed.
    Same,
    /// There are too many to be compared, or some are not there.
    NotAsked,
}

/// Compares the routine `text` with what a piece sounds like, and lists what differs in a bar of which nothing has been
/// said.
pub(super) fn compare(
    piece: &ImportedPiece,
    places: &[PlayedMeasure],
    sections: &[Section],
    timings: &[Timed],
    text: &str,
    losses: &mut Losses,
) -> Compared {
    let wanted = notes(piece, places);
    if wanted.len() > MOST {
        return Compared::NotAsked;
    }
    let Some(found) = again(text) else {
        return Compared::NotAsked;
    };
    let measure = |note: &TuneEvent| Some(places[note.measure].measure);
    if found.len() != wanted.len() {
        // Which of them are missing cannot be told from their number.
        if found.len() + losses.notes_left_out() != wanted.len() {
            let (of, are) = (wanted.len(), found.len());
            losses.lose(None, format!("of {of} notes {are} are in the routine"));
        }
        return Compared::NotAsked;
    }
    let mut section_of = vec![0; places.len()];
    for (index, section) in sections.iter().enumerate() {
        section_of[section.places.clone()].fill(index);
    }
    let by = interval(&wanted, &found);
    let mut before: Option<(&TuneEvent, &TuneEvent)> = None;
    for (want, have) in wanted.iter().zip(&found) {
        let line = section_of[want.measure];
        // All of a line may be written longer.
        let factor = Whole::from_integer(timings[line].factor);
        let within = before.filter(|(w, _)| section_of[w.measure] == line);
        let gap = within.map(|(w, h)| (want.start() - w.start(), have.start() - h.start()));
        let mut told = losses.any_of(measure(want));
        let differs = if !same_kind(want, have, by) {
            Some("a note has another pitch here than in the file")
        } else if length(have) != length(want) * factor {
            Some("a note has another length here than in the file")
        } else if gap.is_some_and(|(w, h)| h != w * factor) {
            // It may be the one before that was moved.
            told |= within.is_some_and(|(w, _)| losses.any_of(measure(w)));
            Some("a note begins at another moment here than in the file")
        } else if !same_signs(want, have) {
            Some("a slur or a sign at a note is not the same here as in the file")
        } else {
            None
        };
        if let Some(what) = differs
            && !told
        {
            losses.lose(measure(want), what);
        }
        before = Some((want, have));
    }
    Compared::Same
}

/// The notes of a routine, exported and read again.
fn again(text: &str) -> Option<Vec<TuneEvent>> {
    let routine = routine::read(text).ok()?;
    let score = unroll(&routine, &Take::default()).ok()?;
    let passes = score.lines.iter().flat_map(|line| &line.passes);
    if passes.map(|pass| pass.notes.len()).sum::<usize>() > MOST {
        return None;
    }
    let file = musicxml::write(&score, FingeredNotes::Unusual);
    let piece = musicxml::read(&file, None).ok()?;
    let places = course::of(&piece, &mut Losses::default()).ok()?;
    Some(notes(&piece, &places))
}

/// Every note in the order in which it is played; its measure is its place in the course.
fn notes(piece: &ImportedPiece, places: &[PlayedMeasure]) -> Vec<TuneEvent> {
    let measures: Vec<usize> = places.iter().map(|played| played.measure).collect();
    let mut walker = Walker::of(piece, &measures, false);
    let mut tune = Tune::default();
    let mut now = Whole::zero();
    for (place, measure) in measures.into_iter().enumerate() {
        let of = &piece.measures[measure];
        for symbol in &of.symbols {
            let at = now + symbol.at;
            let losses = &mut Losses::default();
            walker.symbol(symbol, at, symbol.length, place, &mut tune, losses);
        }
        now += of.length;
    }
    tune.events.retain(|event| !event.is_rest());
    tune.events
}

fn length(note: &TuneEvent) -> Whole {
    note.end() - note.start()
}

/// The half steps that most notes are moved by.
fn interval(wanted: &[TuneEvent], found: &[TuneEvent]) -> i32 {
    let pairs = wanted.iter().zip(found);
    let mut moves: Vec<i32> = pairs
        .filter_map(|(a, b)| Some(b.pitch()?.number() - a.pitch()?.number()))
        .collect();
    moves.sort_unstable();
    moves.get(moves.len() / 2).copied().unwrap_or(0)
}

fn same_kind(want: &TuneEvent, have: &TuneEvent, by: i32) -> bool {
    match (want.kind, have.kind) {
        (TuneEventKind::Note(a), TuneEventKind::Note(b)) => b.number() - a.number() == by,
        (a, b) => a == b,
    }
}

fn same_signs(want: &TuneEvent, have: &TuneEvent) -> bool {
    // A note that is joined does not start by itself: how it would is not written.
    let starts = want.joined || want.attack == have.attack;
    want.joined == have.joined
        && want.style == have.style
        && starts
        && want.bend == have.bend
        && want.breath == have.breath
}
