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
    let by_number = |pitch: &&WrittenPitch| pitch.number();
    let ends = pitches
        .iter()
        .min_by_key(by_number)
        .zip(pitches.iter().max_by_key(by_number));
    let Some((&lowest_note, &highest_note)) = ends else {
        return vec![];
    };
    let (low, high) = (lowest_note.number(), highest_note.number());
    let steps = steps(line, instrument);
    let (lowest, highest) = (instrument.lowest.number(), instrument.highest.number());
    let room_down = low - lowest;
    let room_up = highest - high;
    let mut findings = vec![];
    for (at, (by, pass)) in steps.into_iter().enumerate() {
        let (note, below, room) = if low + by < lowest {
            (lowest_note, true, moved(-room_down))
        } else if high + by > highest {
            (highest_note, false, moved(room_up))
        } else {
            continue;
        };
        let note = score::spelling(routine, line, by).pitch(note);
        let span = line.walk_spans.get(at).copied().unwrap_or(line.notes_span);
        let horn = instrument.named_in_words();
        let message = if below {
            tell::pass_below(&line.name, pass, note, instrument.lowest, horn)
        } else {
            tell::pass_above(&line.name, pass, note, instrument.highest, horn)
        };
        let hint = match line.walk {
            Walk::HalfSteps(_) => tell::no_further(&room),
            Walk::Tubes(_) => tell::leave_tube_out(),
        };
        findings.push(
            Finding::of_line(Severity::Error, "off-compass", index, span, message).hint(hint),
        );
    }
    findings
}
