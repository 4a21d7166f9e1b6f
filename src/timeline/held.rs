//! One note by itself: tongued, held, let go as at the end of a phrase.

use super::frames::nearest;
use super::model::{Approach, Content, LevelPoint, LineSound, Onset, Source, Step, Tone, Unit};
use super::rise::rise_seconds;
use super::tones::PHRASE_RELEASE_MS;
use crate::brass::Family;
use crate::music::{Dynamic, Seconds, SoundingPitch, Tuning};

/// A note of the guide that fills a unit of its own, from its first frame to its last. The same note has
/// the same noise and drift every time.
pub fn held_note(
    family: Family,
    pitch: SoundingPitch,
    tuning: Tuning,
    dynamic: Dynamic,
    seconds: Seconds,
    sample_rate: u32,
) -> Unit {
    let frames = nearest(seconds, sample_rate).max(1);
    let release = nearest(Seconds::new(PHRASE_RELEASE_MS, 1000), sample_rate);
    let (hz, db) = (tuning.hz(pitch), dynamic.level_db());
    let rise = rise_seconds(family, hz, db, Onset::Tongue) * f64::from(sample_rate);
    let tone = Tone {
        frame: 0,
        end: frames,
        rise: rise as u64,
        onset: Onset::Tongue,
        accented: false,
        release: release.min(frames / 3),
        source: Source::Horn,
        family,
        steps: vec![Step {
            frame: 0,
            hz,
            approach: Approach::Start,
        }],
        levels: vec![LevelPoint { frame: 0, db }],
        seed: pitch.number().unsigned_abs().into(),
    };
    Unit {
        first_frame: 0,
        frames,
        content: Content::Line(LineSound {
            tones: vec![tone],
            ..LineSound::default()
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_note_fills_its_unit() {
        let pitch = SoundingPitch::from_number(69);
        let seconds = Seconds::new(1, 10);
        let unit = held_note(
            Family::Trumpet,
            pitch,
            Tuning::ISO_16,
            Dynamic::F,
            seconds,
            48_000,
        );
        let Content::Line(line) = &unit.content else {
            panic!("a line");
        };
        let tone = &line.tones[0];
        assert_eq!((unit.frames, tone.end, tone.release), (4_800, 4_800, 1_600));
        assert_eq!((tone.steps[0].hz, tone.levels[0].db), (440.0, 0.0));
    }
}
