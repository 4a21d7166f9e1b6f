//! `leadpipe check`: what there is to say of a routine.

use super::console::Console;
use super::pencilled::{self, Pencilled};
use super::source::Source;
use super::table::Table;
use super::{Exit, Failure, Outcome, findings, pencil, show, takes};
use crate::brass::AgeBand;
use crate::check::{self, Finding, Options, Report, Summary};
use crate::routine::{Fault, Guide, Routine};
use crate::score::{Take, TakeTempo, unroll};
use crate::words::{count, duration};
use clap::Args;
use serde_json::{Value, json};
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

    /// Half steps to move it by
    #[arg(long, value_name = "HALF-STEPS", value_parser = takes::key, default_value = "0",
        allow_hyphen_values = true)]
    key: i32,

    /// Guide mode to check in: together, echo or off
    #[arg(long, value_name = "MODE", value_parser = takes::guide, default_value = "together")]
    guide: Guide,

    /// The player's age, for advice on breath: 8-10, 11-13, 14-16 or adult
    #[arg(long, value_name = "BAND", value_parser = age)]
    age: Option<AgeBand>,

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

fn age(text: &str) -> Result<AgeBand, String> {
    let text = text.trim().to_lowercase();
    AgeBand::WORDS
        .iter()
        .find_map(|(word, band)| (*word == text).then_some(*band))
        .ok_or_else(|| "an age is 8-10, 11-13, 14-16 or adult".to_owned())
}

/// A report and the take it is of.
struct Checked {
    take: Take,
    report: Report,
    notices: Vec<String>,
}

impl Check {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = Source::find(&self.routine)?;
        let routine = match source.read() {
            Ok(routine) => routine,
            Err(faults) => return self.faulty(console, &source, &faults),
        };
        let pencilled = match self.pencil(console, &routine)? {
            Some(Some(pencilled)) => Some(pencilled),
            Some(None) => return Ok(Exit::Errors),
            None => None,
        };
        let teacher = routine;
        let routine = match &pencilled {
            Some(pencilled) => pencilled.laid.routine.clone(),
            None => teacher.clone(),
        };
        let checked = self.takes(&routine)?;
        let cut: Vec<Finding> = pencilled
            .iter()
            .flat_map(|p| cut_rest(p, &teacher, &checked))
            .collect();
        let said = said(&checked, &routine);
        if self.json {
            let shown = as_json(&source, &routine, &checked, &said);
            let shown = match &pencilled {
                Some(pencilled) => with_pencil(shown, pencilled, &cut),
                None => shown,
            };
            console.data(&format!("{shown:#}\n"))?;
        } else {
            for (at, finding) in &said {
                show::finding(console, &source, finding, at.as_deref());
            }
            if let Some(pencilled) = &pencilled {
                for finding in &cut {
                    show::finding(console, &pencilled.source, finding, None);
                }
            }
            for notice in checked.iter().flat_map(|c| &c.notices) {
                console.say(notice);
            }
            console.data(&figures(&routine, &checked))?;
            if checked.iter().any(|c| sets_apart(&c.report.summary)) {
                console.say("Rest to playing leaves aside what is played after the last rest.");
            }
            let all = said.iter().map(|(_, finding)| *finding).chain(&cut);
            let tally = findings::tally(all);
            let with = pencilled.as_ref().map_or(String::new(), |p| {
                format!(
                    " with {} of {}",
                    pencil::tally(&p.pencil.marks),
                    p.source.name
                )
            });
            console.say(&format!("{}{with}: {tally}.", source.name));
        }
        let unfit = pencilled.as_ref().is_some_and(|p| !p.sound);
        Ok(if unfit || checked.iter().any(|c| c.report.has_errors()) {
            Exit::Errors
        } else {
            Exit::Done
        })
    }

    fn faulty(&self, console: &mut Console, source: &Source, faults: &[Fault]) -> Outcome {
        if self.json {
            let faults: Vec<Value> = faults.iter().map(|f| fault_json(source, f)).collect();
            let shown = json!({ "routine": source.name, "faults": faults });
            console.data(&format!("{shown:#}\n"))?;
        } else {
            show::faults(console, source, faults);
            let faults = count(faults.len(), "fault", "faults");
            console.say(&format!("{}: {faults}.", source.name));
        }
        Ok(Exit::Errors)
    }

    /// The pencil laid over the routine, where one is named; none inside where it cannot be.
    fn pencil(
        &self,
        console: &mut Console,
        routine: &Routine,
    ) -> Result<Option<Option<Pencilled>>, Failure> {
        let Some(argument) = &self.pencil else {
            return Ok(None);
        };
        let source = pencilled::find(argument)?;
        Ok(Some(pencilled::lay(
            console,
            source,
            routine,
            self.keep_going,
        )))
    }

    fn takes(&self, routine: &Routine) -> Result<Vec<Checked>, Failure> {
        let options = Options { age: self.age };
        let mut checked: Vec<Checked> = Vec::new();
        for tempo in &self.tempo {
            let take = Take {
                tempo: *tempo,
                key: self.key,
                guide: self.guide,
                ..Take::default()
            };
            let score =
                unroll(routine, &take).map_err(|fault| takes::refusal(&fault, &take, routine))?;
            let mut notices = Vec::new();
            for notice in &score.notices {
                let said = takes::notice(notice);
                if checked.iter().all(|c| !c.notices.contains(&said)) {
                    notices.push(said);
                }
            }
            checked.push(Checked {
                take,
                report: check::check(&score, &options),
                notices,
            });
        }
        Ok(checked)
    }
}

