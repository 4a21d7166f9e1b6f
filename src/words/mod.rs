//! How numbers and musical things are said: how many, how long, how large, which key, which note.
//!
//! Every part of leadpipe that says such a thing says it with these functions, so that a pupil reads it in the
//! same words on the sheet, on the page and in the terminal.
//!
//! What a pupil reads is said in a [`Language`], with the words of the Fluent files in `languages`. What a teacher reads is
//! made as [`Words`], which hold it in every language; where it is shown, it is said in one.
//! What is typed into files (`2 bars`, `slurred`) belongs to the file formats and stands where they are read.
//!
//! Only [`music`](crate::music) lies below this module.
//!
//! ```
//! use leadpipe::words::{Language, count, duration, key, list};
//!
//! assert_eq!(count::lines(1), "1 line");
//! assert_eq!(duration(3723.0), "1:02:03");
//! assert_eq!(key::moved(Language::En, -2), "2 half steps down");
//! assert_eq!(key::moved(Language::De, -2), "2 Halbtöne tiefer");
//! assert_eq!(list::and(&["in", "hold", "out"]), "in, hold and out");
//! ```

pub mod beats;
mod catalogue;
pub mod count;
pub mod duration;
pub mod interval;
pub mod key;
pub mod list;
pub mod ordinal;
pub mod pitch;
pub mod size;
pub mod tempo;
mod told;

pub use catalogue::Language;
#[cfg(any(feature = "cli", feature = "workshop"))]
pub(crate) use catalogue::SCRIPT;
pub(crate) use catalogue::say;
pub use count::count;
pub use duration::duration;
pub use size::size;
pub use told::Words;
pub(crate) use told::{figures, tell};
