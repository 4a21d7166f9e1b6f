//! Slurs on a slide: which sound by themselves, and which need the tongue.
//!
//! The rule is that of "Playing Legato on the Trombone: A Primer" (Online Trombone Journal) and M. Everett, "Taking the Mystery
//! out of Trombone Legato".

use super::{instrument::Instrument, tube::Tube};

/// How one note is slurred to another on a slide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SlideSlur {
    /// The lips alone: another partial in the same position.
    Lips,
    /// Another partial, and the slide moves against the pitch or the thumb changes the tube: the note breaks by itself.
    Natural,
    /// The slide goes with the pitch, or the partial stays: without a soft tongue every pitch between would sound.
    SoftTongue,
}

/// How a note is slurred to the next; each is a tube and a partial.
pub fn slur(instrument: &Instrument, from: (Tube, u8), to: (Tube, u8)) -> SlideSlur {
    let ((from, low), (to, high)) = (from, to);
    if from == to {
        return SlideSlur::Lips;
    }
    if low == high {
        return SlideSlur::SoftTongue;
    }
    if from.has_thumb() != to.has_thumb() {
        return SlideSlur::Natural;
    }
    let half_steps = |tube| instrument.tube_half_steps(tube);
    let out = half_steps(to) - half_steps(from);
    let pitch = |tube, partial| super::partials::written(instrument, tube, partial).number();
    let up = pitch(to, high) - pitch(from, low);
    if out.signum() == up.signum() || out == 0 {
        SlideSlur::Natural
    } else {
        SlideSlur::SoftTongue
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brass::fingering;
    use crate::music::WrittenPitch;

    /// The examples of the rule's sources.
    #[test]
    fn slurs_are_judged_as_the_primer_does() {
        let trombone = Instrument::named("trombone with F attachment").unwrap();
        let slot = |note: &str| {
            let pitch = WrittenPitch::parse(note).unwrap();
            let found = fingering::standard(trombone, pitch).unwrap();
            (found.tube, found.partial)
        };
        for (from, to, slur) in [
            ("F3", "Bb3", SlideSlur::Lips),
            ("F3", "Bb2", SlideSlur::Lips),
            ("F3", "G3", SlideSlur::Natural),
            ("Bb3", "C4", SlideSlur::Natural),
            ("D4", "C4", SlideSlur::SoftTongue),
            ("Bb3", "A3", SlideSlur::SoftTongue),
            ("Eb3", "F3", SlideSlur::SoftTongue),
            ("F3", "E3", SlideSlur::SoftTongue),
            ("E2", "Eb2", SlideSlur::SoftTongue),
        ] {
            assert_eq!(
                super::slur(trombone, slot(from), slot(to)),
                slur,
                "{from} to {to}"
            );
        }
        let first = (Tube::of(&[1]).with_thumb(), 3);
        assert_eq!(
            super::slur(trombone, slot("Bb2"), first),
            SlideSlur::Natural
        );
    }
}
