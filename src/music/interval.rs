//! Intervals: their names, their pure ratios, and how fast they beat.

/// The name of an interval of `half_steps` in words a pupil knows, e.g. "a fifth" for 7.
/// Direction is ignored; beyond two octaves it counts half steps.
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
    let size = half_steps.unsigned_abs() as usize;
    NAMES
        .get(size)
        .map_or_else(|| format!("{size} half steps"), |n| (*n).to_owned())
}

/// A move by half steps in words: "3 half steps down", "1 half step up", "as written".
pub fn moved(half_steps: i32) -> String {
    let size = half_steps.unsigned_abs();
    let steps = if size == 1 { "half step" } else { "half steps" };
    match half_steps.signum() {
        0 => "as written".to_owned(),
        1 => format!("{size} {steps} up"),
        _ => format!("{size} {steps} down"),
    }
}

/// The size of a frequency ratio `p/q` in cents: 1200·log2(p/q).
pub fn cents(p: f64, q: f64) -> f64 {
    1200.0 * libm::log2(p / q)
}

/// The pure (just) ratio `(p, q)` of an interval inside the octave, 0–11 half steps upwards.
/// The minor seventh is 16/9; the tritone 45/32. Source: the five-limit table in any acoustics text.
pub fn just_ratio(half_steps: u8) -> (u32, u32) {
    const RATIOS: [(u32, u32); 12] = [
        (1, 1),
        (16, 15),
        (9, 8),
        (6, 5),
        (5, 4),
        (4, 3),
        (45, 32),
        (3, 2),
        (8, 5),
        (5, 3),
        (16, 9),
        (15, 8),
    ];
    RATIOS[usize::from(half_steps % 12)]
}

/// How many times a second a note beats against a drone when meant as the pure interval `p/q`:
/// |q·f_note − p·f_drone|, in Hz.
pub fn beats_hz(note_hz: f64, drone_hz: f64, (p, q): (u32, u32)) -> f64 {
    (f64::from(q) * note_hz - f64::from(p) * drone_hz).abs()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moves_are_said_as_people_say_them() {
        let said = [-3, -1, 0, 1, 2].map(moved);
        let right = [
            "3 half steps down",
            "1 half step down",
            "as written",
            "1 half step up",
            "2 half steps up",
        ];
        assert_eq!(said, right);
    }
}
