//! The built-in routines as a page offers them: listed for an instrument, chosen for a player, and taken from the shelf.

use super::judged;
use super::request::{ChooseRequest, ShelfRequest, TakeDownRequest};
use crate::brass::{AgeBand, INSTRUMENTS, Instrument};
use crate::carry::{CarryRule, carry};
use crate::engine::answer::{In, ProblemAnswer};
use crate::music::{NoteNames, WrittenPitch, pitch::Letter};
use crate::presets::choose::{self, OtherRoutine, Player};
use crate::presets::facts::{Facts, for_instrument};
use crate::presets::{is_starter, named};
use serde::Serialize;

/// How far below its second partial the notes lie that a player is asked for, in half steps.
const BELOW: i32 = 5;

/// What is on the shelf.
#[derive(Debug, Serialize)]
pub struct Shelf {
    ok: bool,
    instruments: Vec<&'static str>,
    routines: Vec<Row>,
    /// The natural notes that a player may be asked for, lowest first.
    scale: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Row {
    name: &'static str,
    title: String,
    purpose: Option<String>,
    /// 0 before level 1.
    level: u8,
    seconds: f64,
    lines: usize,
    age: Option<&'static str>,
}

/// The routine to start with.
#[derive(Debug, Serialize)]
pub struct Chosen {
    ok: bool,
    note: String,
    routine: &'static str,
    title: String,
    why: String,
    next: Option<Other>,
    easier: Option<Other>,
    ask: Option<String>,
    steps: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Other {
    routine: &'static str,
    when: String,
}

/// The text of a routine.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct TakenDown {
    ok: bool,
    text: String,
    /// Why lines are left out on this instrument.
    left_out: Vec<String>,
}

/// The routines for an instrument.
pub fn shelf(request: &ShelfRequest) -> Result<Shelf, Vec<ProblemAnswer>> {
    let instrument = instrument(request.instrument.as_deref())?;
    let row = |facts: &Facts| Row {
        name: facts.preset.name,
        title: facts.routine.title.clone(),
        purpose: facts.routine.purpose.clone(),
        level: match is_starter(&facts.preset) {
            true => 0,
            false => facts.level().number(),
        },
        seconds: facts.seconds,
        lines: facts.routine.lines.len(),
        age: facts.routine.age.map(AgeBand::word),
    };
    Ok(Shelf {
        ok: true,
        instruments: INSTRUMENTS.iter().map(|one| one.name).collect(),
        routines: for_instrument(instrument).iter().map(row).collect(),
        scale: scale(instrument),
    })
}

/// The routine that suits a player.
pub fn choose(request: &ChooseRequest) -> Result<Chosen, Vec<ProblemAnswer>> {
    let player = Player {
        highest: pitch(&request.highest)?,
        lowest: request.lowest.as_deref().map(pitch).transpose()?,
        age: request.age.as_deref().map(judged::age).transpose()?,
        names: NoteNames::English,
    };
    let choice = choose::choose(instrument(request.instrument.as_deref())?, player);
    let other = |one: OtherRoutine| Other {
        routine: one.routine,
        when: one.when.into(),
    };
    let title = named(choice.routine).and_then(|preset| crate::routine::read(preset.text).ok());
    Ok(Chosen {
        ok: true,
        note: choice.note.to_string(),
        routine: choice.routine,
        title: title.map_or_else(|| choice.routine.to_owned(), |routine| routine.title),
        why: choice.why.to_string(),
        next: choice.next.map(other),
        easier: choice.easier.map(other),
        ask: choice.ask.map(Into::into),
        steps: choice.one_note.map_or(vec![], |(steps, _)| {
            steps.into_iter().map(Into::into).collect()
        }),
    })
}

/// The text of a routine, for an instrument.
pub fn take_down(request: &TakeDownRequest) -> Result<TakenDown, Vec<ProblemAnswer>> {
    let preset = named(&request.name).ok_or_else(|| {
        let message = format!("there is no built-in routine called “{}”", request.name);
        Vec::from(ProblemAnswer::new(In::Request, message))
    })?;
    let to = instrument(request.instrument.as_deref())?;
    let carried = carry(preset.text, to, CarryRule::Partials).map_err(|_| {
        let message = format!(
            "{} has no line that the {} can play at its level",
            preset.name, to.name
        );
        Vec::from(ProblemAnswer::new(In::Request, message))
    })?;
    let told = |line: &crate::carry::LeftOutLine| {
        format!("{}. {}: {}", line.number, line.name, line.problem.message)
    };
    Ok(TakenDown {
        ok: true,
        text: carried.text,
        left_out: carried.left_out.iter().map(told).collect(),
    })
}

/// The instrument of that name; a trumpet where none is named.
pub fn instrument(name: Option<&str>) -> Result<&'static Instrument, Vec<ProblemAnswer>> {
    let name = name.unwrap_or(INSTRUMENTS[0].name);
    Instrument::named(name)
        .ok_or_else(|| ProblemAnswer::new(In::Request, format!("“{name}” is no instrument")).into())
}

fn pitch(text: &str) -> Result<WrittenPitch, Vec<ProblemAnswer>> {
    WrittenPitch::parse(text)
        .ok_or_else(|| ProblemAnswer::new(In::Request, format!("“{text}” is not a note")).into())
}

/// The natural notes from a little below the second partial to the highest.
fn scale(instrument: &Instrument) -> Vec<String> {
    use Letter::{A, B, C, D, E, F, G};
    let lowest = (instrument.second_partial.number() - BELOW).max(instrument.lowest.number());
    let all = (0..=8).flat_map(|octave| {
        [C, D, E, F, G, A, B].map(|letter| WrittenPitch::new(letter, 0, octave))
    });
    all.filter(|note| (lowest..=instrument.highest.number()).contains(&note.number()))
        .map(|note| note.to_string())
        .collect()
}
