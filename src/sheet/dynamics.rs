//! Signs of loudness: their glyphs, and the room that a hairpin needs between them.

use super::glyph::Glyph;
use crate::music::{Dynamic, Whole};
use crate::routine::melody::LoudnessChange;

/// The glyph of a dynamic.
pub fn glyph(dynamic: Dynamic) -> Glyph {
    match dynamic {
        Dynamic::Pp => Glyph::DynamicPP,
        Dynamic::P => Glyph::DynamicPiano,
        Dynamic::Mp => Glyph::DynamicMP,
        Dynamic::Mf => Glyph::DynamicMF,
        Dynamic::F => Glyph::DynamicForte,
        Dynamic::Ff => Glyph::DynamicFF,
    }
}

/// Between a sign and a hairpin.
pub const APART: f64 = 0.45;
/// The shortest hairpin that is seen as one.
pub const SHORTEST_HAIRPIN: f64 = 5.0;
/// The middle of a sign, from the left edge of its note.
pub const UNDER_NOTE: f64 = 0.59;
/// The middle of a sign that stands before the end of its note, from that end.
pub const BEFORE_END: f64 = -1.2;

/// The changes that are written. The loudness that a pass starts with by default is not.
pub fn written(changes: &[LoudnessChange]) -> &[LoudnessChange] {
    changes.get(1..).unwrap_or(&[])
}

/// A stretch of a pass and the least distance between its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HairpinRoom {
    /// Where the hairpin begins.
    pub since: Whole,
    /// The moment of the sign after it.
    pub at: Whole,
    /// The distance if that sign stands under a note.
    pub under_note: f64,
    /// The distance if it stands before the end of a note.
    pub before_end: f64,
}

/// The room for every hairpin of a pass.
pub fn hairpin_rooms(changes: &[LoudnessChange]) -> Vec<HairpinRoom> {
    let changes = written(changes);
    let half = |dynamic| glyph(dynamic).width() / 2.0;
    let of = |change: &LoudnessChange| {
        let since = change.since?;
        let sign = changes.partition_point(|other| other.at < since);
        let sign = changes.get(sign).filter(|sign| sign.at == since);
        let before = sign.map_or(0.0, |sign| UNDER_NOTE + half(sign.to) + APART);
        let least = before + SHORTEST_HAIRPIN + APART + half(change.to);
        Some(HairpinRoom {
            since,
            at: change.at,
            under_note: least - UNDER_NOTE,
            before_end: least - BEFORE_END,
        })
    };
    changes.iter().filter_map(of).collect()
}
