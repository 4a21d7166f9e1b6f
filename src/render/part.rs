//! The parts of a track that have files of their own: the mix and its stems.

use super::file_kind::FileKind;
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
    pub fn file_name(self, track: &str, kind: FileKind) -> String {
        let ending = kind.word();
        match self.word() {
            None => format!("{track}.{ending}"),
            Some(word) => format!("{track} {word}.{ending}"),
        }
    }

    /// What is heard in a stem; nothing for the track itself.
    pub fn word(self) -> Option<&'static str> {
        match self {
            Part::Mix => None,
            Part::Guide => Some("guide"),
            Part::Drone => Some("drone"),
            Part::Click => Some("click"),
        }
    }

    /// Its first samples of a block, as many as `samples` holds: two a frame if the voices of the mix are
    /// spread, else one.
    pub fn of(self, block: &Block, spread: bool, samples: &mut [f32]) {
        match self {
            Part::Mix if spread => {
                let (frames, _) = samples.as_chunks_mut();
                for (i, frame) in frames.iter_mut().enumerate() {
                    *frame = block.spread(i);
                }
            }
            Part::Mix => {
                for (i, sample) in samples.iter_mut().enumerate() {
                    *sample = block.mix(i);
                }
            }
            Part::Guide => samples.copy_from_slice(&block.guide[..samples.len()]),
            Part::Drone => samples.copy_from_slice(&block.drone[..samples.len()]),
            Part::Click => samples.copy_from_slice(&block.click[..samples.len()]),
        }
    }
}
