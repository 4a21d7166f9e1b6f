//! A player's pencil: marks laid over a routine, which stays as its teacher wrote it.
//!
//! [`read`] takes the text of a pencil to its marks, [`lay()`] lays them over a [`crate::routine::Routine`] and gives
//! another one, with a fault for every mark that does not fit. [`edit`] writes a mark into the text and takes it
//! back; [`spoken`] reads one as it is typed, [`words`] says it, [`hand`] does all of this for somebody who marks.

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
