//! `leadpipe pencil`: writes a player's marks, takes them back, reads them out.

use super::console::Console;
use super::source::Source;
use super::text::count;
use super::{Exit, Failure, Outcome, pencilled, show};
use crate::pencil::spoken::{self, Row};
use crate::pencil::{self, Change, Mark, Target, edit, lay, words};
use crate::render::failure::system_words;
use crate::render::whole_file;
use crate::routine::Routine;
use clap::Args;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Write a player's pencil marks over a routine, take them back, or read them out
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe pencil second-steps anna.pencil.toml 3 slower
  leadpipe pencil second-steps anna.pencil.toml 3 breath after 2
  leadpipe pencil second-steps anna.pencil.toml all rest longer --date 2026-11-25
  leadpipe pencil second-steps anna.pencil.toml 3 slower --erase
  leadpipe pencil second-steps anna.pencil.toml --show

Marks: slower, faster, tempo 85%, tempo 60; rest longer, rest shorter, rest 2 bars; between longer;
breath after 4; tongued, slurred, both; bend, bend 2; times 5; leave out; softer, louder; drone off;
guide echo; stop after 1-2; half steps 0,-1; tubes 0,2,1; words \"…\". The routine's own file is never
changed.")]
pub struct PencilCommand {
    /// The routine: its file, or a built-in routine's name
    routine: OsString,

    /// The pencil's file; it is made where there is none
    file: PathBuf,

    /// The line: its number or its name; all for the whole routine
    line: Option<String>,

    /// What to mark
    #[arg(allow_negative_numbers = true)]
    mark: Vec<String>,

    /// Take the mark back
    #[arg(long)]
    erase: bool,

    /// Read all marks out in words
    #[arg(long, conflicts_with_all = ["erase", "line"])]
    show: bool,

    /// The day it was made on: 2026-11-25
    #[arg(long, value_name = "DAY", value_parser = day)]
    date: Option<String>,

    /// The player, in a new file; a nickname is enough
    #[arg(long, value_name = "NAME")]
    player: Option<String>,
}

fn day(text: &str) -> Result<String, String> {
    if spoken::is_date(text) {
        Ok(text.to_owned())
    } else {
        Err("a day is written year, month, day: 2026-11-25".to_owned())
    }
}

