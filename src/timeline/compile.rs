//! Score → timeline.
use super::Timeline;
use crate::score::Score;

/// Resolves a score to frames at `sample_rate`.
pub fn compile(score: &Score<'_>, sample_rate: u32) -> Timeline {
    let _ = score;
    Timeline {
        sample_rate,
        frames: 0,
        units: vec![],
        cues: vec![],
    }
}
