//! A player's pencil: marks laid over a routine, which stays as its teacher wrote it.
//!
//! [`read`] takes the text of a pencil to its marks, [`lay()`] lays them over a [`crate::routine::Routine`] and gives
//! another one, with a fault for every mark that does not fit. [`edit`] writes a mark into the text and takes it
//! back; [`spoken`] reads one as it is typed, [`words`] says it, [`hand`] does all of this for somebody who marks.
//!
//! ```
//! use leadpipe::pencil;
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! let pencil = pencil::read("format = 1\n[[mark]]\nline = 1\ntimes = 3\n").pencil.unwrap();
//! let laid = pencil::lay(&pencil, &routine);
//! assert!(laid.faults.is_empty());
//! assert_eq!(laid.routine.lines[0].times, 3);
//! ```

mod apply;
pub mod bounds;
pub mod edit;
pub mod hand;
pub mod lay;
pub mod mark;
mod notes;
pub mod reader;
pub mod spoken;
pub mod words;

pub use lay::{Laid, LaidLine, lay};
pub use mark::{Change, Mark, Pencil, RestChange, Target, TempoChange};
pub use reader::{Read, read};