impl PencilCommand {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = Source::find(&self.routine)?;
        let routine = match source.read() {
            Ok(routine) => routine,
            Err(faults) => {
                show::faults(console, &source, &faults);
                return Ok(Exit::Errors);
            }
        };
        if self.show {
            return self.read_out(console, &routine);
        }
        let (line, row) = self.wanted(&routine)?;
        let text = Text::load(&self.file)?;
        if self.erase {
            self.take_back(console, &routine, line, &row, text)
        } else {
            self.write(console, &routine, line, &row, text)
        }
    }

    /// Which line, and what of it.
    fn wanted(&self, routine: &Routine) -> Result<(Option<usize>, Row), Failure> {
        let Some(line) = &self.line else {
            return Err(
                Failure::usage("it is not said which line to mark").hint(
                    "name it by its number or its name, or write all for the whole routine; --show reads \
                     out what is marked",
                ),
            );
        };
        let target = match line.trim() {
            "all" => Target::Whole,
            text => match text.parse() {
                Ok(number) => Target::Number(number),
                Err(_) => Target::Name(text.to_owned()),
            },
        };
        let line = lay::find_line(&target, routine)
            .map_err(|(message, hint)| Failure::usage(message).hint(hint))?;
        let said = self.mark.join(" ");
        let row = spoken::parse(&said).map_err(|hint| {
            Failure::usage(if said.is_empty() {
                "it is not said what to mark".to_owned()
            } else {
                format!("“{said}” is no mark")
            })
            .hint(hint)
        })?;
        Ok((line, row))
    }

    fn read_out(&self, console: &mut Console, routine: &Routine) -> Outcome {
        let source = pencilled::find(self.file.as_os_str())?;
        let Some(pencilled) = pencilled::lay(console, source, routine, true) else {
            return Ok(Exit::Errors);
        };
        let pencil = &pencilled.pencil;
        let whose = match &pencil.player {
            Some(player) => format!("{player}: “{}”", routine.title),
            None => format!("“{}”", routine.title),
        };
        let mut out = format!("{whose}\n");
        for (heading, marks) in by_line(&pencil.marks, routine) {
            out += &format!("\n{heading}\n");
            for mark in marks {
                out += &format!("  {}\n", words::mark(mark));
            }
        }
        if pencil.marks.is_empty() {
            out += "\nNothing is marked.\n";
        }
        console.data(&super::text::printable(&out))?;
        Ok(if pencilled.sound {
            Exit::Done
        } else {
            Exit::Errors
        })
    }

    fn write(
        &self,
        console: &mut Console,
        routine: &Routine,
        line: Option<usize>,
        row: &Row,
        text: Text,
    ) -> Outcome {
        let before = text
            .body
            .as_deref()
            .map_or_else(|| edit::empty(self.player.as_deref()), str::to_owned);
        if let Some(faults) = text.faults(&before) {
            show::faults(console, &text.source(&self.file, &before), &faults);
            return Ok(Exit::Errors);
        }
        let new = meant(row)?;
        let there = marks_at(&before, line, routine);
        if let Some(other) = there.iter().find(|mark| mark.change.conflicts(&new)) {
            let other = words::change(&other.change);
            return Err(Failure::error(format!(
                "{} is marked already: {other}",
                heading(line, routine)
            ))
            .hint(format!(
                "take that back first, with --erase: both cannot be ({})",
                words::change(&new)
            )));
        }
        let named = line.map(|index| named(index, routine));
        let after = edit::add(&before, named.as_deref(), row, self.date.as_deref());
        // Only what the mark adds counts: what else does not fit is told when it is used.
        let known = what_is_wrong(&before, routine);
        let added = what_is_wrong(&after, routine);
        if let Some((message, hint)) = added.into_iter().find(|fault| !known.contains(fault)) {
            let failure = Failure::error(message);
            return Err(match hint {
                Some(hint) => failure.hint(hint),
                None => failure,
            });
        }
        text.store(&self.file, &after)?;
        let marks = pencil::read(&after).pencil.unwrap_or_default().marks;
        if let Some(mark) = marks.last() {
            console.say(&format!(
                "{}: {}.",
                heading(line, routine),
                words::mark(mark)
            ));
        }
        Ok(Exit::Done)
    }

    fn take_back(
        &self,
        console: &mut Console,
        routine: &Routine,
        line: Option<usize>,
        row: &Row,
        text: Text,
    ) -> Outcome {
        let shown = self.file.display();
        let Some(before) = text.body.as_deref() else {
            return Err(Failure::usage(format!("there is no file called {shown}"))
                .hint("nothing is marked yet"));
        };
        if let Some(faults) = text.faults(before) {
            show::faults(console, &text.source(&self.file, before), &faults);
            return Ok(Exit::Errors);
        }
        let meant = meant(row)?;
        let at_line = marks_at(before, line, routine);
        let Some(mark) = at_line.iter().rev().find(|mark| mark.change == meant) else {
            let there: Vec<String> = at_line.iter().map(|m| words::change(&m.change)).collect();
            let failure = Failure::error(format!(
                "{} is not marked so: {}",
                heading(line, routine),
                words::change(&meant)
            ));
            return Err(failure.hint(if there.is_empty() {
                "it bears no marks".to_owned()
            } else {
                format!("it is marked: {}", there.join("; "))
            }));
        };
        let after = edit::erase(before, mark).ok_or_else(|| {
            Failure::error(format!(
                "this mark is not written under a [[mark]] of its own, so {shown} stays as it is"
            ))
            .hint("take it out with a text editor")
        })?;
        text.store(&self.file, &after)?;
        console.say(&format!(
            "{}: taken back: {}.",
            heading(line, routine),
            words::change(&meant)
        ));
        Ok(Exit::Done)
    }
}

/// The marks that stand at a line, or at the whole routine.
fn marks_at(text: &str, line: Option<usize>, routine: &Routine) -> Vec<Mark> {
    let mut marks = pencil::read(text).pencil.unwrap_or_default().marks;
    marks.retain(|mark| lay::find_line(&mark.target, routine) == Ok(line));
    marks
}

/// The change that a row of its own would be.
fn meant(row: &Row) -> Result<Change, Failure> {
    let alone = edit::add("format = 1\n", Some("1"), row, None);
    let read = pencil::read(&alone);
    let mark = read.pencil.and_then(|p| p.marks.into_iter().next());
    mark.map(|mark| mark.change).ok_or_else(|| {
        let fault = read.faults.into_iter().next();
        let (message, hint) = fault
            .map(|f| (f.message, f.hint.unwrap_or_default()))
            .unwrap_or_default();
        Failure::usage(message).hint(hint)
    })
}

