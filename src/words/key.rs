//! Keys, as half steps from what is written.

use super::{count, list, ordinal};
use crate::music::Key;

/// As one says it aloud: "E flat major".
pub fn aloud(key: Key) -> String {
    key.to_string().replace('-', " ")
}

/// "3 half steps down", "1 half step up", "as written".
pub fn moved(half_steps: i32) -> String {
    let steps = count::half_steps(half_steps.unsigned_abs());
    match half_steps.signum() {
        0 => "as written".to_owned(),
        1 => format!("{steps} up"),
        _ => format!("{steps} down"),
    }
}

/// One key after another: "1, 2 and 3 half steps down"; "as written and 1 half step up".
pub fn moved_in_turn(half_steps: &[i32]) -> String {
    let all = |way: fn(&i32) -> bool| half_steps.len() > 1 && half_steps.iter().all(way);
    let sizes: Vec<String> = half_steps
        .iter()
        .map(|n| n.unsigned_abs().to_string())
        .collect();
    if all(|n| *n < 0) {
        format!("{} half steps down", list::and(&sizes))
    } else if all(|n| *n > 0) {
        format!("{} half steps up", list::and(&sizes))
    } else {
        let keys: Vec<String> = half_steps.iter().map(|n| moved(*n)).collect();
        list::and(&keys)
    }
}

/// One key after another as a walk: "down to the sixth half step"; where the steps are not even, as [`moved_in_turn`].
pub fn walked(half_steps: &[i32]) -> String {
    let even = |by: i32| half_steps.windows(2).all(|two| two[1] - two[0] == by);
    let (Some(first), Some(last)) = (half_steps.first(), half_steps.last()) else {
        return String::new();
    };
    let to = || ordinal::written_out(last.unsigned_abs() as usize);
    match half_steps.len() {
        3.. if *first < 0 && even(-1) => format!("down to the {} half step", to()),
        3.. if *first > 0 && even(1) => format!("up to the {} half step", to()),
        _ => moved_in_turn(half_steps),
    }
}

/// By how much music is moved: "an octave lower", "2 half steps higher", "as written".
pub fn higher_or_lower(half_steps: i32) -> String {
    let way = match half_steps.signum() {
        0 => return "as written".to_owned(),
        1 => "higher",
        _ => "lower",
    };
    match half_steps.unsigned_abs() {
        12 => format!("an octave {way}"),
        24 => format!("two octaves {way}"),
        n => format!("{} {way}", count::half_steps(n)),
    }
}

/// Where there is little room: "2 down", "1 up", "as written".
pub fn short(half_steps: i32) -> String {
    match half_steps {
        0 => "as written".to_owned(),
        up @ 1.. => format!("{up} up"),
        down => format!("{} down", down.unsigned_abs()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_said_as_people_say_them() {
        let said = [-3, -1, 0, 1, 2].map(moved);
        let right = [
            "3 half steps down",
            "1 half step down",
            "as written",
            "1 half step up",
            "2 half steps up",
        ];
        assert_eq!(said, right);
        assert_eq!([0, -2, 1].map(short), ["as written", "2 down", "1 up"]);
    }

    #[test]
    fn moves_by_octaves_are_said_as_octaves() {
        let said = [-24, -12, -1, 0, 2, 12].map(higher_or_lower);
        let right = [
            "two octaves lower",
            "an octave lower",
            "1 half step lower",
            "as written",
            "2 half steps higher",
            "an octave higher",
        ];
        assert_eq!(said, right);
    }

    #[test]
    fn a_walk_is_said_by_its_end() {
        assert_eq!(
            walked(&[-1, -2, -3, -4, -5, -6]),
            "down to the sixth half step"
        );
        assert_eq!(walked(&[2, 3, 4]), "up to the fourth half step");
        assert_eq!(walked(&[-1, -2]), "1 and 2 half steps down");
        assert_eq!(walked(&[-2, -4, -6]), "2, 4 and 6 half steps down");
    }

    #[test]
    fn keys_in_one_direction_share_their_words() {
        assert_eq!(moved_in_turn(&[-1, -2, -3]), "1, 2 and 3 half steps down");
        assert_eq!(moved_in_turn(&[1, 2]), "1 and 2 half steps up");
        assert_eq!(moved_in_turn(&[-1]), "1 half step down");
        assert_eq!(moved_in_turn(&[0, 1]), "as written and 1 half step up");
    }
}
