//! The routine file: the note language, the reader, what is read, and faults with their places.

pub mod bounds;
mod broken_row;
pub mod fault;
mod fields;
mod line_reader;
pub mod melody;
pub mod model;
pub mod notes;
mod print;
pub mod reader;
mod resolve;
pub mod source;
pub mod suggest;
mod toml_text;

pub use fault::{Fault, Span};
pub use melody::{Attack, Event, EventKind, Melody, Style};
pub use model::{Articulation, ClickMode, Drone, Guide, Line, On, RestLength, Routine, Walk};
pub use reader::read;
