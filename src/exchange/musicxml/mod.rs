//! MusicXML 4.0, <https://www.w3.org/2021/06/musicxml40/>.

pub mod container;
mod direction_reader;
mod directions;
mod document;
mod element;
mod filling;
mod head;
mod measures;
mod nodes;
mod note_reader;
mod notes;
pub mod read;
mod reading;
mod signs;
pub mod text;
pub mod write;

pub use notes::FingeredNotes;
pub use read::read;
pub use write::{write, write_parts};
