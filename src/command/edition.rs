//! Editions as they are named on the command line: a routine, and perhaps a player's pencil to lay over it.

use super::console::Console;
use super::source::{FileForm, SourceText};
use super::{Exit, Failure, show};
use crate::edition::{Against, Edition, Judge, Plan, name};
use crate::music::NoteNames;
use crate::problem::{Problem, Severity, Text};
use crate::routine::Routine;
use crate::score::Take;
use crate::words::{
    Language, Words,
    count::{self, count},
    tell,
};
use std::ffi::OsStr;
use std::path::Path;
use std::sync::Arc;

/// A player's version of a routine, with the texts it was read from.
#[derive(Clone, Debug)]
pub struct LoadedEdition {
    /// The text of the routine.
    pub routine: SourceText,
    /// The text of the pencil.
    pub pencil: Option<SourceText>,
    /// The version.
    pub edition: Edition,
}

/// The file of a pencil.
///
/// # Errors
/// If the file does not exist or is not text.
pub fn find_pencil(argument: &OsStr) -> Result<SourceText, Failure> {
    find_pencil_with_form(argument).map(|(source, _)| source)
}

/// The same, and how the file writes its text.
///
/// # Errors
/// If the file does not exist or is not text.
pub fn find_pencil_with_form(argument: &OsStr) -> Result<(SourceText, FileForm), Failure> {
    let shown = argument.to_string_lossy();
    let path = Path::new(argument);
    if path.is_dir() {
        return Err(Failure::usage(tell::folder_no_pencil(&shown)).hint(tell::name_the_pencil()));
    }
    if shown != "-" && !path.exists() {
        return Err(
            Failure::usage(tell::no_file_called(&shown)).hint(tell::pencil_writes_one(&shown))
        );
    }
    SourceText::find_with_form(argument)
}

/// The file of the pencil, if the option names one.
///
/// # Errors
/// If the file does not exist or is not text.
pub fn find_pencil_option<A: AsRef<OsStr>>(
    argument: Option<&A>,
) -> Result<Option<SourceText>, Failure> {
    argument.map(|a| find_pencil(a.as_ref())).transpose()
}

/// Reads a routine; `None` if it is not understood. Faults are shown.
pub fn read_routine(console: &mut Console, routine: &SourceText) -> Option<Arc<Routine>> {
    match routine.read() {
        Ok(read) => Some(Arc::new(read)),
        Err(faults) => {
            let faults = faults.into_iter();
            let problems: Vec<Problem> = faults.map(|f| f.in_text(Text::Routine)).collect();
            show::problems(console, routine, &problems);
            None
        }
    }
}

impl LoadedEdition {
    /// Reads a routine and the pencil laid over it. Problems are shown; the result is then `None`, unless `keep_going`
    /// applies the marks that fit.
    pub fn read(
        console: &mut Console,
        routine: SourceText,
        pencil: Option<SourceText>,
        keep_going: bool,
    ) -> Option<Self> {
        let teacher = read_routine(console, &routine)?;
        Self::lay(console, routine, teacher, pencil, keep_going)
    }

    /// Lays a pencil over a routine that was read from `routine`.
    pub fn lay(
        console: &mut Console,
        routine: SourceText,
        teacher: Arc<Routine>,
        pencil: Option<SourceText>,
        keep_going: bool,
    ) -> Option<Self> {
        let Some(pencil) = pencil else {
            return Some(Self {
                routine,
                pencil: None,
                edition: Edition::as_written(teacher),
            });
        };
        let laid = Edition::pencilled(teacher, &pencil.text);
        let problems = match &laid {
            Ok(edition) => edition.left_out(),
            Err(problems) => problems,
        };
        show::problems(console, &pencil, problems);
        if !problems.is_empty() && !keep_going {
            let hint = laid.is_ok().then_some(tell::keep_going_marks());
            let marks = count(problems.len(), "mark does", "marks do");
            console.complain(format!("{}: {marks} not fit", pencil.name), hint);
        }
        let edition = laid.ok()?;
        (edition.left_out().is_empty() || keep_going).then_some(Self {
            routine,
            pencil: Some(pencil),
            edition,
        })
    }

    /// The same with the words for the player in another language.
    #[must_use]
    pub fn in_language(&self, language: Language) -> Self {
        Self {
            edition: self.edition.clone().in_language(language),
            ..self.clone()
        }
    }

    /// The same with notes shown in other names.
    #[must_use]
    pub fn in_names(&self, names: NoteNames) -> Self {
        Self {
            edition: self.edition.clone().in_names(names),
            ..self.clone()
        }
    }

