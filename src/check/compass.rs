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
    for (at, (moved, pass)) in steps.into_iter().enumerate() {
        let (note, what, room) = if low + moved < lowest {
            let what = format!("below {}, the lowest note of", instrument.lowest);
            (lowest_note, what, key::moved(Language::En, -room_down))
        } else if high + moved > highest {
            let what = format!("above {}, the highest note here for", instrument.highest);
            (highest_note, what, key::moved(Language::En, room_up))
        } else {
            continue;
        };
        let note = score::spelling(routine, line, moved).pitch(note);
        let span = line.walk_spans.get(at).copied().unwrap_or(line.notes_span);
        let message = format!(
            "“{}”: the pass {pass} goes to {note}, {what} the {}",
            line.name, instrument.name
        );
        let hint = match line.walk {
            Walk::HalfSteps(_) => format!("this line can go no further than {room}"),
            Walk::Tubes(_) => "leave this tube out, or write higher notes in `open`".to_owned(),
        };
        findings.push(
            Finding::of_line(Severity::Error, "off-compass", index, span, message).hint(hint),
        );
    }
    findings
}
