//! Keys, as half steps from what is written.

use super::{Language, Words, count, list, ordinal, say};
use crate::music::{Key, NoteNames, WrittenPitch};

/// As one says it aloud: "E flat major".
pub fn aloud(language: Language, names: NoteNames, key: Key) -> String {
    let (tonic, mode) = (key.tonic(), key.mode().word());
    let letter = || tonic.letter().name().to_string();
    if names == NoteNames::English {
        return say::key_name(language, letter(), i32::from(tonic.alter()), mode);
    }
    let name = names.without_octave(WrittenPitch::new(tonic.letter(), tonic.alter(), 4));
    let name = match (names, mode) {
        // German writes minor keys small: fis-Moll.
        (NoteNames::German, "minor") => name.to_lowercase(),
        _ => name,
    };
    say::key_name(language, name, 0, mode)
}

/// As an English routine writes it, "E-flat major", and as another language says it.
pub fn written(key: Key) -> Words {
    Words::of(|language| match language {
        Language::En => key.to_string(),
        other => aloud(other, NoteNames::English, key),
    })
}

/// "3 half steps down", "1 half step up", "as written".
pub fn moved(language: Language, half_steps: i32) -> String {
    let steps = half_steps.unsigned_abs();
    match half_steps.signum() {
        0 => say::as_written(language).to_owned(),
        1 => say::half_steps_up(language, steps),
        _ => say::half_steps_down(language, steps),
    }
}

/// One key after another: "1, 2 and 3 half steps down"; "as written and 1 half step up".
pub fn moved_in_turn(language: Language, half_steps: &[i32]) -> String {
    let all = |way: fn(&i32) -> bool| half_steps.len() > 1 && half_steps.iter().all(way);
    let sizes: Vec<String> = half_steps
        .iter()
        .map(|n| n.unsigned_abs().to_string())
        .collect();
    if all(|n| *n < 0) {
        say::all_half_steps_down(language, list::and_in(language, &sizes))
    } else if all(|n| *n > 0) {
        say::all_half_steps_up(language, list::and_in(language, &sizes))
    } else {
        let keys = half_steps.iter().map(|n| moved(language, *n));
        list::and_in(language, &keys.collect::<Vec<_>>())
    }
}

/// One key after another as a walk: "down to the sixth half step"; where the steps are not even, as [`moved_in_turn`].
pub fn walked(language: Language, half_steps: &[i32]) -> String {
    let even = |by: i32| half_steps.windows(2).all(|two| two[1] - two[0] == by);
    let (Some(first), Some(last)) = (half_steps.first(), half_steps.last()) else {
        return String::new();
    };
    let end = last.unsigned_abs();
    let nth = || ordinal::all_letters(end as usize);
    match half_steps.len() {
        3.. if *first < 0 && even(-1) => say::down_to_the_half_step(language, nth(), end),
        3.. if *first > 0 && even(1) => say::up_to_the_half_step(language, nth(), end),
        _ => moved_in_turn(language, half_steps),
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
pub fn short(language: Language, half_steps: i32) -> String {
    match half_steps {
        0 => say::as_written(language).to_owned(),
        up @ 1.. => say::up_short(language, up),
        down => say::down_short(language, down.unsigned_abs()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_said_as_people_say_them() {
        let said = [-3, -1, 0, 1, 2].map(|n| moved(Language::En, n));
        let right = [
            "3 half steps down",
            "1 half step down",
            "as written",
            "1 half step up",
            "2 half steps up",
        ];
        assert_eq!(said, right);
        assert_eq!(
            [0, -2, 1].map(|n| short(Language::En, n)),
            ["as written", "2 down", "1 up"]
        );
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
            walked(Language::En, &[-1, -2, -3, -4, -5, -6]),
            "down to the sixth half step"
        );
        assert_eq!(
            walked(Language::En, &[2, 3, 4]),
            "up to the fourth half step"
        );
        assert_eq!(walked(Language::En, &[-1, -2]), "1 and 2 half steps down");
        assert_eq!(
            walked(Language::En, &[-2, -4, -6]),
            "2, 4 and 6 half steps down"
        );
    }

    #[test]
    fn keys_in_one_direction_share_their_words() {
        assert_eq!(
            moved_in_turn(Language::En, &[-1, -2, -3]),
            "1, 2 and 3 half steps down"
        );
        assert_eq!(
            moved_in_turn(Language::En, &[1, 2]),
            "1 and 2 half steps up"
        );
        assert_eq!(moved_in_turn(Language::En, &[-1]), "1 half step down");
        assert_eq!(
            moved_in_turn(Language::En, &[0, 1]),
            "as written and 1 half step up"
        );
    }
}