/// What a pencil takes away of the rest at any take, each mark once.
fn cut_rest(pencilled: &Pencilled, teacher: &Routine, checked: &[Checked]) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for one in checked {
        let cut = pencilled.cut_rest(teacher, &one.take, &one.report);
        found.extend(
            cut.into_iter()
                .filter(|c| found.iter().all(|f| f.span != c.span))
                .collect::<Vec<_>>(),
        );
    }
    found
}

fn with_pencil(mut shown: Value, pencilled: &Pencilled, cut: &[Finding]) -> Value {
    let finding = |finding: &Finding| {
        let (line, column) = pencilled.source.line_and_column(finding.span.start);
        json!({
            "severity": finding.severity.word(),
            "rule": finding.rule,
            "line": line,
            "column": column,
            "bytes": [finding.span.start, finding.span.end],
            "message": finding.message,
            "hint": finding.hint,
        })
    };
    let faults = pencilled.laid.faults.iter();
    shown["pencil"] = json!({
        "file": pencilled.source.name,
        "player": pencilled.pencil.player,
        "marks": pencilled.pencil.marks.len(),
        "faults": faults.map(|f| fault_json(&pencilled.source, f)).collect::<Vec<_>>(),
        "findings": cut.iter().map(finding).collect::<Vec<_>>(),
    });
    shown
}

/// Every finding once: those of the first take, then what each further one adds, with where.
fn said<'a>(checked: &'a [Checked], routine: &Routine) -> Vec<(Option<String>, &'a Finding)> {
    let mut before: Vec<Finding> = Vec::new();
    let mut said = Vec::new();
    for (number, one) in checked.iter().enumerate() {
        let at = (number > 0).then(|| takes::in_words(&one.take, routine));
        let added = findings::added(&before, &one.report.findings);
        said.extend(added.iter().map(|finding| (at.clone(), *finding)));
        before.extend(added.into_iter().cloned());
    }
    said
}

