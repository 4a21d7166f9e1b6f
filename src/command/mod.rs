//! The command line: one file per command, without musical decisions.
//!
//! Data goes to standard output, messages and progress to standard error.

#[cfg(not(feature = "exchange"))]
pub mod absent;
#[cfg(feature = "exchange")]
pub mod adopt;
pub mod carried;
pub mod chart;
pub mod check;
pub mod choose;
pub mod class;
pub mod completions;
pub mod console;
pub mod desk;
pub mod edition;
#[cfg(feature = "exchange")]
pub mod export;
pub mod failure;
pub mod findings;
pub mod formats;
pub mod handout;
pub mod instruments;
mod language;
pub mod list;
#[cfg(feature = "exchange")]
mod music;
pub mod new;
mod output;
pub mod pencil;
mod port;
pub mod progress;
pub mod render;
pub mod rendered;
#[cfg(feature = "share")]
pub mod share;
pub mod sheet;
pub mod show;
mod signals;
pub mod source;
pub mod start;
pub mod table;
pub mod takes;
pub mod text;
pub mod tone;
pub mod usage;

use clap::{CommandFactory, Parser, Subcommand};
use console::Console;
pub use failure::{Exit, Failure, Outcome};
use std::ffi::OsString;
use std::io::{self, Write};

/// Turns a brass warm-up routine, written once as text, into checked, exact play-along tracks.
#[derive(Debug, Parser)]
#[command(name = "leadpipe", version, after_help = EXAMPLES, max_term_width = 100)]
pub struct Arguments {
    #[command(flatten)]
    language: language::LanguageOption,

    #[command(subcommand)]
    command: Option<Command>,
}

const EXAMPLES: &str = "\
Examples:
  leadpipe desk                         write, hear and print in the browser
  leadpipe choose G4                    which built-in routine suits a player
  leadpipe render                       three tracks of a built-in routine, in output/
  leadpipe new anna --from first-steps  a copy to change: anna.toml
  leadpipe check anna.toml              what there is to say of it
  leadpipe render anna.toml --tempo 100%,80%
  leadpipe pencil anna.toml anna.pencil.toml 3 slower   a pupil's mark, in a file of its own
  leadpipe handout anna.toml --out anna                 a folder for a pupil's phone: anna
  leadpipe class tuesday.toml           a handout for every player of a class
  leadpipe sheet anna.toml              the same on paper, as PDF

Exit codes: 0 all is well (warnings too), 1 errors in a routine or a track that could not be
written, 2 wrong usage, 130 stopped with Ctrl-C.";

#[derive(Debug, Subcommand)]
enum Command {
    #[cfg(feature = "exchange")]
    Adopt(adopt::Adopt),
    #[cfg(not(feature = "exchange"))]
    #[command(hide = true)]
    Adopt(absent::Absent),
    Chart(chart::Chart),
    Check(check::Check),
    Choose(choose::Choose),
    Class(class::Class),
    Desk(desk::Desk),
    #[cfg(feature = "exchange")]
    Export(export::Export),
    #[cfg(not(feature = "exchange"))]
    #[command(hide = true)]
    Export(absent::Absent),
    List(list::List),
    New(new::New),
    Pencil(pencil::PencilCommand),
    Render(render::Render),
    Handout(handout::Handout),
    #[cfg(feature = "share")]
    Share(share::Share),
    Sheet(sheet::SheetCommand),
    Tone(tone::ToneCommand),
    Completions(completions::Completions),
}

/// Runs the program with these arguments, its own name first, and says how it should exit.
pub fn run(arguments: impl Iterator<Item = OsString>) -> u8 {
    signals::let_writes_fail();
    let arguments: Vec<OsString> = arguments.collect();
    let language = language::spoken(&arguments);
    let mut console = Console::standard(language);
    let outcome = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments.run(&mut console),
        Err(error) => {
            if let Some(failure) = usage::failure(&error) {
                console.fail(&failure);
                return failure.exit().code();
            }
            // Help and version come this way too: they are data, and fail as data does.
            return match error.print().and_then(|()| io::stdout().flush()) {
                Ok(()) => u8::try_from(error.exit_code()).unwrap_or(Exit::WrongUsage.code()),
                Err(error) => {
                    let failure = Failure::from(error);
                    console.fail(&failure);
                    failure.exit().code()
                }
            };
        }
    };
    match outcome {
        Ok(exit) => exit.code(),
        Err(failure) => {
            console.fail(&failure);
            failure.exit().code()
        }
    }
}

impl Arguments {
    fn run(self, console: &mut Console) -> Outcome {
        console.ask(self.language);
        match self.command {
            None => start::run(console),
            #[cfg(feature = "exchange")]
            Some(Command::Adopt(command)) => command.run(console),
            #[cfg(not(feature = "exchange"))]
            Some(Command::Adopt(command)) => command.run("MusicXML and MIDI", "exchange"),
            Some(Command::Chart(command)) => command.run(console),
            Some(Command::Check(command)) => command.run(console),
            Some(Command::Choose(command)) => command.run(console),
            Some(Command::Class(command)) => command.run(console),
            Some(Command::Desk(command)) => command.run(console),
            #[cfg(feature = "exchange")]
            Some(Command::Export(command)) => command.run(console),
            #[cfg(not(feature = "exchange"))]
            Some(Command::Export(command)) => command.run("MusicXML and MIDI", "exchange"),
            Some(Command::List(command)) => command.run(console),
            Some(Command::New(command)) => command.run(console),
            Some(Command::Pencil(command)) => command.run(console),
            Some(Command::Render(command)) => command.run(console),
            Some(Command::Handout(command)) => command.run(console),
            #[cfg(feature = "share")]
            Some(Command::Share(command)) => command.run(console),
            Some(Command::Sheet(command)) => command.run(console),
            Some(Command::Tone(command)) => command.run(console),
            Some(Command::Completions(command)) => command.run(console, &mut Arguments::command()),
        }
    }
}
