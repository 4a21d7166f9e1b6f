//! A routine at one take: every line's passes in order, and every note with its written and sounding
//! pitch, fingering, partial, exact time and place in the file.
//!
//! ```
//! use leadpipe::score::{self, Take};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! let take = Take { tempo: score::spoken::tempo("85%").unwrap(), ..Take::default() };
//! let score = score::unroll(&routine, &take).expect("the tempo is within bounds");
//! let first = &score.lines[0].passes[0].notes[0];
//! assert_eq!(score.routine.lines[0].melody.events[first.event].span, first.span);
//! ```

pub mod model;
pub mod pass;
pub mod spoken;
pub mod take;
pub mod unroll;

pub use model::{Joined, Notice, NoticeKind, Pass, Played, Score, ScoreLine, ScoreNote, ScoreRest};
pub use pass::{Placement, spelling};
pub use take::{Take, TakeKey, TakeTempo};
pub use unroll::{TakeFault, unroll};
