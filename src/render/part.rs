//! The parts of a track that have files of their own: the mix and its stems.

use super::file_kind::FileKind;
use crate::synth::Heard;
use serde::{Deserialize, Serialize};

/// A part of the sound that has a file of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum TrackPart {
    /// All voices together.
    Mix,
    /// The guide tone alone.
    Guide,
    /// The drone alone.
    Drone,
    /// Clicks and signs alone.
    Click,
}

impl TrackPart {
    /// The track, then its stems.
    pub const ALL: [TrackPart; 4] = [
        TrackPart::Mix,
        TrackPart::Guide,
        TrackPart::Drone,
        TrackPart::Click,
    ];

    /// File name of this part of the track called `track`.
    pub fn file_name(self, track: &str, kind: FileKind) -> String {
        let ending = kind.word();
        match self.word() {
            None => format!("{track}.{ending}"),
            Some(word) => format!("{track} {word}.{ending}"),
        }
    }

    /// The voice that is heard in a stem; `None` for the mix.
    pub fn word(self) -> Option<&'static str> {
        match self {
            TrackPart::Mix => None,
            TrackPart::Guide => Some("guide"),
            TrackPart::Drone => Some("drone"),
            TrackPart::Click => Some("click"),
        }
    }

    /// What is heard in it, for a stereo or a mono mix.
    pub fn heard(self, spread: bool) -> Heard {
        match self {
            TrackPart::Mix if spread => Heard::Spread,
            TrackPart::Mix => Heard::Mix,
            TrackPart::Guide => Heard::Guide,
            TrackPart::Drone => Heard::Drone,
            TrackPart::Click => Heard::Click,
        }
    }
}
