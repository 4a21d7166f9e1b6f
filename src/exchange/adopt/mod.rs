//! Turns a piece into a routine.
//!
//! `course` writes out repeats (`repeats`, `brackets`), `sections` finds where lines begin, `tune_reader` makes a `tune` of
//! each, `carried` joins ties over a change of meter, `pitches` moves it to the instrument, with its key (`keys`), `timing`
//! converts it to note values (`lengths`) and finds meter and
//! tempo, `heading` makes the head. `lines` makes the lines: `loudness` finds the dynamic that each wedge leads
//! to, `patterns` finds lines that repeat one pattern, `rests` finds the rests; `language` and `toml` write the
//! text. `losses` collects what cannot be kept; `heard` compares the routine with the piece, so that nothing is lost in
//! silence.

mod brackets;
mod carried;
mod course;
mod guesses;
mod heading;
mod heard;
mod keys;
mod language;
mod lengths;
mod lines;
mod losses;
mod loudness;
mod maker;
mod patterns;
mod pitches;
mod repeats;
mod rests;
mod sections;
mod symbols;
mod timing;
mod toml;
mod tune;
mod tune_reader;

use super::piece::ImportedPiece;
use crate::exchange::clefs;
use crate::music::Clef;
use crate::problem::Problem;
use crate::routine::bounds::LARGEST_FILE;
use course::PlayedMeasure;
use heard::Compared;
use keys::Keys;
use losses::Losses;
use maker::Maker;
use sections::Section;
use timing::Timed;
use tune::{Tune, TuneEventKind};

pub use maker::AdoptOptions;

/// An adopted routine.
#[derive(Clone, Debug)]
pub struct Adopted {
    /// The text of its file.
    pub text: String,
    /// How many lines it has.
    pub lines: usize,
    /// True if every note of it was compared with the piece.
    pub compared: bool,
    /// What was assumed or changed, in sentences.
    pub said: Vec<String>,
    /// What could not be kept, in sentences, line by line.
    pub losses: Vec<String>,
}

/// Turns a piece into a routine.
///
/// # Errors
/// If it has no notes, or more than a routine may hold.
pub fn adopt(piece: &ImportedPiece, choice: &AdoptOptions) -> Result<Adopted, Problem> {
    let mut losses = Losses::default();
    let kept = choice.instrument.clef == Clef::Bass;
    let told = piece.losses.iter();
    let told = told.filter(|loss| !(kept && loss.what == clefs::BASS));
    losses.take(told.cloned());
    let course = course::of(piece, &mut losses)?;
    if course.iter().all(|p| p.silent) {
        return Err(Problem::error("there is no note in it"));
    }
    let mut sections = sections::of(piece, &course, &mut losses)?;
    let mut keys = Keys::of(piece);
    let mut tunes = tunes(piece, &course, &keys, &mut sections, &mut losses);
    let mut said: Vec<String> = piece.limits.map(str::to_owned).into_iter().collect();
    said.extend(pitches::set(
        &mut tunes,
        &mut keys,
        piece,
        choice,
        &mut losses,
    ));
    let maker = Maker {
        piece,
        course: &course,
        sections: &sections,
        keys: &keys,
        choice,
    };
    let timings: Vec<Timed> = sections
        .iter()
        .zip(&mut tunes)
        .map(|(section, tune)| maker.timed(section, tune, &mut losses))
        .collect();
    if tunes
        .iter()
        .any(|t| t.events.iter().all(tune::TuneEvent::is_rest))
    {
        return Err(Problem::error(
            "some of its lines hold only notes too short to be written",
        ));
    }
    let names = maker.names();
    let head = maker.head(&tunes, &timings, &mut said);
    let lines = maker.lines(tunes, &timings, &names, &head, &mut losses, &mut said);
    let mut line_of = vec![None; piece.measures.len()];
    for (line, section) in sections.iter().enumerate().rev() {
        for played in &course[section.places.clone()] {
            line_of[played.measure] = Some(line);
        }
    }
    let line_of = |measure: usize| line_of.get(measure).copied().flatten();
    let text = toml::text(&head, &lines);
    if text.len() > LARGEST_FILE {
        let most = LARGEST_FILE >> 20;
        return Err(Problem::error(format!(
            "as a routine it would be larger than {most} MiB, and a routine may not be"
        ))
        .hint("export a part of it"));
    }
    let compared = heard::compare(piece, &course, &sections, &timings, &text, &mut losses);
    Ok(Adopted {
        text,
        lines: lines.len(),
        compared: compared == Compared::Same,
        said,
        losses: losses.told(&piece.measures, &names, line_of),
    })
}

/// The tune of each section.
fn tunes(
    piece: &ImportedPiece,
    course: &[PlayedMeasure],
    keys: &Keys,
    sections: &mut Vec<Section>,
    losses: &mut Losses,
) -> Vec<Tune> {
    let mut tunes: Vec<Tune> = sections
        .iter()
        .map(|section| {
            let places = &course[section.places.clone()];
            let first = places.iter().find(|p| !p.silent).unwrap_or(&places[0]);
            let mut tune = tune_reader::of(piece, places, first.meter, section.tied, losses);
            tune.key = keys.at(first.measure);
            tune
        })
        .collect();
    carried::over(course, &mut tunes, sections, losses);
    for tune in &mut tunes {
        without_breathing(tune, losses);
    }
    tunes
}

/// Breathing is a line of its own: among notes it becomes silence.
fn without_breathing(tune: &mut Tune, losses: &mut Losses) {
    if !tune
        .events
        .iter()
        .any(|e| matches!(e.kind, TuneEventKind::Note(_)))
    {
        tune.changes.clear();
        return;
    }
    for event in &mut tune.events {
        if matches!(
            event.kind,
            TuneEventKind::In | TuneEventKind::Out | TuneEventKind::Hold
        ) {
            event.kind = TuneEventKind::Rest;
            losses.lose_note(event.measure, "breathing among notes is a rest");
        }
    }
}
