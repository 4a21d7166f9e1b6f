//! Names of intervals.

use super::{Words, tell};

/// An interval in words a pupil knows: "a fifth" for 7 half steps. Its direction does not matter; beyond
/// two octaves its half steps are counted.
pub fn name(half_steps: i32) -> Words {
    tell::interval(half_steps.unsigned_abs())
}

#[cfg(test)]
mod tests {
    use super::name;

    #[test]
    fn intervals_have_their_musical_names() {
        assert_eq!(name(7), "a fifth");
        assert_eq!(name(-12), "an octave");
        assert_eq!(name(25), "25 half steps");
    }
}
