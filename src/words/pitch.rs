//! Names of written pitches.

use super::{Language, ordinal, say};
use crate::music::{Clef, NoteNames, WrittenPitch};

/// As one says it aloud: "F sharp 4".
pub fn aloud(language: Language, names: NoteNames, pitch: WrittenPitch) -> String {
    format!("{} {}", name(language, names, pitch), pitch.octave())
}

/// With its place on the staff: "G4, second-line G".
pub fn on_staff(language: Language, names: NoteNames, pitch: WrittenPitch, clef: Clef) -> String {
    // Every argument is positive where it is used.
    let nth = |n: i32| ordinal::nth(language, n.unsigned_abs() as usize);
    let (said, name) = (names.of(pitch), name(language, names, pitch));
    match clef.step(pitch) {
        n @ 0..=8 if n % 2 == 0 => say::on_a_line(language, said, nth(n / 2 + 1), name),
        n @ 0..=8 => say::in_a_space(language, said, nth(n / 2 + 1), name),
        9 => say::on_top_of_the_staff(language, said, name),
        -1 => say::just_below_the_staff(language, said, name),
        n if n > 9 && n % 2 == 0 => say::ledger_line_above(language, said, nth((n - 8) / 2), name),
        n if n > 9 => say::above_a_ledger_line(language, said, nth((n - 9) / 2), name),
        n if n % 2 == 0 => say::ledger_line_below(language, said, nth(-n / 2), name),
        n => say::below_a_ledger_line(language, said, nth((-n - 1) / 2), name),
    }
}

/// Without its octave: "F sharp".
fn name(language: Language, names: NoteNames, pitch: WrittenPitch) -> String {
    if names != NoteNames::English {
        return names.without_octave(pitch);
    }
    let letter = pitch.letter().name().to_string();
    say::note_name(language, letter, i32::from(pitch.alter()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_on_the_staff_are_named_as_a_teacher_names_them() {
        let words = |t: &str| {
            on_staff(
                Language::En,
                NoteNames::English,
                WrittenPitch::parse(t).unwrap(),
                Clef::Treble,
            )
        };
        assert_eq!(words("G4"), "G4, second-line G");
        assert_eq!(words("C4"), "C4, first ledger line below, C");
        assert_eq!(words("C5"), "C5, third-space C");
        assert_eq!(words("E5"), "E5, fourth-space E");
        assert_eq!(words("G5"), "G5, on top of the staff, G");
        assert_eq!(words("D4"), "D4, just below the staff, D");
        assert_eq!(words("F#3"), "F#3, third ledger line below, F sharp");
        assert_eq!(words("C6"), "C6, second ledger line above, C");
        let words = |t: &str| {
            on_staff(
                Language::En,
                NoteNames::English,
                WrittenPitch::parse(t).unwrap(),
                Clef::Bass,
            )
        };
        assert_eq!(words("Bb2"), "Bb2, second-line B flat");
        assert_eq!(words("F3"), "F3, fourth-line F");
        assert_eq!(words("C4"), "C4, first ledger line above, C");
        assert_eq!(words("E2"), "E2, first ledger line below, E");
    }

    #[test]
    fn accidentals_are_said_aloud() {
        let said = |t: &str| {
            aloud(
                Language::En,
                NoteNames::English,
                WrittenPitch::parse(t).unwrap(),
            )
        };
        assert_eq!(said("F#4"), "F sharp 4");
        assert_eq!(said("Bb3"), "B flat 3");
        assert_eq!(said("C4"), "C 4");
    }
}
