//! One mark × one line → the line as it is played.

use super::bounds::{FASTER, LONGER, SHORTER, SLOWER};
use super::mark::{Change, RestChange, Stop, TempoChange};
use super::notes::{self, unfit};
use crate::brass::{Instrument, Tube};
use crate::music::{Decimal, Tempo};
use crate::problem::Problem;
use crate::routine::notes::Phrase;
use crate::routine::resolve::{PhraseContext, resolve};
use crate::routine::{Line, On, RestLength, Routine, Walk};
use crate::words::{Words, figures, list, tell};
use num_rational::Ratio;

/// The factor for a tempo.
pub(super) fn factor(change: TempoChange, base: Tempo) -> Ratio<i128> {
    let part = |percent: Decimal| percent.ratio() / Ratio::from_integer(100);
    match change {
        TempoChange::Slower => part(Decimal::from_integer(SLOWER)),
        TempoChange::Faster => part(Decimal::from_integer(FASTER)),
        TempoChange::Percent(percent) => part(percent),
        TempoChange::Clicks(clicks) => clicks.ratio() / base.clicks_a_minute(),
    }
}

pub(super) fn scaled(
    base: Tempo,
    factor: Ratio<i128>,
    whose: impl Into<Words>,
) -> Result<Tempo, Problem> {
    base.scaled(factor).map_err(|out| {
        let clicks = libm::round(out.0 * 10.0) / 10.0;
        unfit(
            tell::would_come_to_clicks(whose.into(), figures(clicks.to_string())),
            tell::tempos_from_to(crate::music::tempo::SLOWEST, crate::music::tempo::FASTEST),
        )
    })
}

/// Applies one mark to a line. `written` is the line as the teacher wrote it.
pub(super) fn apply(
    line: &mut Line,
    change: &Change,
    written: &Line,
    routine: &Routine,
) -> Result<(), Problem> {
    match change {
        Change::Tempo(change) => {
            let tempos = written.tempos_in(routine);
            // Of several tempos the first is what the mark is about; the others move with it.
            let factor = factor(*change, tempos[0]);
            let scaled = tempos
                .iter()
                .map(|tempo| scaled(*tempo, factor, tell::the_line_itself()));
            line.tempos = scaled.collect::<Result<_, _>>()?;
        }
        Change::Rest(change) => rest(
            &mut line.rest,
            &mut line.rest_part,
            *change,
            tell::no_rest_after_it(),
        )?,
        Change::Between(change) => between(line, *change)?,
        Change::BreathAfter(number) => {
            needs_notes(line, tell::all_breath())?;
            let phrase = notes::breath_after(line, *number)?;
            play(line, phrase, routine)?;
        }
        Change::Articulation(articulations) => {
            needs_notes(line, tell::air_not_articulated())?;
            line.articulations.clone_from(articulations);
        }
        Change::Bend(number) => bend(line, *number, routine)?,
        Change::Finger(number) => {
            let phrase = notes::fingered(line, *number)?;
            play(line, phrase, routine)?;
        }
        Change::Times(times) => line.times = *times,
        // `lay` removes the line once it knows all marks.
        Change::LeaveOut => {}
        Change::Louder(up) => {
            needs_notes(line, tell::air_no_dynamics())?;
            let phrase = notes::louder(line, *up)?;
            play(line, phrase, routine)?;
        }
        Change::Drone(drone) => {
            needs_notes(line, tell::air_no_drone())?;
            line.drone = *drone;
        }
        Change::Guide(guide) => line.guide = Some(*guide),
        Change::StopAfter(stop) => stop_after(line, *stop)?,
        Change::HalfSteps(moves) => half_steps(line, moves)?,
        Change::Tubes(names) => tubes(line, names, routine.instrument)?,
        Change::Words(words) => line.words = Some(words.clone()),
    }
    Ok(())
}

fn between(line: &mut Line, change: RestChange) -> Result<(), Problem> {
    if passes(line) < 2 {
        return Err(unfit(tell::played_once(), tell::mark_rest_after()));
    }
    rest(
        &mut line.between,
        &mut line.between_part,
        change,
        tell::no_rest_between_passes(),
    )
}

fn bend(line: &mut Line, number: Option<usize>, routine: &Routine) -> Result<(), Problem> {
    if line.on != On::Horn {
        return Err(unfit(tell::not_on_the_horn(), tell::mark_horn_line()));
    }
    let phrase = notes::bent(line, number)?;
    play(line, phrase, routine)
}

fn passes(line: &Line) -> usize {
    let places = match &line.walk {
        Walk::HalfSteps(moves) => moves.len(),
        Walk::Tubes(tubes) => tubes.len(),
    };
    places * line.times as usize * line.articulations.len()
}

fn needs_notes(line: &Line, why: Words) -> Result<(), Problem> {
    if !line.on.has_pitches() {
        return Err(unfit(why, tell::mark_line_with_notes()));
    }
    Ok(())
}

