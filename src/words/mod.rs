//! How numbers and musical things are said: how many, how long, how large, which key, which note.
//!
//! Every part of leadpipe that says such a thing says it with these functions, so that a pupil reads it in the
//! same words on the sheet, on the page and in the terminal, and a translator finds all of it in one folder.
//! What is typed into files (`2 bars`, `slurred`) belongs to the file formats and stands where they are read.
//!
//! Only [`music`](crate::music) lies below this module.
//!
//! ```
//! use leadpipe::words::{count, duration, key, list};
//!
//! assert_eq!(count::lines(1), "1 line");
//! assert_eq!(duration(3723.0), "1:02:03");
//! assert_eq!(key::moved(-2), "2 half steps down");
//! assert_eq!(list::and(&["in", "hold", "out"]), "in, hold and out");
//! ```

pub mod beats;
pub mod count;
pub mod duration;
pub mod interval;
pub mod key;
pub mod list;
pub mod ordinal;
pub mod pitch;
pub mod size;
pub mod tempo;

pub use count::count;
pub use duration::duration;
pub use size::size;
