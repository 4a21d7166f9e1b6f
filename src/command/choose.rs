//! `leadpipe choose`: which built-in routine suits a player.

use super::carried::instrument;
use super::console::Console;
use super::text::wrapped;
use super::{Exit, Failure, Outcome};
use crate::brass::{AgeBand, Instrument, caution};
use crate::music::{NoteNames, WrittenPitch};
use crate::presets::choose::{self, OtherRoutine, Player, RoutineChoice};
use crate::words::{Words, tell};
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
        let named = |text: &str| named(console.names(), text);
        let highest = named(&highest)?;
        let lowest = self.lowest.as_deref().map(named).transpose()?;
        if let Some(lowest) = lowest
            && lowest.number() > highest.number()
        {
            return Err(
                Failure::usage(tell::lies_above(lowest, highest)).hint(tell::lowest_and_highest())
            );
        }
        let player = Player {
            highest,
            lowest,
            age: self.age,
            names: console.names().unwrap_or_default(),
        };
        let choice = choose::choose(self.instrument, player);
        console.data(&answer(console, &choice))?;
        Ok(Exit::Done)
    }
}

fn answer(console: &Console, choice: &RoutineChoice) -> String {
    let said = |words: &Words| console.said(words).into_owned();
    // A heading in a column of its own.
    let headed = |heading: Words, text: &str| wrapped(&format!("{:<12}", said(&heading)), text);
    let other = |one: &OtherRoutine| format!("{}, {}", one.routine, said(&one.when));
    let mut answer = format!("{}\n\n", said(&choice.note));
    if let Some((steps, line)) = &choice.one_note {
        for (number, step) in steps.iter().enumerate() {
            answer += &wrapped(&format!("{}.  ", number + 1), &said(step));
        }
        answer += &format!("\n{}\n\n{line}\n", said(&tell::as_a_line()));
        let then = tell::then_when(choice.routine, &choice.why);
        answer += &headed(tell::then_play(), &said(&then));
    } else {
        answer += &headed(tell::start_with(), choice.routine);
        answer += &headed(tell::why(), &said(&choice.why));
        if let Some(next) = &choice.next {
            answer += &headed(tell::then_play(), &other(next));
        }
        if let Some(easier) = &choice.easier {
            answer += &headed(tell::easier(), &other(easier));
        }
    }
    if let Some(ask) = &choice.ask {
        answer += &format!("\n{}", wrapped("", &said(ask)));
    }
    answer + &format!("\n{}", wrapped("", caution::short(console.language())))
}

/// Reads a note in the names that are asked for.
fn named(names: Option<NoteNames>, text: &str) -> Result<WrittenPitch, Failure> {
    let read = names.and_then(|names| names.parse(text.trim()));
    read.map_or_else(|| pitch(text), Ok)
}

/// Reads a note in English names; its letter may be lower case.
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
            tell::german_h()
        } else {
            tell::how_a_note_is_typed()
        };
        Failure::usage(tell::is_not_a_note(text)).hint(hint)
    })
}
