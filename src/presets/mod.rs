//! The routines that come with the program, what their notes ask for, and which of them suits a player.

pub mod choose;
pub mod facts;
pub mod levels;
pub mod list;
pub mod one_note;
mod translated;

pub use facts::facts;
pub use list::{ALL, DEFAULT, Preset, is_starter, named, suggestion, usual};
pub use translated::translated;
