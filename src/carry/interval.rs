//! By which interval a routine or a line is carried.

use super::model::CarryRule;
use crate::brass::{Instrument, Level};
use crate::music::WrittenPitch;
use crate::music::transposed::WrittenInterval;
use crate::routine::{EventKind, Line, Routine, Walk};

/// How far octaves are tried.
const OCTAVES: std::ops::RangeInclusive<i32> = -3..=3;

/// The level of a routine; the first, if its top lies below every level.
fn level(instrument: &Instrument, top: WrittenPitch) -> Level {
    let level = Level::of_top(instrument, top).or_else(|| Level::all().next());
    level.expect("there are five levels")
}

/// The interval that keeps tubes and partials: from second partial to second partial. A horn is an octave longer than other
/// instruments of its register, and is played on partials twice as high; so of all octaves the one is taken in which the top of
/// the routine comes nearest to what is comfortable at its level, and higher than that counts twice.
pub fn of_partials(routine: &Routine, to: &Instrument) -> WrittenInterval {
    let from = routine.instrument;
    let level = level(from, routine.comfortable_top);
    let wanted = level.open_top(to).number();
    let plain = WrittenInterval::between(from.second_partial, to.second_partial);
    // Of two that are as near, the higher one: low partials of a horn are weak.
    let octaves = (-1..=1).rev().min_by_key(|octaves| {
        let by = plain.with_octaves(*octaves);
        let above = routine.comfortable_top.number() + by.half_steps - wanted;
        if above > 0 { 2 * above } else { -above }
    });
    plain.with_octaves(octaves.unwrap_or(0))
}

/// The interval that keeps sounding pitches, but for octaves.
fn of_concert(from: &Instrument, to: &Instrument) -> WrittenInterval {
    let (down, up) = (
        WrittenInterval::of_half_steps(from.transposition),
        WrittenInterval::of_half_steps(to.transposition),
    );
    WrittenInterval {
        steps: down.steps - up.steps,
        half_steps: down.half_steps - up.half_steps,
    }
}

/// The highest easy note, and the highest that the routine stretches to, on the other instrument.
pub fn tops(
    routine: &Routine,
    to: &Instrument,
    rule: CarryRule,
) -> (WrittenPitch, Option<WrittenPitch>) {
    let level = level(routine.instrument, routine.comfortable_top);
    let top = match rule {
        CarryRule::Concert => level.open_top(to),
        CarryRule::Partials => {
            let carried = routine.comfortable_top.transposed(of_partials(routine, to));
            let level = Level::of_top(to, carried).or_else(|| Level::all().next());
            level.map_or(carried, |level| level.open_top(to))
        }
    };
    let reach = routine.reach.map(|reach| match rule {
        CarryRule::Partials => reach.transposed(of_partials(routine, to)),
        CarryRule::Concert => {
            let more = WrittenInterval::between(routine.comfortable_top, reach);
            top.transposed(more)
        }
    });
    let highest = to.highest;
    let reach = reach.map(|reach| match reach.number() > highest.number() {
        true => highest,
        false => reach,
    });
    (top, reach.filter(|reach| reach.number() > top.number()))
}

/// The interval by which a line keeps its sounding pitches, in the highest octave in which the instrument reaches its lowest note
/// and the player its highest; `None` if there is none.
pub fn of_line_in_concert(
    routine: &Routine,
    line: &Line,
    to: &Instrument,
    (top, reach): (WrittenPitch, Option<WrittenPitch>),
) -> Option<WrittenInterval> {
    let plain = of_concert(routine.instrument, to);
    let notes = notes(routine, line);
    let Some(high) = notes.iter().map(|note| note.number()).max() else {
        return Some(plain);
    };
    let stretches = high > routine.comfortable_top.number();
    let highest = if stretches { reach.unwrap_or(top) } else { top };
    let fits = |by: &WrittenInterval| {
        let mut there = notes.iter().map(|note| note.moved(by.half_steps));
        there.all(|note| to.can_reach(note) && note.number() <= highest.number())
    };
    let octaves = OCTAVES.map(|octaves| plain.with_octaves(octaves));
    octaves.rev().find(fits)
}

/// The notes of all passes of a line, as written.
fn notes(routine: &Routine, line: &Line) -> Vec<WrittenPitch> {
    let moves: Vec<i32> = match &line.walk {
        Walk::HalfSteps(moves) => moves.clone(),
        Walk::Tubes(tubes) => tubes
            .iter()
            .map(|tube| -routine.instrument.tube_half_steps(*tube))
            .collect(),
    };
    let events = line.melody.events.iter();
    let pitches = events.filter_map(|event| match event.kind {
        EventKind::Note(pitch) => Some(pitch),
        _ => None,
    });
    pitches
        .flat_map(|pitch| moves.iter().map(move |by| pitch.moved(*by)))
        .collect()
}
