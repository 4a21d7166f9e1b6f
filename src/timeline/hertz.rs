//! The frequencies of a pass and of its drone in a take's tuning.

use crate::brass::{Instrument, partials};
use crate::music::{SoundingPitch, Temperament, Tuning};
use crate::score::{Joined, Pass, Played, Score, ScoreNote};

/// The tuning of a pass.
#[derive(Clone, Copy, Debug)]
pub struct Hertz {
    tuning: Tuning,
    instrument: &'static Instrument,
    tonic: Option<SoundingPitch>,
}

impl Hertz {
    /// For the notes and the drone of `pass`.
    pub fn of(score: &Score<'_>, pass: &Pass) -> Self {
        let instrument = score.instrument();
        Self {
            tuning: score.take.tuning,
            instrument,
            tonic: pass.tonic.map(|tonic| instrument.sounding(tonic)),
        }
    }

    /// A note's frequency in Hz; `None` for breathing actions.
    pub fn note(&self, note: &ScoreNote) -> Option<f64> {
        let Played::Pitch {
            sounding,
            tube,
            partial,
            ..
        } = note.played
        else {
            return None;
        };
        // The lips alone make a bend, and every note on the mouthpiece, and the ear leads them.
        let on_tube = tube.zip(partial).filter(|_| note.joined != Joined::Bent);
        Some(match (self.tuning.temperament(), on_tube) {
            // A slide puts every note where the player hears it.
            (Temperament::Horn, Some((tube, partial))) if !self.instrument.has_slide() => {
                let cents =
                    partials::cents(partial) + partials::combination_cents(self.instrument, tube);
                self.tuning.hz(sounding) * libm::exp2(cents / 1200.0)
            }
            _ => self.tempered(sounding),
        })
    }

    /// The frequencies in Hz of the pitches that the drone holds, the root first. Those above are pure over the root in
    /// every temperament: a drone that beats with itself cannot be tuned to.
    pub fn drone(&self, pitches: &[SoundingPitch]) -> Vec<f64> {
        let Some(&root) = pitches.first() else {
            return vec![];
        };
        let pure = |pitch| self.tuning.pure_hz(pitch, root) / self.tuning.hz(root);
        let above = pitches[1..].iter();
        let hz = self.tempered(root);
        std::iter::once(hz)
            .chain(above.map(|pitch| hz * pure(*pitch)))
            .collect()
    }

    /// The frequency in Hz of a pitch in the take's temperament. With each note where the horn puts it, the
    /// drone stays in equal temperament, so that one hears which notes to correct with the lips.
    fn tempered(&self, pitch: SoundingPitch) -> f64 {
        match (self.tuning.temperament(), self.tonic) {
            (Temperament::Just, Some(tonic)) => self.tuning.pure_hz(pitch, tonic),
            _ => self.tuning.hz(pitch),
        }
    }
}
