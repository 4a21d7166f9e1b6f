//! Lengths in beats.

use crate::music::Whole;

/// "one beat", "half a beat", "2 1/2 beats", "nothing".
pub fn in_words(beats: Whole) -> String {
    let (whole, part) = (beats.trunc().to_integer(), beats.fract());
    match (whole, (*part.numer(), *part.denom())) {
        (0, (0, _)) => "nothing".to_owned(),
        (0, (1, 2)) => "half a beat".to_owned(),
        (0, (1, 3)) => "a third of a beat".to_owned(),
        (0, (1, 4)) => "a quarter of a beat".to_owned(),
        (0, (n, d)) => format!("{n}/{d} of a beat"),
        (1, (0, _)) => "one beat".to_owned(),
        (n, (0, _)) => format!("{n} beats"),
        (n, (a, b)) => format!("{n} {a}/{b} beats"),
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
