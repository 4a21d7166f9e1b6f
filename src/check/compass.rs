//! Passes that leave the instrument's compass. A score leaves them out, so this checks the routine itself.

use super::{Finding, Severity};
use crate::brass::Instrument;
use crate::music::WrittenPitch;
use crate::routine::{EventKind, Line, Routine, Walk};
use crate::score;
use crate::words::{Words, key, tell};

/// Finds passes that leave the instrument's compass as the routine is written, independent of the take's key.
/// If a key moves a pass out of the compass, the score has a notice about it.
pub fn check(routine: &Routine) -> Vec<Finding> {
    let lines = routine.lines.iter().enumerate();
    lines
        .flat_map(|(index, line)| of_line(routine, index, line))
        .collect()
}

/// By how many half steps each pass of a line is moved, and how that is said.
fn steps(line: &Line, instrument: &Instrument) -> Vec<(i32, Words)> {
    let by = |n: i32| (n, moved(n));
    match &line.walk {
        Walk::HalfSteps(walk) => walk.iter().map(|&n| by(n)).collect(),
        Walk::Tubes(tubes) => {
            let lower = |v| -instrument.tube_half_steps(v);
            let with = |v| instrument.with_tube(v);
            tubes.iter().map(|&v| (lower(v), with(v))).collect()
        }
    }
}

fn moved(half_steps: i32) -> Words {
    Words::of(|language| key::moved(language, half_steps))
}

fn of_line(routine: &Routine, index: usize, line: &Line) -> Vec<Finding> {
    let instrument: &Instrument = routine.instrument;
    let pitches: Vec<WrittenPitch> = line
        .melody
        .events
        .iter()
        .filter_map(|e| match e.kind {
            EventKind::Note(pitch) => Some(pitch),
            _ => None,
        })
        .collect();
    let mut findings = vec![];
    for (at, (by, pass)) in steps(line, instrument).into_iter().enumerate() {
        let Some(outside) = outside(instrument, &pitches, by) else {
            continue;
        };
        let note = score::spelling(routine, line, by).pitch(outside);
        let span = line.walk_spans.get(at).copied().unwrap_or(line.notes_span);
        let goes = tell::pass_goes_to(
            &line.name,
            pass,
            note,
            where_(instrument, outside.moved(by)),
        );
        let hint = match line.walk {
            Walk::HalfSteps(_) => tell::no_further(moved(room(instrument, &pitches, by.signum()))),
            Walk::Tubes(_) => tell::leave_tube_out(),
        };
        findings
            .push(Finding::of_line(Severity::Error, "off-compass", index, span, goes).hint(hint));
    }
    findings
}

/// The note of a pass that the instrument has not: the lowest one, or the highest if all of them lie above.
fn outside(instrument: &Instrument, pitches: &[WrittenPitch], moved: i32) -> Option<WrittenPitch> {
    let not_there = |pitch: &&WrittenPitch| !instrument.can_reach(pitch.moved(moved));
    let all = || pitches.iter().filter(not_there);
    let lowest = all().min_by_key(|pitch| pitch.number())?;
    if lowest.number() + moved < instrument.lowest.number() {
        return Some(*lowest);
    }
    all().max_by_key(|pitch| pitch.number()).copied()
}

/// On which side of the notes of the instrument a pitch lies.
fn where_(instrument: &Instrument, pitch: WrittenPitch) -> Words {
    let (lowest, highest) = (instrument.lowest, instrument.highest);
    let horn = instrument.named_in_words();
    if pitch.number() > highest.number() {
        return tell::above_the_highest(highest, horn);
    }
    match instrument.pedal_tones() {
        Some((open, _)) if pitch.number() > open.number() => {
            tell::between_pedal_and_lowest(open, lowest, horn)
        }
        Some((_, last)) => tell::below_the_last_pedal(last, horn),
        None => tell::below_the_lowest(lowest, horn),
    }
}

/// How far the line can be moved in a direction, in half steps: as far as the instrument has all its notes on the way.
fn room(instrument: &Instrument, pitches: &[WrittenPitch], direction: i32) -> i32 {
    let mut room = 0;
    while direction != 0 && outside(instrument, pitches, room + direction).is_none() {
        room += direction;
    }
    room
}
