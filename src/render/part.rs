//! The parts of a track that have files of their own: the mix and its stems.

use crate::synth::Block;
use serde::{Deserialize, Serialize};

/// A part of the sound that has a file of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Part {
    /// All voices together: the track itself.
    Mix,
    /// The guide tone alone.
    Guide,
    /// The drone alone.
    Drone,
    /// Clicks and signs alone.
    Click,
}

impl Part {
    /// The track, then its stems.
    pub const ALL: [Part; 4] = [Part::Mix, Part::Guide, Part::Drone, Part::Click];

    /// Name of the file of this part of the track called `track`.
    pub fn file_name(self, track: &str) -> String {
        match self {
            Part::Mix => format!("{track}.wav"),
            Part::Guide => format!("{track} guide.wav"),
            Part::Drone => format!("{track} drone.wav"),
            Part::Click => format!("{track} click.wav"),
        }
    }

    /// Its frames of a block, as many as `frames` holds.
    pub fn of(self, block: &Block, frames: &mut [f32]) {
        match self {
            Part::Mix => {
                for (i, frame) in frames.iter_mut().enumerate() {
                    *frame = block.mix(i);
                }
            }
            Part::Guide => frames.copy_from_slice(&block.guide[..frames.len()]),
            Part::Drone => frames.copy_from_slice(&block.drone[..frames.len()]),
            Part::Click => frames.copy_from_slice(&block.click[..frames.len()]),
        }
    }
}
