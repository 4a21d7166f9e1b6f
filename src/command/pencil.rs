//! `leadpipe pencil`: writes a player's marks, takes them back, reads them out.

use super::console::Console;
use super::edition::{self, LoadedEdition};
use super::source::SourceText;
use super::{Exit, Failure, Outcome, new, show};
use crate::pencil::hand::{self, Refused, by_line};
use crate::pencil::spoken::{self, Row};
use crate::pencil::{Mark, edit, words};
use crate::presets;
use crate::render::files::kept::{self, NotReplaced};
use crate::routine::{Routine, note_names};
use crate::words::{Language, Words, count, tell};
use clap::Args;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

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

    /// The line: its number or its name; several by number (2,4 or 2-4); all for the whole routine
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

fn day(text: &str) -> Result<String, Words> {
    if spoken::is_date(text) {
        Ok(text.to_owned())
    } else {
        Err(tell::day_written())
    }
}

impl PencilCommand {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = SourceText::find(&self.routine)?;
        let Some(routine) = edition::read_routine(console, &source) else {
            return Ok(Exit::Errors);
        };
        if self.show {
            return self.read_out(console, source, routine);
        }
        self.not_the_routine()?;
        let (lines, row) = self.wanted(&routine)?;
        // Two runs at once would lose one mark. Without a turn the file is still compared before it is replaced.
        let _turn = kept::turn(&self.file).ok();
        let text = Text::load(&self.file)?;
        self.change(console, &routine, &lines, &row, &text)
    }

    /// Refuses a pencil that is the routine's own file.
    fn not_the_routine(&self) -> Result<(), Failure> {
        let shown = self.file.display();
        let hint = tell::players_own_file();
        if presets::named(&shown.to_string()).is_some() {
            return Err(Failure::usage(tell::is_built_in(&shown)).hint(hint));
        }
        let same = match (
            fs::canonicalize(&self.routine),
            fs::canonicalize(&self.file),
        ) {
            (Ok(routine), Ok(file)) => routine == file,
            _ => false,
        };
        if same {
            return Err(Failure::usage(tell::is_the_routine(&shown)).hint(hint));
        }
        Ok(())
    }

    /// The lines to mark, and the mark.
    fn wanted(&self, routine: &Routine) -> Result<(Vec<Option<usize>>, Row), Failure> {
        let Some(line) = &self.line else {
            return Err(Failure::usage(tell::no_line_said()).hint(tell::say_line()));
        };
        let lines = hand::lines(line, routine).map_err(refused)?;
        let row = hand::row(&self.mark.join(" ")).map_err(refused)?;
        Ok((lines, row))
    }

    fn read_out(
        &self,
        console: &mut Console,
        source: SourceText,
        routine: Arc<Routine>,
    ) -> Outcome {
        let pencil = edition::find_pencil(self.file.as_os_str())?;
        let opened = LoadedEdition::lay(console, source, routine, Some(pencil), true);
        let Some(opened) = opened else {
            return Ok(Exit::Errors);
        };
        let routine = opened.edition.teacher();
        let Some(pencil) = opened.edition.pencil_as_read() else {
            unreachable!("a pencil was laid over it");
        };
        let whose = match &pencil.player {
            Some(player) => format!("{player}: “{}”", routine.title),
            None => format!("“{}”", routine.title),
        };
        let mut out = format!("{whose}\n");
        for (heading, marks) in by_line(Language::En, &pencil.marks, routine) {
            out += &format!("\n{heading}\n");
            for mark in marks {
                out += &format!("  {}\n", words::mark(Language::En, mark));
            }
        }
        if pencil.marks.is_empty() {
            out += "\nNothing is marked.\n";
        }
        console.data(&super::text::printable(&out))?;
        Ok(opened.exit())
    }

    /// Writes the mark at every line, or erases it there. If one of them is refused, the file stays unchanged.
    fn change(
        &self,
        console: &mut Console,
        routine: &Routine,
        lines: &[Option<usize>],
        row: &Row,
        text: &Text,
    ) -> Outcome {
        let shown = self.file.display().to_string();
        let mut body = match &text.body {
            Some(body) => body.clone(),
            None if self.erase => {
                let failure = Failure::usage(tell::no_pencil_file(&shown));
                return Err(failure.hint(tell::nothing_marked_yet()));
            }
            None => note_names::rewritten(&edit::empty(self.player.as_deref()), routine.names),
        };
        let mut said = vec![];
        for line in lines {
            let changed = if self.erase {
                hand::take_back(&body, &shown, routine, *line, row)
            } else {
                hand::write(&body, routine, *line, row, self.date.as_deref())
            };
            match changed {
                Ok(written) => {
                    body = written.text;
                    said.push(written.said);
                }
                Err(Refused::NotUnderstood(problems)) => {
                    show::problems(console, &text.source(&self.file, &body), &problems);
                    return Ok(Exit::Errors);
                }
                Err(refusal) => return Err(refused(refusal)),
            }
        }
        text.store(&self.file, &body)?;
        for said in said {
            console.say(&said);
        }
        Ok(Exit::Done)
    }
}

/// Converts a refusal into a failure of the command.
fn refused(refusal: Refused) -> Failure {
    match refusal {
        Refused::NotUnderstood(_) => unreachable!("problems of a pencil are shown at their places"),
        Refused::Unfit(problem) => Failure::of(Exit::Errors, problem),
        Refused::NotAMark(problem) => Failure::of(Exit::WrongUsage, problem),
    }
}

/// The text of a pencil's file.
struct Text {
    /// Without a byte order mark; `None` if there is no file.
    body: Option<String>,
    /// True if the file begins with a byte order mark, which some editors write.
    order_mark: bool,
}

impl Text {
    fn load(path: &Path) -> Result<Self, Failure> {
        let nothing = Self {
            body: None,
            order_mark: false,
        };
        match fs::metadata(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(nothing),
            // Reading the file reports other errors.
            _ => {}
        }
        let (found, form) = edition::find_pencil_with_form(path.as_os_str())?;
        if form.old_rows {
            return Err(
                Failure::error(tell::old_row_ends(path.display().to_string()))
                    .hint(tell::save_anew()),
            );
        }
        Ok(Self {
            order_mark: form.order_mark,
            body: Some(found.text),
        })
    }

    fn source(&self, path: &Path, text: &str) -> SourceText {
        let shown = path.display().to_string();
        SourceText {
            carried: None,
            language: None,
            names: None,
            name: shown.clone(),
            argument: shown,
            text: text.to_owned(),
        }
    }

    /// The bytes of the file with this text.
    fn bytes(&self, text: &str) -> Vec<u8> {
        let mark = if self.order_mark { "\u{feff}" } else { "" };
        format!("{mark}{text}").into_bytes()
    }

    /// Replaces the file, if it still is as it was read.
    fn store(&self, path: &Path, text: &str) -> Result<(), Failure> {
        let before = self.body.as_deref().map(|body| self.bytes(body));
        match kept::replace(path, before.as_deref(), &self.bytes(text)) {
            Ok(()) => Ok(()),
            Err(NotReplaced::Changed) => Err(Failure::error(tell::changed_just_now(
                path.display().to_string(),
            ))
            .hint(tell::close_it_there())),
            Err(NotReplaced::System(error)) => {
                Err(new::not_written(path, &error, tell::choose_another_name()))
            }
        }
    }
}

/// `3 marks`, for a line of words.
pub fn tally(marks: &[Mark]) -> Words {
    count::marks(marks.len())
}
