//! The class list: players, each with a routine, a pencil and the takes wanted.
//!
//! [`read`] takes the text of a list to a [`ClassList`]; [`advice`] compares a player with a routine; [`Shard`] deals
//! the players out to several machines. No files here: what a list names is looked for by whoever reads it.
//!
//! ```
//! use leadpipe::class;
//!
//! let read = class::read("format = 1\n[[player]]\nname = \"Anna\"\nroutine = \"second-steps\"\n");
//! assert!(read.faults.is_empty());
//! assert_eq!(read.list.unwrap().players.len(), 1);
//! ```

pub mod advice;
pub mod bounds;
pub mod list;
pub mod reader;
pub mod shard;

pub use list::{ClassList, Listed, Named, NotUnderstood, Player};
pub use reader::{Read, read};
pub use shard::Shard;
