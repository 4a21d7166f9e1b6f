//! What sounds when: only frames, hertz, gains and how one note leads to the next.

pub mod compile;
pub mod model;

pub use compile::compile;
pub use model::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Swell, Timeline, Tone, Unit,
};
