//! The requests of a page.

use super::answer::{In, ProblemAnswer};
use crate::music::Tuning;
use crate::score::{Take, spoken};
use crate::sheet::{SheetOptions, SheetPasses};
use crate::timeline::Settings;
use crate::words::Words;
use serde::Deserialize;

/// A request.
#[derive(Debug, Deserialize)]
#[serde(tag = "do", rename_all = "camelCase", deny_unknown_fields)]
pub enum Request {
    /// Build the tables for a sample rate.
    Start(StartRequest),
    /// Open a routine.
    Open(OpenRequest),
    /// Draw lines.
    Strips(StripsRequest),
    /// Write a mark or take one back.
    Mark(MarkRequest),
    /// Begin a unit.
    Begin(BeginRequest),
    /// End a unit that was begun.
    End(EndRequest),
}

/// Build the tables for a sample rate.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct StartRequest {
    pub sample_rate: Option<u32>,
}

/// Open a routine.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct OpenRequest {
    pub routine: String,
    pub pencil: Option<String>,
    /// Tag of the language of its answers, if it is not that of the routine.
    pub language: Option<String>,
    #[serde(default)]
    pub take: TakeRequest,
    pub sample_rate: Option<u32>,
}

/// Draw lines.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct StripsRequest {
    pub width: f64,
    pub lines: Option<Vec<usize>>,
    pub passes: Option<String>,
}

/// Write a mark or take one back.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct MarkRequest {
    pub pencil: Option<String>,
    pub of: Option<usize>,
    pub mark: Option<String>,
    pub index: Option<usize>,
    #[serde(default)]
    pub erase: bool,
    pub date: Option<String>,
    pub player: Option<String>,
}

/// Begin a unit.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BeginRequest {
    pub opened: Option<u32>,
    pub unit: usize,
    #[serde(default)]
    pub from: u64,
    #[serde(default)]
    pub volume: Vec<String>,
}

/// End a unit that was begun.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EndRequest {
    pub performance: u32,
}

/// A take, written as on the command line.
#[derive(Debug, Default, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct TakeRequest {
    tempo: Option<Word>,
    key: Option<Word>,
    guide: Option<Word>,
    a4: Option<Word>,
    temperament: Option<Word>,
    signs: Option<bool>,
}

/// A string, or a number that is read as its digits.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Word {
    Text(String),
    Number(serde_json::Number),
}

impl Word {
    fn text(&self) -> String {
        match self {
            Word::Text(text) => text.clone(),
            Word::Number(number) => number.to_string(),
        }
    }
}

impl TakeRequest {
    /// The take, and whether its rests have spoken signs.
    pub fn take(&self) -> Result<(Take, bool), Vec<ProblemAnswer>> {
        fn read<T>(
            word: Option<&Word>,
            read: fn(&str) -> Result<T, Words>,
            default: T,
        ) -> Result<T, Vec<ProblemAnswer>> {
            let Some(word) = word else { return Ok(default) };
            let text = word.text();
            read(&text).map_err(|right| {
                ProblemAnswer::new(In::Take, format!("“{text}” is not understood"))
                    .with_hint(right.to_string())
                    .into()
            })
        }
        let default = Take::default();
        let a4 = read(self.a4.as_ref(), spoken::a4, default.tuning.a4())?;
        let temperament = read(
            self.temperament.as_ref(),
            spoken::temperament,
            default.tuning.temperament(),
        )?;
        let take = Take {
            tempo: read(self.tempo.as_ref(), spoken::tempo, default.tempo)?,
            key: read(self.key.as_ref(), spoken::half_steps, default.key)?,
            guide: read(self.guide.as_ref(), spoken::guide, default.guide)?,
            tuning: Tuning::new(a4, temperament).expect("a4 was read within its bounds"),
        };
        Ok((take, self.signs.unwrap_or(true)))
    }
}

/// The sample rates that a page can request.
const RATES: std::ops::RangeInclusive<u32> = 44_100..=192_000;

/// The requested sample rate.
pub fn rate(asked: Option<u32>) -> Result<u32, Vec<ProblemAnswer>> {
    let rate = asked.unwrap_or(Settings::default().sample_rate);
    if RATES.contains(&rate) {
        return Ok(rate);
    }
    let right = format!("from {} to {}", RATES.start(), RATES.end());
    let problem = ProblemAnswer::new(In::Request, format!("{rate} frames a second"));
    Err(problem.with_hint(right.to_string()).into())
}

impl StripsRequest {
    /// The widths of a drawing that a page can request, in points.
    const WIDTHS: std::ops::RangeInclusive<f64> = 120.0..=5000.0;

    /// The width and the other options.
    pub fn options(&self) -> Result<(f64, SheetOptions), Vec<ProblemAnswer>> {
        let refuse = |message: String, right: &str| {
            let problem = ProblemAnswer::new(In::Request, message);
            Err(problem.with_hint(right.to_owned()).into())
        };
        if !Self::WIDTHS.contains(&self.width) {
            return refuse(format!("{} points wide", self.width), "from 120 to 5000");
        }
        let mut options = SheetOptions {
            passes: SheetPasses::All,
            ..SheetOptions::default()
        };
        match self.passes.as_deref() {
            None | Some("all") => {}
            Some("ends") => options.passes = SheetPasses::Ends,
            Some(other) => return refuse(format!("passes: “{other}”"), "all or ends"),
        }
        Ok((self.width, options))
    }
}
