//! A routine at one take: every line's passes in order, and every note with its written and sounding
//! pitch, fingering, partial, exact time and place in the file.

pub mod model;
pub mod pass;
pub mod spoken;
pub mod take;
pub mod unroll;

pub use model::{Joined, Notice, NoticeKind, Pass, Played, Score, ScoreLine, ScoreNote, ScoreRest};
pub use pass::Placement;
pub use take::{Take, TakeTempo};
pub use unroll::{TakeFault, unroll};
