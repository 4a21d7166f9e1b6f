//! How a unit of the timeline sounds.
//!
//! Three voices fill blocks of 64 frames: the guide ([`horn`], and [`breath`] on air lines), the
//! [`drone`], and the [`click`] with its [`signs`]. Each is a [fundsp] node of its own that reads tables
//! and prepared sounds made once an [`Engine`]; their [`levels`] are set by construction.
//!
//! A performance begins afresh at its unit's first frame and knows nothing of what came before, so the
//! same unit always gives the same bits.

pub mod block;
pub mod breath;
pub mod click;
mod contour;
mod drift;
pub mod drone;
pub mod engine;
mod graph;
pub mod horn;
pub mod levels;
pub mod mix;
pub mod performance;
pub mod signs;
pub mod spectrum;
pub mod steps;
pub mod tables;

pub use block::{BLOCK, Block};
pub use click::{CLICK_PEAK_FRAMES, CLICK_SECONDS};
pub use engine::{Engine, Life};
pub use mix::{Balance, Heard};
pub use performance::{Performance, is_silent};
pub use signs::SIGN_SECONDS;
