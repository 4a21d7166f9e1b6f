//! The routine file: the note language, the reader, the model, and faults with their places.
//!
//! ```
//! use leadpipe::routine;
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! let routine = routine::read(TEXT).expect("it has no faults");
//! assert_eq!(routine.instrument.name, "trumpet in B-flat");
//!
//! // Every fault has a place, a message and often a hint.
//! let faults = routine::read(&TEXT.replace("half", "hlaf")).unwrap_err();
//! let place = faults[0].span;
//! assert!(TEXT.replace("half", "hlaf")[place.start..place.end].contains("hlaf"));
//! ```

mod bar_fault;
pub mod bounds;
pub(crate) mod broken_row;
pub(crate) mod document;
pub mod fault;
pub(crate) mod fields;
pub(crate) mod line_reader;
pub mod melody;
pub mod model;
pub mod note_names;
pub mod notes;
mod open_text;
mod print;
pub mod reader;
pub(crate) mod resolve;
pub mod skill;
pub mod source;
pub mod suggest;
mod toml_text;
pub mod walk_reader;

pub use fault::{Fault, Span};
pub use melody::{Attack, Event, EventKind, Melody, Style};
pub use model::{
    Articulation, ClickMode, Drone, Guide, Line, On, RestLength, Routine, SlideLegato, Walk,
};
pub use reader::read;
pub use skill::Skill;