/// How a line is named in a new mark: by its name, so that the mark stays with it when the teacher puts another line
/// before it; by its number where its name is not its own.
fn named(index: usize, routine: &Routine) -> String {
    let name = &routine.lines[index].name;
    let target = Target::Name(name.clone());
    if lay::find_line(&target, routine) == Ok(Some(index)) {
        spoken::quoted(name)
    } else {
        (index + 1).to_string()
    }
}

fn heading(line: Option<usize>, routine: &Routine) -> String {
    match line {
        Some(index) => format!("{} {}", index + 1, routine.lines[index].name),
        None => "The whole routine".to_owned(),
    }
}

/// The marks under the heading of their line, in order of the routine; those that belong nowhere last.
pub fn by_line<'m>(marks: &'m [Mark], routine: &Routine) -> Vec<(String, Vec<&'m Mark>)> {
    let place = |mark: &Mark| lay::find_line(&mark.target, routine);
    let mut found = Vec::new();
    let lines = std::iter::once(None).chain((0..routine.lines.len()).map(Some));
    for line in lines {
        let at: Vec<&Mark> = marks.iter().filter(|m| place(m) == Ok(line)).collect();
        if !at.is_empty() {
            found.push((heading(line, routine), at));
        }
    }
    let nowhere: Vec<&Mark> = marks.iter().filter(|m| place(m).is_err()).collect();
    if !nowhere.is_empty() {
        found.push(("No line of this routine".to_owned(), nowhere));
    }
    found
}

/// Message and hint of everything that is wrong with a pencil.
fn what_is_wrong(text: &str, routine: &Routine) -> Vec<(String, Option<String>)> {
    let read = pencil::read(text);
    let laid = read.pencil.as_ref().map(|p| pencil::lay(p, routine).faults);
    let faults = read.faults.into_iter().chain(laid.into_iter().flatten());
    faults.map(|fault| (fault.message, fault.hint)).collect()
}

/// The text of a pencil's file as it stands there.
struct Text {
    /// Without a byte order mark; none where there is no file.
    body: Option<String>,
    /// The mark that some editors put before it.
    order_mark: bool,
}

impl Text {
    fn load(path: &Path) -> Result<Self, Failure> {
        let nothing = Self {
            body: None,
            order_mark: false,
        };
        let raw = match fs::read(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(nothing),
            // What else may be wrong with a file has words already.
            Err(_) => None,
            Ok(raw) => Some(raw),
        };
        let found = pencilled::find(path.as_os_str())?;
        let raw = raw.and_then(|raw| String::from_utf8(raw).ok());
        let body = raw
            .as_deref()
            .map(|raw| raw.strip_prefix('\u{feff}').unwrap_or(raw));
        match body {
            Some(body) if body == found.text => Ok(Self {
                order_mark: raw.as_deref() != Some(body),
                body: Some(body.to_owned()),
            }),
            _ => Err(Failure::error(format!(
                "the rows of {} end as no editor ends them any more, so it stays as it is",
                path.display()
            ))
            .hint("open it in a text editor and save it anew")),
        }
    }

    /// What keeps the file from being a pencil at all; marks with faults may stand in it.
    fn faults(&self, text: &str) -> Option<Vec<crate::routine::Fault>> {
        let read = pencil::read(text);
        read.pencil.is_none().then_some(read.faults)
    }

    fn source(&self, path: &Path, text: &str) -> Source {
        let shown = path.display().to_string();
        Source {
            name: shown.clone(),
            argument: shown,
            text: text.to_owned(),
        }
    }

    /// Writes the file anew, whole or not at all.
    fn store(&self, path: &Path, text: &str) -> Result<(), Failure> {
        // What a link points to is written, and the link stays.
        let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let mut bytes = Vec::new();
        if self.order_mark {
            bytes.extend("\u{feff}".as_bytes());
        }
        bytes.extend(text.as_bytes());
        whole_file::write(&path, &bytes).map_err(|error| {
            let said = system_words(&error);
            let failure = Failure::error(format!("{} cannot be written: {said}", path.display()));
            match error.kind() {
                io::ErrorKind::NotFound => failure.hint("make its folder first"),
                io::ErrorKind::PermissionDenied => {
                    failure.hint("keep the pencil in a folder of your own")
                }
                _ => failure,
            }
        })
    }
}

/// `3 marks`, for a line of words.
pub fn tally(marks: &[Mark]) -> String {
    count(marks.len(), "mark", "marks")
}
