//! Lengths in beats.

use super::{Words, tell};
use crate::music::Whole;

/// "one beat", "half a beat", "2 1/2 beats", "nothing".
pub fn in_words(beats: Whole) -> Words {
    let (whole, part) = (beats.trunc().to_integer(), beats.fract());
    match (whole, (*part.numer(), *part.denom())) {
        (0, (0, _)) => tell::no_beats(),
        (0, (1, 2)) => tell::half_a_beat(),
        (0, (1, 3)) => tell::third_of_a_beat(),
        (0, (1, 4)) => tell::quarter_of_a_beat(),
        (0, (n, d)) => tell::part_of_a_beat(n, d),
        (1, (0, _)) => tell::one_beat(),
        (n, (0, _)) => tell::some_beats(n),
        (n, (a, b)) => tell::beats_and_a_part(n, a, b),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beats_are_said_as_people_say_them() {
        let said = [(0, 1), (1, 2), (1, 3), (3, 8), (1, 1), (2, 1), (5, 2)]
            .map(|(n, d)| in_words(Whole::new(n, d)));
        let right = [
            "nothing",
            "half a beat",
            "a third of a beat",
            "3/8 of a beat",
            "one beat",
            "2 beats",
            "2 1/2 beats",
        ];
        assert_eq!(said, right);
    }
}
