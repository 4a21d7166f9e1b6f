//! The response to `open`: what a page needs to know about the routine it plays.

use super::answer::ProblemAnswer;
use super::marks::{self, MarkAnswer};
use crate::edition::Edition;
use crate::music::Tempo;
use crate::score::{Score, ScoreLine};
use crate::sheet::timetable::{self, TimetableLine, timetable};
use crate::timeline::{Content, Timeline};
use crate::words::{Language, key};
use serde::Serialize;

/// The response to `open`.
#[derive(Debug, Serialize)]
pub struct Opened {
    ok: bool,
    id: u32,
    take: TakeAnswer,
    lines: Vec<LineAnswer>,
    pencil: Option<PencilAnswer>,
}

#[derive(Debug, Serialize)]
struct TakeAnswer {
    clicks: f64,
    key: i32,
}

#[derive(Debug, Serialize)]
struct PencilAnswer {
    player: Option<String>,
    marks: Vec<MarkAnswer>,
    problems: Vec<ProblemAnswer>,
    advice: Vec<ProblemAnswer>,
}

#[derive(Debug, Serialize)]
struct LineAnswer {
    #[serde(flatten)]
    timetable: TimetableLine,
    frames: u64,
    signs: bool,
    facts: String,
    stops: Vec<Stop>,
}

/// A mark that ends the line early.
#[derive(Debug, Serialize)]
struct Stop {
    typed: String,
    words: String,
}

/// What the response to `open` is made from.
pub struct Described<'a> {
    /// The number of the opened routine.
    pub id: u32,
    /// The player's version.
    pub edition: &'a Edition,
    /// The score of the take.
    pub score: &'a Score<'a>,
    /// The timeline of the take.
    pub timeline: &'a Timeline,
    /// Why marks of the pencil were left out.
    pub left_out: Vec<ProblemAnswer>,
    /// Findings of the checker about the pencil's marks.
    pub advice: Vec<ProblemAnswer>,
}

impl Described<'_> {
    /// Builds the response.
    pub fn answer(self) -> Opened {
        let take = &self.score.take;
        Opened {
            ok: true,
            id: self.id,
            take: TakeAnswer {
                clicks: take
                    .tempo
                    .base(self.score.routine)
                    .map_or(0.0, Tempo::as_f64),
                key: take.key,
            },
            lines: self.lines(),
            pencil: self.edition.pencil_as_read().map(|pencil| PencilAnswer {
                player: pencil.player.clone(),
                marks: marks::answer(pencil, self.edition.teacher()),
                problems: self.left_out,
                advice: self.advice,
            }),
        }
    }

    fn lines(&self) -> Vec<LineAnswer> {
        let origins = self.edition.line_origins();
        let language = self.score.routine.words_in;
        let of = |index: usize| origins[index];
        let timetable = timetable(self.score, self.timeline.sample_rate, of);
        let lines = timetable.into_iter().zip(&self.score.lines).enumerate();
        lines
            .map(|(index, (timetable, line))| LineAnswer {
                timetable,
                frames: self.timeline.units[2 * index + 1].frames,
                signs: self.has_signs(2 * index + 2),
                facts: timetable::facts(language, line),
                stops: stops(language, line, self.score.take.key),
            })
            .collect()
    }

    /// True if a rest has spoken signs in it; otherwise it is silent.
    fn has_signs(&self, unit: usize) -> bool {
        match self.timeline.units.get(unit).map(|unit| &unit.content) {
            Some(Content::Rest(rest)) => !rest.signs.is_empty(),
            _ => false,
        }
    }
}

/// The half steps or tubes after which a line can end early: all but the last, each once.
fn stops(language: Language, line: &ScoreLine, key: i32) -> Vec<Stop> {
    let mut stops: Vec<Stop> = vec![];
    for pass in &line.passes {
        let (name, words) = match pass.tube {
            Some(tube) => (tube.to_string(), tube.to_string()),
            // As the line is written, not as the take moves it.
            None => {
                let half_steps = pass.half_steps - key;
                (half_steps.to_string(), key::moved(language, half_steps))
            }
        };
        let typed = format!("stop after {name}");
        if stops.iter().all(|stop| stop.typed != typed) {
            stops.push(Stop { typed, words });
        }
    }
    stops.pop();
    stops
}
