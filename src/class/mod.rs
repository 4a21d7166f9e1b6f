//! The class list: players, each with a routine, a pencil and the takes wanted.
//!
//! [`read`] turns the text of a list into a [`ClassList`]; [`advice`] compares a player with a routine;
//! [`Shard`] splits the players among several machines. This module opens no files: its caller looks for the
//! files that a list names.
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
mod group_reader;
pub mod list;
pub mod reader;
pub mod shard;
mod takes_reader;

pub use list::{ClassList, Group, Listed, Named, NotUnderstood, Player};
pub use reader::{ClassRead, read};
pub use shard::Shard;
