//! What sounds when: only frames, hertz, gains and how one note leads to the next.
//!
//! ```
//! use leadpipe::timeline::{Settings, compile};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let timeline = compile(&score, &Settings { sample_rate: 48_000, signs: true });
//! let frames: u64 = timeline.units.iter().map(|unit| unit.frames).sum();
//! assert_eq!(frames, timeline.frames, "units follow each other without gaps");
//! ```

pub mod compile;
pub(crate) mod frames;
pub mod held;
mod hertz;
pub mod model;
mod rise;
pub mod room;
mod tones;

pub use compile::{Settings, compile};
pub use held::held_note;
pub use model::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Swell, Timeline, Tone, Unit,
};
pub use rise::rise_seconds;
