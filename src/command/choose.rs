//! `leadpipe choose`: which built-in routine suits a player.

use super::carried::instrument;
use super::console::Console;
use super::text::wrapped;
use super::{Exit, Failure, Outcome};
use crate::brass::{AgeBand, Instrument, caution};
use crate::music::WrittenPitch;
use crate::presets::choose::{self, Player, RoutineChoice};
use crate::words::Language;
use clap::Args;

/// Say which built-in routine suits a player
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe choose G4                           the highest open note that speaks with ease is G4, second-line G
  leadpipe choose c5 --age 8-10                with phrases for a short breath
  leadpipe choose Bb2 --instrument trombone    for another instrument than a trumpet
  leadpipe choose --lowest G4 --highest G4     stuck on one note: a way to a second one")]
pub struct Choose {
    /// The highest open note that is played with ease, as written
    #[arg(required_unless_present = "highest", conflicts_with = "highest")]
    note: Option<String>,
    /// The same
    #[arg(long, value_name = "NOTE")]
    highest: Option<String>,
    /// The lowest note that is played with ease
    #[arg(long, value_name = "NOTE")]
    lowest: Option<String>,
    /// What the player plays: trombone, "horn in F"; leadpipe list --instruments names all
    #[arg(long, value_name = "NAME", value_parser = instrument, default_value = "trumpet in B-flat")]
    instrument: &'static Instrument,
    /// How old the player is: 8-10, 11-13, 14-16 or adult
    #[arg(long, value_parser = super::check::age)]
    age: Option<AgeBand>,
}

impl Choose {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let highest = self.note.or(self.highest).unwrap_or_default();
        let highest = pitch(&highest)?;
        let lowest = self.lowest.as_deref().map(pitch).transpose()?;
        if let Some(lowest) = lowest
            && lowest.number() > highest.number()
        {
            return Err(Failure::usage(format!("{lowest} lies above {highest}"))
                .hint("--lowest is the lowest note that is easy, --highest the highest"));
        }
        let player = Player {
            highest,
            lowest,
            age: self.age,
        };
        console.data(&answer(&choose::choose(self.instrument, player)))?;
        Ok(Exit::Done)
    }
}

fn answer(choice: &RoutineChoice) -> String {
    let mut answer = format!("{}\n\n", choice.note);
    if let Some((steps, line)) = &choice.one_note {
        for (number, step) in steps.iter().enumerate() {
            answer += &wrapped(&format!("{}.  ", number + 1), step);
        }
        answer += "\nAs a line of a routine (leadpipe new makes one to put it into):\n\n";
        answer += line;
        answer += "\n";
        let then = format!(
            "{}, when two notes come by themselves. {}",
            choice.routine, choice.why
        );
        answer += &wrapped("Then        ", &then);
    } else {
        answer += &wrapped("Start with  ", choice.routine);
        answer += &wrapped("Why         ", &choice.why);
        if let Some(next) = &choice.next {
            answer += &wrapped("Then        ", &format!("{}, {}", next.routine, next.when));
        }
        if let Some(easier) = &choice.easier {
            answer += &wrapped(
                "Easier      ",
                &format!("{}, {}", easier.routine, easier.when),
            );
        }
    }
    if let Some(ask) = &choice.ask {
        answer += &format!("\n{}", wrapped("", ask));
    }
    answer + &format!("\n{}", wrapped("", caution::short(Language::En)))
}

/// Reads a note; its letter may be lower case.
pub(super) fn pitch(text: &str) -> Result<WrittenPitch, Failure> {
    let text = text.trim();
    let mut letters = text.chars();
    let capital: String = letters
        .next()
        .map(|first| first.to_ascii_uppercase())
        .into_iter()
        .chain(letters)
        .collect();
    WrittenPitch::parse(&capital).ok_or_else(|| {
        let is_h = capital
            .strip_prefix('H')
            .is_some_and(|rest| WrittenPitch::parse(&format!("B{rest}")).is_some());
        let hint = if is_h {
            "the note called H in German is B here: B4"
        } else {
            "write a letter, # or b if there is one, and the octave: G4 is second-line G, C4 the C \
             on the first ledger line below"
        };
        Failure::usage(format!("“{text}” is not a note")).hint(hint)
    })
}
