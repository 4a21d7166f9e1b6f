//! The printed sheet: lays a score out as pages and draws them as SVG.
//!
//! `part` selects what of a line is written, [`crate::notation`] divides it into bars, `spacing` and `breaks` set the
//! distances, `system` draws one staff, and `layout` places systems, words, head and foot on pages. The result,
//! [`Sheet`], holds glyphs, lines, curves and text at points, and the place of each note. [`svg`] draws it, [`inline`]
//! draws it as a part of a page, and back ends outside the core draw it as PDF and PNG.
//!
//! ```
//! use leadpipe::sheet::{self, SheetOptions, svg};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let sheet = sheet::engrave(&score, &SheetOptions::default());
//! assert!(svg::page(&sheet.pages[0]).starts_with("<svg"));
//! ```

mod above;
mod bar_line;
mod brackets;
mod breaks;
mod canvas;
mod clef_sign;
mod curves;
mod dynamics;
mod fingered;
mod foot;
mod full_score;
pub mod glyph;
mod head;
pub mod inline;
mod joins;
pub mod layout;
pub mod letters;
mod loudness;
mod notes;
pub mod options;
pub mod outline;
pub mod page;
mod pages;
mod paragraph;
mod part;
mod pencil_words;
mod pencilled;
mod placed;
pub mod shape;
mod shape_rows;
mod signature;
pub mod sizes;
mod skyline;
mod slide;
mod slots;
mod spacing;
mod spoken;
pub mod svg;
mod system;
pub mod timetable;
mod titles;
mod words;

pub use full_score::engrave_full_score;
pub use layout::{
    TooLong, engrave, engrave_marked, engrave_pencilled, engrave_sized, engrave_within, strip,
};
pub use options::{Paper, SheetFingerings, SheetOptions, SheetPasses, SheetSize};
pub use page::{Page, Sheet};
