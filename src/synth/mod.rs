//! How a unit of the timeline sounds.
//!
//! Three voices fill blocks of 64 frames: the guide ([`horn`], and [`breath`] on air lines), the
//! [`drone`], and the [`click`] with its [`signs`]. Each is a [fundsp] node of its own that reads tables
//! and prepared sounds made once an [`Engine`]; their [`levels`] are set by construction.
//!
//! A performance begins afresh at its unit's first frame and knows nothing of what came before, so the
//! same unit always gives the same bits.
//!
//! ```
//! use leadpipe::synth::{Block, Engine};
//! use leadpipe::timeline::{Settings, compile};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let timeline = compile(&score, &Settings { sample_rate: 44_100, signs: true });
//! let engine = Engine::new(44_100);
//! let unit = &timeline.units[1];
//! let mut performance = engine.perform(unit);
//! let mut block = Block::SILENT;
//! let mut samples: Vec<f32> = vec![];
//! loop {
//!     let frames = performance.next_block(&mut block);
//!     if frames == 0 {
//!         break;
//!     }
//!     samples.extend((0..frames).map(|frame| block.mix(frame)));
//! }
//! assert_eq!(samples.len() as u64, unit.frames);
//! ```

pub mod block;
pub mod breath;
pub mod click;
mod contour;
mod drift;
pub mod drone;
pub mod engine;
pub mod families;
mod graph;
pub mod horn;
pub mod levels;
pub mod mix;
pub mod performance;
pub mod signs;
pub mod spectrum;
mod starting;
pub mod steps;
pub mod tables;

pub use block::{BLOCK, Block};
pub use click::{CLICK_PEAK_FRAMES, CLICK_SECONDS};
pub use engine::{Engine, Life};
pub use mix::{Balance, Heard};
pub use performance::{Performance, is_silent};
pub use signs::SIGN_SECONDS;
