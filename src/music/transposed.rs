//! Pitches and keys moved by a written interval, their spelling with them.

use super::key::{Key, MOST_MOVED};
use super::pitch::{Letter, WrittenPitch};

/// An interval between two written pitches: a major second up is one step and two half steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct WrittenInterval {
    /// Steps of the staff, upwards.
    pub steps: i32,
    /// Half steps, upwards.
    pub half_steps: i32,
}

impl WrittenInterval {
    /// The interval from one pitch up to another.
    pub fn between(from: WrittenPitch, to: WrittenPitch) -> Self {
        Self {
            steps: to.staff_step() - from.staff_step(),
            half_steps: to.number() - from.number(),
        }
    }

    /// The usual name of so many half steps: a second, third, fourth, fifth and so on, the tritone a fourth.
    pub fn of_half_steps(half_steps: i32) -> Self {
        const STEPS: [i32; 12] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
        let (octaves, rest) = (half_steps.abs() / 12, half_steps.abs() % 12);
        Self {
            steps: half_steps.signum() * (7 * octaves + STEPS[rest as usize]),
            half_steps,
        }
    }

    /// The same, so many octaves higher.
    pub fn with_octaves(self, octaves: i32) -> Self {
        Self {
            steps: self.steps + 7 * octaves,
            half_steps: self.half_steps + 12 * octaves,
        }
    }

    /// True if nothing moves.
    pub fn is_unison(self) -> bool {
        self == Self::default()
    }

    /// Its place on the line of fifths: 2 for a major second.
    fn fifths(self) -> i32 {
        7 * self.half_steps - 12 * self.steps
    }
}

impl WrittenPitch {
    /// This pitch moved by an interval. A note that would need two accidentals gets its simpler name.
    pub fn transposed(self, by: WrittenInterval) -> Self {
        let step = self.staff_step() + by.steps;
        let number = self.number() + by.half_steps;
        let letter = Letter::ALL[step.rem_euclid(7) as usize];
        let octave = step.div_euclid(7) as i8;
        let natural = WrittenPitch::new(letter, 0, octave).number();
        match number - natural {
            alter @ -1..=1 => WrittenPitch::new(letter, alter as i8, octave),
            _ => WrittenPitch::from_number(number),
        }
    }
}

impl Key {
    /// This key moved by an interval; of two names the one with fewer sharps or flats where there are more than six.
    pub fn transposed(self, by: WrittenInterval) -> Self {
        let mut fifths = self.fifths() + by.fifths();
        while fifths > MOST_MOVED {
            fifths -= 12;
        }
        while fifths < -MOST_MOVED {
            fifths += 12;
        }
        Key::new(fifths, self.mode()).unwrap_or(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pitches_and_keys_keep_their_spelling() {
        let pitch = |text: &str| WrittenPitch::parse(text).unwrap();
        let by = WrittenInterval::between(pitch("C4"), pitch("Bb2"));
        assert_eq!((by.steps, by.half_steps), (-8, -14));
        for (from, to) in [
            ("G4", "F3"),
            ("F#4", "E3"),
            ("E4", "D3"),
            ("Bb3", "Ab2"),
            ("C#4", "B2"),
        ] {
            assert_eq!(pitch(from).transposed(by), pitch(to), "{from}");
        }
        let key = |text: &str| Key::parse(text).unwrap();
        assert_eq!(key("C major").transposed(by), key("B-flat major"));
        assert_eq!(key("A minor").transposed(by), key("G minor"));
        assert_eq!(key("D-flat major").transposed(by), key("B major"));
    }

    #[test]
    fn half_steps_have_their_usual_names() {
        for (half_steps, steps) in [
            (2, 1),
            (-2, -1),
            (-7, -4),
            (-9, -5),
            (10, 6),
            (-14, -8),
            (-26, -15),
            (12, 7),
        ] {
            assert_eq!(WrittenInterval::of_half_steps(half_steps).steps, steps);
        }
    }
}
