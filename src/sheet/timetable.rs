//! The timetable of a score in frames, for a page that follows it: lines, passes, turns and rests.
//!
//! Every frame but a line's `start` counts from the first frame of the line's own count-in.

use crate::brass::Instrument;
use crate::music::{Seconds, Whole};
use crate::routine::On;
use crate::score::{Pass, Placement, Score, ScoreLine};
use crate::timeline::frames::{nearest, nearest_big};
use crate::words::{Language, duration, say};
use num_traits::ToPrimitive;

/// A line that is played.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(any(feature = "cli", feature = "engine"), derive(serde::Serialize))]
#[cfg_attr(
    any(feature = "cli", feature = "engine"),
    serde(rename_all = "camelCase")
)]
pub struct TimetableLine {
    /// Index of the line in the teacher's routine.
    pub of: usize,
    /// Which of the line's tempos it is played at, from 0; not written for the first.
    #[cfg_attr(
        any(feature = "cli", feature = "engine"),
        serde(skip_serializing_if = "is_first")
    )]
    pub rung: usize,
    /// `horn`, `mouthpiece` or `air`.
    pub on: &'static str,
    /// Clicks a minute.
    pub tempo: String,
    /// Clicks in a bar.
    pub clicks_a_bar: u32,
    /// Frames from one click to the next: a fraction, so that no error adds up.
    pub click: f64,
    /// Frames of a whole note.
    pub whole_note: f64,
    /// From the start of the track to the line's count-in.
    pub start: u64,
    /// End of its count-in, where its first pass begins.
    pub count_in: u64,
    /// Its last bar line.
    pub bar_line: u64,
    /// Frames of the rest after it, with the next line's count-in; `None` after the last line.
    pub rest: Option<u64>,
    /// Its passes in order.
    pub passes: Vec<TimetablePass>,
}

#[cfg(any(feature = "cli", feature = "engine"))]
#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde passes a reference"
)]
fn is_first(rung: &usize) -> bool {
    *rung == 0
}

/// A line once.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(any(feature = "cli", feature = "engine"), derive(serde::Serialize))]
pub struct TimetablePass {
    /// Its first frame.
    pub start: u64,
    /// In echo, where the guide has ended and the player's turn begins.
    pub turn: Option<u64>,
    /// Its end, the player's turn included.
    pub end: u64,
    /// Its half step or tube, as drawings name it.
    pub place: String,
    /// Its name among the passes of its line, for a reader; empty if nothing distinguishes it.
    pub name: String,
}

/// The timetable of a score. `of` gives a line's index in the teacher's routine for its index in the score's.
pub fn timetable(
    score: &Score<'_>,
    sample_rate: u32,
    of: impl Fn(usize) -> usize,
) -> Vec<TimetableLine> {
    let lines = score.lines.iter();
    lines
        .map(|line| one_line(line, score, sample_rate, of(line.index)))
        .collect()
}

fn one_line(line: &ScoreLine, score: &Score<'_>, sample_rate: u32, of: usize) -> TimetableLine {
    let (language, instrument) = (score.routine.words_in, score.instrument());
    let at = |moment: Whole| nearest(line.seconds(line.count_in + moment), sample_rate);
    let frames = |length: Whole| frames(line.seconds(length), sample_rate);
    TimetableLine {
        of,
        rung: line.rung,
        on: match line.on {
            On::Horn => "horn",
            On::Mouthpiece => "mouthpiece",
            On::Air => "air",
            On::Rest => "rest",
        },
        tempo: line.tempo.to_string(),
        clicks_a_bar: line.meter.clicks_per_bar(),
        click: frames(line.meter.click()),
        whole_note: frames(Whole::from_integer(1)),
        start: nearest_big(&line.start, sample_rate),
        count_in: at(Whole::from_integer(0)),
        bar_line: at(line.length),
        rest: line.rest.map(|rest| nearest(rest.seconds, sample_rate)),
        passes: line
            .passes
            .iter()
            .map(|pass| TimetablePass {
                start: at(pass.start),
                turn: pass.turn.then(|| at(pass.start + pass.length)),
                end: at(pass.end()),
                place: place(language, pass, instrument),
                name: name(language, pass, line, instrument),
            })
            .collect(),
    }
}

/// A length in frames, not rounded.
fn frames(seconds: Seconds, sample_rate: u32) -> f64 {
    (seconds * Seconds::from_integer(i128::from(sample_rate)))
        .to_f64()
        .unwrap_or_default()
}

/// The half step or tube of a pass: "on 1-3", "2 half steps down", "as written".
pub fn place(language: Language, pass: &Pass, instrument: &Instrument) -> String {
    Placement {
        half_steps: pass.half_steps,
        tube: pass.tube,
        walk_index: pass.walk_index,
        ..Placement::default()
    }
    .in_words(language, instrument)
}

/// The name of a pass: its half step or tube if it is moved, and its articulation if the line has several.
fn name(language: Language, pass: &Pass, line: &ScoreLine, instrument: &Instrument) -> String {
    let mut parts = vec![];
    match pass.tube {
        Some(tube) if tube.is_open() => parts.push(say::open_horn(language).to_owned()),
        None if pass.half_steps == 0 => {}
        _ => parts.push(place(language, pass, instrument)),
    }
    let mut passes = line.passes.iter();
    if passes.any(|other| other.articulation != pass.articulation) {
        parts.push(pass.articulation.in_words(language));
    }
    parts.join(" · ")
}

/// How a line is played, how long it takes, and the rest after it.
pub fn facts(language: Language, line: &ScoreLine) -> String {
    let seconds = |length: Seconds| duration(length.to_f64().unwrap_or_default());
    let length = seconds(line.total_seconds());
    let mut facts = match line.on {
        On::Horn => vec![],
        On::Mouthpiece => vec![say::on_the_mouthpiece(language).to_owned()],
        On::Air => vec![say::without_the_horn(language).to_owned()],
        On::Rest => vec![say::the_others_play(language).to_owned()],
    };
    facts.push(match line.passes.len() {
        1 => say::lasts(language, length),
        times => say::times_through(language, times, length),
    });
    facts.push(match line.rest {
        Some(rest) => say::then_rest_for(language, seconds(rest.seconds)),
        None => say::then_done(language).to_owned(),
    });
    facts.join(" ")
}