fn rest(
    length: &mut RestLength,
    part: &mut Decimal,
    change: RestChange,
    none: Words,
) -> Result<(), Problem> {
    let percent = match change {
        RestChange::To(to) => {
            *length = to;
            *part = RestLength::WHOLE;
            return Ok(());
        }
        RestChange::Longer => Decimal::from_integer(LONGER),
        RestChange::Shorter => Decimal::from_integer(SHORTER),
        RestChange::Percent(percent) => percent,
    };
    if !length.is_some() {
        return Err(unfit(none, tell::say_how_long()));
    }
    *part = percent;
    Ok(())
}

/// Replaces the notes of a line and resolves them.
fn play(line: &mut Line, phrase: Phrase, routine: &Routine) -> Result<(), Problem> {
    let setting = PhraseContext {
        instrument: routine.instrument,
        on: line.on,
        meter: line.meter_in(routine),
        on_tubes: matches!(line.walk, Walk::Tubes(_)),
        complete: true,
    };
    let mut faults = Vec::new();
    let melody = resolve(&phrase, setting, line.notes_span, &mut faults);
    if let Some(fault) = faults.into_iter().next() {
        return Err(unfit(
            tell::fault_in_its_notes(&fault.message),
            fault.hint.unwrap_or_else(tell::mark_another_note),
        ));
    }
    line.phrase = phrase;
    line.melody = melody;
    Ok(())
}

fn stop_after(line: &mut Line, stop: Stop) -> Result<(), Problem> {
    let (names, found): (Vec<String>, Option<usize>) = match &line.walk {
        Walk::HalfSteps(moves) => (
            moves.iter().map(ToString::to_string).collect(),
            match stop {
                Stop::HalfStep(n) => moves.iter().position(|m| *m == n),
                // A number without a sign may name a tube or half steps.
                Stop::Tube(tube) => {
                    let name = tube.to_string();
                    moves.iter().position(|m| m.to_string() == name)
                }
            },
        ),
        Walk::Tubes(tubes) => (
            tubes.iter().map(ToString::to_string).collect(),
            match stop {
                Stop::Tube(tube) => tubes.iter().position(|t| *t == tube),
                Stop::HalfStep(n) => tubes.iter().position(|t| t.to_string() == n.to_string()),
            },
        ),
    };
    let what = match &line.walk {
        Walk::HalfSteps(_) => "half-steps",
        Walk::Tubes(_) => "tubes",
    };
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let Some(at) = found else {
        return Err(unfit(
            tell::not_one_of_its(what),
            tell::they_are(Words::of(|l| list::and_in(l, &names))),
        ));
    };
    if at + 1 == names.len() {
        return Err(unfit(tell::stops_there(names[at]), tell::name_one_before()));
    }
    match &mut line.walk {
        Walk::HalfSteps(moves) => moves.truncate(at + 1),
        Walk::Tubes(tubes) => tubes.truncate(at + 1),
    }
    line.walk_spans.truncate(at + 1);
    Ok(())
}

fn half_steps(line: &mut Line, moves: &[i32]) -> Result<(), Problem> {
    let why = if matches!(line.walk, Walk::Tubes(_)) {
        Some((tell::goes_through_tubes(), tell::name_tubes()))
    } else if !line.on.has_pitches() {
        Some((tell::no_pitch_to_move(), tell::mark_line_with_notes()))
    } else if line.has_fingerings() {
        Some((tell::fingered_not_moved(), tell::mark_unfingered()))
    } else {
        None
    };
    if let Some((message, hint)) = why {
        return Err(unfit(message, hint));
    }
    walk(line, Walk::HalfSteps(moves.to_vec()), moves.len());
    Ok(())
}

fn tubes(line: &mut Line, tubes: &[Tube], instrument: &Instrument) -> Result<(), Problem> {
    if !matches!(line.walk, Walk::Tubes(_)) {
        return Err(unfit(tell::not_for_open_horn(), tell::move_by_half_steps()));
    }
    if let Some(tube) = tubes.iter().find(|tube| !instrument.has(**tube)) {
        let names: Vec<String> = instrument.lengths().map(|t| t.to_string()).collect();
        return Err(unfit(
            tell::has_no_such_tube(instrument.named_in_words(), tube.to_string()),
            tell::its_tubes_are(instrument.tube_word(), names.join(", ")),
        ));
    }
    walk(line, Walk::Tubes(tubes.to_vec()), tubes.len());
    Ok(())
}

/// Replaces the walk of a line. Findings about it keep the places of the one in the teacher's file.
fn walk(line: &mut Line, walk: Walk, length: usize) {
    let place = line.walk_spans.first().copied().unwrap_or(line.notes_span);
    line.walk = walk;
    line.walk_spans = vec![place; length];
}
