//! Names of intervals.

use super::count;

/// An interval in words a pupil knows: "a fifth" for 7 half steps. Its direction does not matter; beyond
/// two octaves its half steps are counted.
pub fn name(half_steps: i32) -> String {
    const NAMES: [&str; 25] = [
        "the same note",
        "a half step",
        "a whole step",
        "a minor third",
        "a major third",
        "a fourth",
        "a tritone",
        "a fifth",
        "a minor sixth",
        "a major sixth",
        "a minor seventh",
        "a major seventh",
        "an octave",
        "a minor ninth",
        "a ninth",
        "a minor tenth",
        "a major tenth",
        "an eleventh",
        "an octave and a tritone",
        "a twelfth",
        "an octave and a minor sixth",
        "an octave and a major sixth",
        "an octave and a minor seventh",
        "an octave and a major seventh",
        "two octaves",
    ];
    let size = half_steps.unsigned_abs();
    NAMES
        .get(size as usize)
        .map_or_else(|| count::half_steps(size), |name| (*name).to_owned())
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