    /// The owner of the marks: the player's name, or else the name of the pencil's file.
    pub fn whose(&self) -> Option<String> {
        let pencil = self.pencil.as_ref()?;
        let player = self.edition.pencil().and_then(|p| p.player.clone());
        Some(player.unwrap_or_else(|| {
            let path = Path::new(&pencil.argument);
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let name = name.strip_suffix(".toml").unwrap_or(&name);
            name.strip_suffix(".pencil").unwrap_or(name).to_owned()
        }))
    }

    /// The stem of file names: the routine's title and the owner of the marks.
    pub fn stem(&self) -> String {
        let title = self.routine.stem(&self.edition.played().title);
        match self.whose() {
            Some(player) => format!("{title} {}", name::player_slug(&player)),
            None => title,
        }
    }

    /// How a successful command exits: marks that were left out count as errors.
    pub fn exit(&self) -> Exit {
        if self.edition.left_out().is_empty() {
            Exit::Done
        } else {
            Exit::Errors
        }
    }

    /// The text that a problem is about.
    pub fn source(&self, text: Text) -> &SourceText {
        match (text, &self.pencil) {
            (Text::Pencil, Some(pencil)) => pencil,
            _ => &self.routine,
        }
    }

    /// Shows a problem at its place; `at` names the take if it is not clear.
    pub fn show(&self, console: &mut Console, problem: &Problem, at: Option<&Words>) {
        let text = problem.place.map_or(Text::Routine, |place| place.text);
        show::problem(console, self.source(text), problem, at);
    }

    /// Plans takes to render, and shows the problems that they add to those of the routine as written. `None` if there is
    /// an error, which is shown.
    ///
    /// # Errors
    /// If one of the takes cannot be played.
    pub fn plan(&self, console: &mut Console, takes: &[Take]) -> Result<Option<Plan<'_>>, Failure> {
        let judge = Judge {
            against: Against::AsWritten,
            ..Judge::default()
        };
        let plan = match self.edition.plan(takes, &judge) {
            Ok(plan) => plan,
            Err(refused) if refused.is_as_written() => {
                console.fail(&refused.into());
                return Ok(None);
            }
            Err(refused) => return Err(refused.into()),
        };
        let report = plan.as_written.as_ref();
        let errors = report.into_iter().flat_map(|report| report.errors());
        for error in errors {
            self.show(console, &error.clone().in_text(Text::Routine), None);
        }
        if plan.takes.is_empty() {
            return Ok(None);
        }
        let warnings = report.map_or(0, |report| report.count(Severity::Warning));
        if warnings > 0 {
            self.warn(console, warnings);
        }
        let mut fit = true;
        let mut advice = vec![];
        for planned in &plan.takes {
            let at = super::takes::in_words(&planned.take, self.edition.played());
            for problem in &planned.problems {
                if problem.severity == Severity::Advice {
                    advice.push(&planned.take);
                    continue;
                }
                self.show(console, problem, Some(&at.clone()));
                fit &= problem.severity != Severity::Error;
            }
            for notice in &planned.notices {
                console.say(super::takes::notice(notice));
            }
        }
        self.advise(console, &advice);
        Ok(fit.then_some(plan))
    }

    /// Says how much advice there is on these takes, one for each piece of it, and which command shows it: the advice
    /// itself would fill the screen where nothing is wrong.
    fn advise(&self, console: &mut Console, takes: &[&Take]) {
        if takes.is_empty() {
            return;
        }
        let mut tempos: Vec<String> = vec![];
        let mut key = 0;
        for take in takes {
            let tempo = take.tempo.to_string();
            if !tempos.contains(&tempo) {
                tempos.push(tempo);
            }
            key = take.key;
        }
        let tempos = match &tempos[..] {
            [one] if one == "100%" => String::new(),
            tempos => format!(" --tempo {}", tempos.join(",")),
        };
        let key = match key {
            0 => String::new(),
            key => format!(" --key {key}"),
        };
        console.say(tell::advice_shown_by(
            &self.routine.name,
            count::advice(takes.len()),
            self.check_command(),
            &tempos,
            &key,
        ));
    }

    /// The command that checks this edition.
    fn check_command(&self) -> String {
        let with = match &self.pencil {
            Some(pencil) => format!(" --pencil {}", pencil.argument),
            None => String::new(),
        };
        let carried = self.routine.carried.as_ref();
        let carried = carried.map_or(String::new(), super::source::CarriedTo::options);
        format!("leadpipe check {}{carried}{with}", self.routine.argument)
    }

    /// Says that the routine has warnings as written, and which command shows them.
    fn warn(&self, console: &mut Console, warnings: usize) {
        let warnings = count::warnings(warnings);
        let how = match &self.pencil {
            Some(_) => "with-pencil",
            None => "as-written",
        };
        console.warn(
            tell::has_warnings(&self.routine.name, &warnings, how),
            Some(tell::warnings_shown_by(self.check_command())),
        );
    }
}
