//! `leadpipe choose`: which built-in routine suits a player.

use super::console::Console;
use super::text::wrapped;
use super::{Exit, Failure, Outcome};
use crate::brass::{Instrument, caution, choose};
use crate::music::WrittenPitch;
use clap::Args;

/// Say which built-in routine suits a player
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe choose G4    the highest open note that speaks with ease is G4, second-line G
  leadpipe choose c5")]
pub struct Choose {
    /// The highest note without valves that is played with ease, as written
    note: String,
}

impl Choose {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let top = pitch(&self.note)?;
        let trumpet = Instrument::named("trumpet in B-flat")
            .expect("the first instrument a teacher thinks of is among them");
        let choice = choose::choose(trumpet, top);
        let mut answer = format!("{}\n\n", choice.note);
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
        if let Some(ask) = &choice.ask {
            answer += &format!("\n{}", wrapped("", ask));
        }
        answer += &format!("\n{}", wrapped("", caution::SHORT));
        console.data(&answer)?;
        Ok(Exit::Done)
    }
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
