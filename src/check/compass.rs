//! Passes that leave the instrument's compass. A score leaves them out, so this checks the routine itself.

use super::{Finding, Severity};
use crate::brass::Instrument;
use crate::music::WrittenPitch;
use crate::routine::{EventKind, Line, Routine, Walk};
use crate::score;
use crate::words::{Language, key};

/// Finds passes that leave the instrument's compass as the routine is written, independent of the take's key.
/// If a key moves a pass out of the compass, the score has a notice about it.
pub fn check(routine: &Routine) -> Vec<Finding> {
    let lines = routine.lines.iter().enumerate();
    lines
        .flat_map(|(index, line)| of_line(routine, index, line))
        .collect()
}

/// By how many half steps each pass of a line is moved, and how that is said.
fn steps(line: &Line, instrument: &Instrument) -> Vec<(i32, String)> {
    let by = |n: i32| (n, key::moved(Language::En, n));
    match &line.walk {
        Walk::HalfSteps(walk) => walk.iter().map(|&n| by(n)).collect(),
        Walk::Tubes(tubes) => {
            let lower = |v| -instrument.tube_half_steps(v);
            let with = |v| instrument.with(Language::En, v);
            tubes.iter().map(|&v| (lower(v), with(v))).collect()
        }
    }
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
    for (at, (moved, pass)) in steps(line, instrument).into_iter().enumerate() {
        let Some(outside) = outside(instrument, &pitches, moved) else {
            continue;
        };
        let note = score::spelling(routine, line, moved).pitch(outside);
        let what = where_(instrument, outside.moved(moved));
        let span = line.walk_spans.get(at).copied().unwrap_or(line.notes_span);
        let message = format!(
            "“{}”: the pass {pass} goes to {note}, {what} the {}",
            line.name, instrument.name
        );
        let hint = match line.walk {
            Walk::HalfSteps(_) => {
                let room = key::moved(Language::En, room(instrument, &pitches, moved.signum()));
                format!("this line can go no further than {room}")
            }
            Walk::Tubes(_) => "leave this tube out, or write higher notes in `open`".to_owned(),
        };
        findings.push(
            Finding::of_line(Severity::Error, "off-compass", index, span, message).hint(hint),
        );
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
fn where_(instrument: &Instrument, pitch: WrittenPitch) -> String {
    let (lowest, highest) = (instrument.lowest, instrument.highest);
    if pitch.number() > highest.number() {
        return format!("above {highest}, the highest note here for");
    }
    match instrument.pedal_tones() {
        Some((open, _)) if pitch.number() > open.number() => {
            format!("between {open}, a pedal tone, and {lowest}, the lowest other note of")
        }
        Some((_, last)) => format!("below {last}, the lowest pedal tone of"),
        None => format!("below {lowest}, the lowest note of"),
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
