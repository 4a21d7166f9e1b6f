//! A group: players of different instruments who play one routine together.
//!
//! [`arrange`] gives every instrument a routine of its own, as text, with the same clock: the same count-ins, lengths and
//! rests. A line that all can play at one concert pitch is played by all, each in the octave that is comfortable. A line that
//! they cannot share, such as a walk through the tubes of horns in F and in B-flat, is played in turn: first by those who can
//! play it at its concert pitch, then by each kind of horn on its own tubes. Whoever has no turn rests and counts.
//!
//! ```
//! use leadpipe::brass::Instrument;
//! use leadpipe::group::arrange;
//!
//! let text = r#"
//! format = 1
//! title = "Tubes"
//! instrument = "trumpet in B-flat"
//! comfortable_top = "G4"
//! tempo = 72
//! [[line]]
//! name = "Seven lengths of tube"
//! open = "slur( C4:half G4:half | C4:whole )"
//! tubes = ["0", "2", "1"]
//! "#;
//! let instruments = ["trumpet", "trombone", "horn in F"].map(|name| Instrument::named(name).unwrap());
//! let group = arrange(text, &instruments).unwrap();
//! // The trombone has the trumpet's tubes an octave lower; the horn has its own, and plays them by itself.
//! assert_eq!(group.turns[0].players, [0, 1]);
//! assert_eq!(group.turns[1].players, [2]);
//! assert!(group.parts[2].contains("on = \"rest\""));
//! ```

mod model;
mod part;
mod turns;

pub use model::{Arranged, GroupError, RestingPlayer, Turn};

use crate::brass::Instrument;
use crate::routine;

/// Arranges the routine with this text for these instruments. Instruments may come more than once.
///
/// # Errors
/// If the text is no routine, or if an instrument can play none of its lines.
pub fn arrange(text: &str, instruments: &[&'static Instrument]) -> Result<Arranged, GroupError> {
    let routine = routine::read(text).map_err(GroupError::Unreadable)?;
    let carried = instruments
        .iter()
        .enumerate()
        .map(|(player, to)| turns::CarriedPart::of(text, to, routine.lines.len(), player))
        .collect::<Result<Vec<_>, _>>()?;
    let (turns, resting) = turns::of(&routine, instruments, &carried);
    let mut parts = vec![];
    for (player, carried) in carried.iter().enumerate() {
        parts.push(part::text(
            &routine,
            text,
            instruments,
            player,
            carried,
            &turns,
        )?);
    }
    Ok(Arranged {
        parts,
        turns,
        resting,
    })
}