fn figures(routine: &Routine, checked: &[Checked]) -> String {
    let mut table = Table::new(&[
        ("Clicks a minute", true),
        ("Length", true),
        ("Playing", true),
        ("Rest", true),
        ("Rest to playing", true),
        ("Lowest", false),
        ("Highest", false),
        ("Breaths", true),
    ]);
    for Checked { take, report, .. } in checked {
        let summary = &report.summary;
        let note = |pitch: Option<crate::music::WrittenPitch>| {
            pitch.map_or_else(|| "none".to_owned(), |p| p.to_string())
        };
        table.row(vec![
            clicks(take, summary),
            duration(summary.seconds),
            duration(summary.playing_seconds),
            duration(summary.rest_seconds),
            ratio(summary),
            note(summary.lowest),
            note(summary.highest),
            summary.breaths.to_string(),
        ]);
    }
    let title = super::text::printable(&routine.title);
    let lines = count(routine.lines.len(), "line", "lines");
    format!(
        "{title}, {}, {lines}\n{}",
        routine.instrument.name,
        table.lines()
    )
}

fn clicks(take: &Take, summary: &Summary) -> String {
    match take.tempo {
        TakeTempo::Percent(_) => format!("{} ({})", summary.tempo, take.tempo),
        TakeTempo::Clicks(_) => summary.tempo.to_string(),
    }
}

/// True if the ratio is not simply that of the two figures before it.
fn sets_apart(summary: &Summary) -> bool {
    summary.final_seconds > 0.0 && summary.ratio().is_some()
}

/// How much rest there is to one part of playing.
fn ratio(summary: &Summary) -> String {
    summary
        .ratio()
        .map_or_else(|| "none".to_owned(), |ratio| format!("{ratio:.2} to 1"))
}

fn fault_json(source: &Source, fault: &Fault) -> Value {
    let (line, column) = source.line_and_column(fault.span.start);
    json!({
        "line": line,
        "column": column,
        "bytes": [fault.span.start, fault.span.end],
        "message": fault.message,
        "label": fault.label,
        "hint": fault.hint,
    })
}

fn as_json(
    source: &Source,
    routine: &Routine,
    checked: &[Checked],
    said: &[(Option<String>, &Finding)],
) -> Value {
    let finding = |(at, finding): &(Option<String>, &Finding)| {
        let (line, column) = source.line_and_column(finding.span.start);
        json!({
            "severity": finding.severity.word(),
            "rule": finding.rule,
            "at": at,
            "routine_line": finding.line.map(|index| index + 1),
            "name": finding.line.map(|index| &routine.lines[index].name),
            "line": line,
            "column": column,
            "bytes": [finding.span.start, finding.span.end],
            "message": finding.message,
            "hint": finding.hint,
        })
    };
    let take = |Checked {
                    take,
                    report,
                    notices,
                }: &Checked| {
        let summary = &report.summary;
        json!({
            "tempo": take.tempo.to_string(),
            "clicks_a_minute": summary.tempo.as_f64(),
            "key": take.key,
            "guide": take.guide.word(),
            "seconds": summary.seconds,
            "playing_seconds": summary.playing_seconds,
            "rest_seconds": summary.rest_seconds,
            "final_seconds": summary.final_seconds,
            "rest_to_playing": summary.ratio(),
            "lowest": summary.lowest.map(|p| p.to_string()),
            "highest": summary.highest.map(|p| p.to_string()),
            "breaths": summary.breaths,
            "notices": notices,
            "lines": summary.lines.iter().map(|line| json!({
                "routine_line": line.line + 1,
                "name": line.name,
                "clicks_a_minute": line.tempo.as_f64(),
                "passes": line.passes,
                "seconds": line.seconds,
                "playing_seconds": line.playing_seconds,
                "rest_seconds": line.rest_seconds,
                "lowest": line.lowest.map(|p| p.to_string()),
                "highest": line.highest.map(|p| p.to_string()),
                "breaths": line.breaths,
            })).collect::<Vec<_>>(),
        })
    };
    json!({
        "routine": source.name,
        "title": routine.title,
        "instrument": routine.instrument.name,
        "findings": said.iter().map(finding).collect::<Vec<_>>(),
        "takes": checked.iter().map(take).collect::<Vec<_>>(),
    })
}
