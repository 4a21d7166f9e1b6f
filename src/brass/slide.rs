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

/// Half steps by which the attachment lowers the horn.
const ATTACHMENT: i32 = 5;
/// By how much of a half step a raised slide is shorter than its position: the seventh partial is so flat.
const RAISED: f64 = 0.31;

/// How far out the slide is for a tube: 0 in the first position, 1 in the seventh, a little more than that for the longest
/// with the attachment. Each half step needs more of the slide than the one before. `None` for an instrument without a slide.
pub fn travel(instrument: &Instrument, tube: Tube) -> Option<f64> {
    if !instrument.has_slide() {
        return None;
    }
    let longer = |half_steps: f64| libm::exp2(half_steps / 12.0);
    let attached = if tube.has_thumb() { ATTACHMENT } else { 0 };
    let raised = if tube.is_raised() { RAISED } else { 0.0 };
    let out = f64::from(instrument.tube_half_steps(tube) - attached) - raised;
    let way = longer(f64::from(attached)) * (longer(out) - 1.0);
    Some(way / (longer(6.0) - 1.0))
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

    /// Travel of the slide from its length of 294 cm: 8.8, 18.0, 27.8, 38.2, 49.3 and 61.0 cm (arithmetic). The attachment's
    /// places on the slide are those of C. Smalley's and Wikibooks' charts: 1.0, 2.3, 3.6, 4.9, 6.2 and 7.4.
    #[test]
    fn a_slide_is_as_far_out_as_a_real_one() {
        let trombone = Instrument::named("trombone with F attachment").unwrap();
        let of = |tube: &str| travel(trombone, Tube::parse(tube).unwrap()).unwrap();
        for (tube, cm) in [
            ("1", 0.0),
            ("2", 8.8),
            ("3", 18.0),
            ("4", 27.8),
            ("5", 38.2),
            ("6", 49.3),
            ("7", 61.0),
            ("2+", 8.8 - 2.8),
            ("3+", 18.0 - 2.9),
        ] {
            let found = of(tube) * 61.0;
            assert!((found - cm).abs() < 0.15, "{tube}: {found:.2} cm, not {cm}");
        }
        for (tube, place) in [
            ("T1", 1.0),
            ("T2", 2.3),
            ("T3", 3.6),
            ("T5", 4.9),
            ("T6", 6.2),
            ("T7", 7.4),
        ] {
            let found = 1.0 + 12.0 * libm::log2(1.0 + of(tube) * (libm::exp2(0.5) - 1.0));
            assert!(
                (found - place).abs() < 0.1,
                "{tube}: {found:.2}, not {place}"
            );
        }
        let trumpet = Instrument::named("trumpet").unwrap();
        assert_eq!(travel(trumpet, Tube::of(&[2])), None);
    }
}
