//! The open routines, and what is being played of them.

use super::answer::{In, ProblemAnswer, Refusal};
use super::marks;
use super::opened::{self, Open};
use super::playing::Playing;
use super::request::{self, BeginRequest, OpenRequest, Request, StartRequest, StripsRequest};
use super::strips;
use crate::score::Take;
use crate::synth::Engine;
use crate::volume;
use serde::Serialize;
use std::collections::{BTreeMap, VecDeque};
use std::rc::Rc;

/// The state of a page's engine.
#[derive(Default)]
pub struct Session {
    /// The engine that was built last. Only one is kept: the tables for one rate take 3 MB.
    engine: Option<Rc<Engine>>,
    /// The routines that were opened last, oldest first, with their numbers. The one that is being played may be an
    /// earlier one.
    open: VecDeque<(u32, Open)>,
    opened: u32,
    playing: BTreeMap<u32, Playing>,
    begun: u32,
}

/// How many routines are kept open.
const KEPT: usize = 4;

/// The engine's description of itself.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Started {
    ok: bool,
    sample_rate: u32,
}

#[derive(Serialize)]
struct Begun {
    ok: bool,
    performance: u32,
    from: u64,
    frames: u64,
}

#[derive(Serialize)]
struct Ended {
    ok: bool,
}

impl Session {
    /// A session without an open routine.
    pub fn new() -> Self {
        Self::default()
    }

    /// Answers a request; request and response are JSON.
    pub fn ask(&mut self, request: &str) -> String {
        let answered = match serde_json::from_str(request) {
            Ok(request) => self.answer(request),
            Err(error) => Err(ProblemAnswer::new(In::Request, error.to_string()).into()),
        };
        answered.unwrap_or_else(|problems| json(&Refusal::from(problems)))
    }

    fn answer(&mut self, request: Request) -> Result<String, Vec<ProblemAnswer>> {
        match request {
            Request::Start(request) => self.start(&request),
            Request::Open(request) => self.open(request),
            Request::Strips(request) => self.strips(&request),
            Request::Mark(request) => Ok(json(&marks::change(
                &request,
                self.opened()?.edition.teacher(),
            )?)),
            Request::Begin(request) => self.begin(&request),
            Request::End(request) => {
                self.playing.remove(&request.performance);
                Ok(json(&Ended { ok: true }))
            }
        }
    }

    fn start(&mut self, request: &StartRequest) -> Result<String, Vec<ProblemAnswer>> {
        let sample_rate = request::rate(request.sample_rate)?;
        self.engine(sample_rate);
        Ok(json(&Started {
            ok: true,
            sample_rate,
        }))
    }

    fn open(&mut self, request: OpenRequest) -> Result<String, Vec<ProblemAnswer>> {
        let number = self.opened.wrapping_add(1);
        let (open, answer) = opened::open(request, number)?;
        self.opened = number;
        self.open.push_back((number, open));
        if self.open.len() > KEPT {
            self.open.pop_front();
        }
        Ok(json(&answer))
    }

    fn strips(&mut self, request: &StripsRequest) -> Result<String, Vec<ProblemAnswer>> {
        let (width, options) = request.options()?;
        let open = self.opened()?;
        // The teacher's lines are printed as written, in the key of the take. A key that fits the player's version
        // may fit no line of the teacher's.
        let printed = Take {
            key: open.take.key,
            ..Take::default()
        };
        let language = open.edition.teacher().words_in;
        let score = open.edition.printed(&printed);
        let score = score.map_err(|unplayable| opened::refused(language, unplayable))?;
        Ok(json(&strips::draw(
            &score,
            open.edition.pencil(),
            request,
            width,
            &options,
        )))
    }

    fn begin(&mut self, request: &BeginRequest) -> Result<String, Vec<ProblemAnswer>> {
        let mut volumes = Vec::new();
        for text in &request.volume {
            let volume = volume::parse(text).map_err(|right| {
                ProblemAnswer::new(In::Request, format!("“{text}” is no volume")).with_hint(right)
            })?;
            volumes.push(volume);
        }
        let balance = volume::balance(&volumes)
            .map_err(|message| ProblemAnswer::new(In::Request, message))?;
        let open = match request.opened {
            Some(number) => self.open.iter().find(|(one, _)| *one == number),
            None => self.open.back(),
        };
        let (_, open) = open.ok_or_else(|| ProblemAnswer::new(In::Request, "it is not open"))?;
        let timeline = &open.timeline;
        let Some(unit) = timeline.units.get(request.unit).cloned() else {
            let message = format!("there is no unit {}", request.unit);
            let right = format!("units go from 0 to {}", timeline.units.len() - 1);
            return Err(ProblemAnswer::new(In::Request, message)
                .with_hint(right)
                .into());
        };
        let rate = timeline.sample_rate;
        let (frames, engine) = (unit.frames, self.engine(rate));
        let playing = Playing::begin(engine, unit, request.from, balance);
        let left = playing.left();
        self.begun = self.begun.wrapping_add(1);
        self.playing.insert(self.begun, playing);
        Ok(json(&Begun {
            ok: true,
            performance: self.begun,
            from: frames - left,
            frames: left,
        }))
    }

    /// Renders the next frames of a performance as guide, click and drone; `frames` is rounded up to whole blocks. Returns
    /// the number of frames: 0 at the end, or if there is no performance of that number.
    pub fn fill(&mut self, performance: u32, frames: usize, stems: &mut [Vec<f32>; 3]) -> usize {
        self.play(performance, |playing| playing.fill(frames, stems))
    }

    /// Renders the mix of the next frames of a performance into `steps`, as the samples of a 16-bit WAV file. Returns the
    /// number of frames.
    pub fn mix(&mut self, performance: u32, frames: usize, steps: &mut Vec<i16>) -> usize {
        self.play(performance, |playing| playing.mix(frames, steps))
    }

    fn play(&mut self, performance: u32, play: impl FnOnce(&mut Playing) -> usize) -> usize {
        let Some(playing) = self.playing.get_mut(&performance) else {
            return 0;
        };
        let frames = play(playing);
        if playing.left() == 0 {
            self.playing.remove(&performance);
        }
        frames
    }

    fn engine(&mut self, sample_rate: u32) -> Rc<Engine> {
        match &self.engine {
            Some(engine) if engine.sample_rate() == sample_rate => engine.clone(),
            _ => {
                let engine = Rc::new(Engine::new(sample_rate));
                self.engine = Some(engine.clone());
                engine
            }
        }
    }

    fn opened(&self) -> Result<&Open, Vec<ProblemAnswer>> {
        let last = self.open.back().map(|(_, open)| open);
        last.ok_or_else(|| ProblemAnswer::new(In::Request, "no routine is open").into())
    }
}

fn json(answer: &impl Serialize) -> String {
    serde_json::to_string(answer).expect("numbers and texts can be written")
}
