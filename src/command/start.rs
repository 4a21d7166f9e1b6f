//! `leadpipe` without a command: its purpose and the first steps.

use super::console::Console;
use super::{Exit, Outcome};

const WORDS: &str = "\
leadpipe makes play-along tracks for a brass player's daily warm-up.

You write a routine once, as text: lines of notes with their slurs, breaths and rests. leadpipe
checks it as a teacher would, and renders it as sound at every tempo and in every key you name:
it counts in, gives the pitch, plays along or plays first, and leaves as much rest as playing.

Three commands to go on with:

  leadpipe choose G4     which built-in routine suits a player whose highest easy open note is G4
  leadpipe render        three tracks of a built-in routine to play along with, in output/
  leadpipe new anna      a routine of your own to change, in anna.toml

leadpipe --help names all commands; leadpipe render --help shows examples of one.
";

/// Runs the command.
pub fn run(console: &mut Console) -> Outcome {
    console.data(WORDS)?;
    Ok(Exit::Done)
}
