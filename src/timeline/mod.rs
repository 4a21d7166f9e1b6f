//! What sounds when: only frames, hertz, gains and how one note leads to the next.

pub mod compile;
pub(crate) mod frames;
pub mod held;
mod hertz;
pub mod model;
mod tones;

pub use compile::{Settings, compile};
pub use held::held_note;
pub use model::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Swell, Timeline, Tone, Unit,
};
