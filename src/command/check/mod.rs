//! `leadpipe check`: the findings and figures of a routine.

mod figures;
mod json;
mod said;

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::{self, LoadedEdition};
use super::source::SourceText;
use super::{Exit, Outcome, findings, pencil, show, takes};
use crate::brass::AgeBand;
use crate::check::Options;
use crate::edition::{Judge, Plan, Wanted};
use crate::problem::{Problem, Text};
use crate::routine::Guide;
use crate::score::{TakeKey, TakeTempo};
use crate::words::count;
use crate::words::{Words, tell};
use clap::Args;
use said::said;
use std::ffi::OsString;

/// Check a routine: notes, range, slurs, breath and rest, and what it comes to
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe check anna.toml
  leadpipe check anna.toml --tempo 100%,70% --age 11-13
  leadpipe check second-steps --key -2

Findings go to standard error, the closing table to standard output. Exit code 0 with warnings only,
1 with errors.")]
pub struct Check {
    /// A routine's file, a built-in routine's name, or - for standard input
    routine: OsString,

    /// Tempos to check at: clicks a minute (72) or parts of what is written (85%)
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::tempo,
        default_value = "100%", allow_hyphen_values = true)]
    tempo: Vec<TakeTempo>,

    /// Key to move it to: half steps (-2), or its name ("B-flat major", Bb) where the routine says its
    /// own
    #[arg(long, value_name = "KEY", value_parser = takes::key, default_value = "0",
        allow_hyphen_values = true)]
    key: TakeKey,

    /// Guide mode to check in: together, echo or off
    #[arg(long, value_name = "MODE", value_parser = takes::guide, default_value = "together")]
    guide: Guide,

    /// The player's age, for advice on breath: 8-10, 11-13, 14-16 or adult
    #[arg(long, value_name = "BAND", value_parser = age)]
    age: Option<AgeBand>,

    #[command(flatten)]
    carry: CarryOptions,

    /// A player's pencil to lay over it
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Leave marks out that do not fit, and apply the others
    #[arg(long, requires = "pencil")]
    keep_going: bool,

    /// Write findings and figures as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn age(text: &str) -> Result<AgeBand, Words> {
    let text = text.trim().to_lowercase();
    AgeBand::WORDS
        .iter()
        .find_map(|(word, band)| (*word == text).then_some(*band))
        .ok_or_else(tell::ages_are)
}

impl Check {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = SourceText::find(&self.routine)?.in_names(console.names());
        let source = self.carry.source(console, source)?;
        let teacher = match source.read() {
            Ok(routine) => routine,
            Err(faults) => {
                let faults = faults.into_iter();
                let problems: Vec<Problem> = faults.map(|f| f.in_text(Text::Routine)).collect();
                return self.faulty(console, &source, &problems);
            }
        };
        let pencil = edition::find_pencil_option(self.pencil.as_ref())?;
        let opened = LoadedEdition::lay(console, source, teacher.into(), pencil, self.keep_going);
        let Some(opened) = opened else {
            return Ok(Exit::Errors);
        };
        let wanted = Wanted {
            tempos: self.tempo.clone(),
            guides: vec![self.guide],
            ..Wanted::default()
        };
        let judge = Judge {
            options: Options {
                age: self.age,
                ..Options::default()
            },
            ..Judge::default()
        };
        let takes = takes::in_keys(wanted, &[self.key], opened.edition.teacher())?;
        let plan = opened.edition.plan(&takes, &judge)?;
        if self.json {
            let shown = json::checked(&opened, &plan);
            console.data(&format!("{shown:#}\n"))?;
        } else {
            say(console, &opened, &plan);
            console.data(&figures::table(
                console.language(),
                opened.edition.played(),
                &plan,
            ))?;
            close(console, &opened, &plan);
        }
        let left_out = !opened.edition.left_out().is_empty();
        let errors = plan.takes.iter().any(|take| take.report.has_errors());
        Ok(if left_out || errors {
            Exit::Errors
        } else {
            Exit::Done
        })
    }

    fn faulty(&self, console: &mut Console, source: &SourceText, problems: &[Problem]) -> Outcome {
        if self.json {
            let shown = json::unreadable(source, problems);
            console.data(&format!("{shown:#}\n"))?;
        } else {
            show::problems(console, source, problems);
            let faults = count::faults(problems.len());
            console.say(tell::so_many_faults(&source.name, &faults));
        }
        Ok(Exit::Errors)
    }
}

/// Shows every problem and every notice.
fn say(console: &mut Console, opened: &LoadedEdition, plan: &Plan<'_>) {
    for (at, problem) in said(opened, plan, Text::Routine) {
        opened.show(console, problem, at.as_ref());
    }
    for (_, problem) in said(opened, plan, Text::Pencil) {
        opened.show(console, problem, None);
    }
    for notice in plan.takes.iter().flat_map(|planned| &planned.notices) {
        console.say(takes::notice(notice));
    }
}

/// Says how many problems there are.
fn close(console: &mut Console, opened: &LoadedEdition, plan: &Plan<'_>) {
    if plan
        .takes
        .iter()
        .any(|planned| figures::sets_apart(&planned.report.summary))
    {
        console.say(tell::rest_to_playing_leaves());
    }
    let tally = findings::tally(plan.takes.iter().flat_map(|planned| &planned.problems));
    let with = match &opened.pencil {
        Some(pencil) => {
            let marks = pencil::tally(opened.edition.marks());
            tell::with_marks_of(&marks, &pencil.name)
        }
        None => Words::default(),
    };
    console.say(tell::check_tally(&opened.routine.name, &with, &tally));
}
