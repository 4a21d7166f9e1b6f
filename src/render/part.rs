//! The parts of a track that have files of their own: the mix and its stems.

use super::file_kind::FileKind;
use crate::synth::Heard;
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

    /// What of a block sounds in it, where the voices of the mix are spread or not.
    pub fn heard(self, spread: bool) -> Heard {
        match self {
            Part::Mix if spread => Heard::Spread,
            Part::Mix => Heard::Mix,
            Part::Guide => Heard::Guide,
            Part::Drone => Heard::Drone,
            Part::Click => Heard::Click,
        }
    }
}
