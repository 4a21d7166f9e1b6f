//! Passes that leave the instrument's compass. A score leaves them out, so this checks the routine itself.

use super::{Finding, Severity};
use crate::brass::Instrument;
use crate::music::WrittenPitch;
use crate::routine::{EventKind, Line, Routine, Walk};
use crate::words::key;

/// Finds passes that leave the instrument's compass as the routine is written, independent of the take's key.
/// If a key moves a pass out of the compass, the score has a notice about it.
pub fn check(routine: &Routine) -> Vec<Finding> {
    let lines = routine.lines.iter().enumerate();
    lines
        .flat_map(|(index, line)| of_line(routine.instrument, index, line))
        .collect()
}

fn of_line(instrument: &Instrument, index: usize, line: &Line) -> Vec<Finding> {
    let pitches: Vec<i32> = line
        .melody
        .events
        .iter()
        .filter_map(|e| match e.kind {
            EventKind::Note(pitch) => Some(pitch.number()),
            _ => None,
        })
        .collect();
    let (Some(&low), Some(&high)) = (pitches.iter().min(), pitches.iter().max()) else {
        return vec![];
    };
    let steps: Vec<(i32, String)> = match &line.walk {
        Walk::HalfSteps(walk) => walk.iter().map(|&n| (n, key::moved(n))).collect(),
        Walk::Tubes(tubes) => tubes
            .iter()
            .map(|&v| (-instrument.tube_half_steps(v), format!("on {v}")))
            .collect(),
    };
    let (lowest, highest) = (instrument.lowest.number(), instrument.highest.number());
    let room_down = low - lowest;
    let room_up = highest - high;
    let mut findings = vec![];
    for (at, (moved, pass)) in steps.into_iter().enumerate() {
        let (note, what, room) = if low + moved < lowest {
            let what = format!("below {}, the lowest note of", instrument.lowest);
            (low + moved, what, key::moved(-room_down))
        } else if high + moved > highest {
            let what = format!("above {}, the highest note here for", instrument.highest);
            (high + moved, what, key::moved(room_up))
        } else {
            continue;
        };
        let note = WrittenPitch::from_number(note);
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
