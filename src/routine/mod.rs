//! The routine file: the note language, the reader, what is read, and faults with their places.

pub mod fault;
pub mod fields;
pub mod melody;
pub mod model;
pub mod notes;
pub mod print;
pub mod reader;
pub mod source;
pub mod suggest;

pub use fault::{Fault, Span};
pub use melody::{Attack, Event, EventKind, Melody, Style};
pub use model::{Articulation, ClickMode, Drone, Guide, Line, On, RestLength, Routine, Walk};
pub use reader::read;
