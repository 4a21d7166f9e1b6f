//! Names of written pitches.

use super::ordinal;
use crate::music::Clef;
use crate::music::WrittenPitch;

/// As one says it aloud: "F sharp 4".
pub fn aloud(pitch: WrittenPitch) -> String {
    format!(
        "{}{} {}",
        pitch.letter().name(),
        accidental(pitch),
        pitch.octave()
    )
}

/// With its place on the staff: "G4, second-line G".
pub fn on_staff(pitch: WrittenPitch, clef: Clef) -> String {
    // Every argument is positive where it is used.
    let nth = |n: i32| ordinal::in_words(n.unsigned_abs() as usize);
    let place = match clef.step(pitch) {
        n @ 0..=8 if n % 2 == 0 => format!("{}-line", nth(n / 2 + 1)),
        n @ 0..=8 => format!("{}-space", nth(n / 2 + 1)),
        9 => "on top of the staff,".to_owned(),
        -1 => "just below the staff,".to_owned(),
        n if n > 9 && n % 2 == 0 => format!("{} ledger line above,", nth((n - 8) / 2)),
        n if n > 9 => format!("above the {} ledger line above,", nth((n - 9) / 2)),
        n if n % 2 == 0 => format!("{} ledger line below,", nth(-n / 2)),
        n => format!("below the {} ledger line below,", nth((-n - 1) / 2)),
    };
    let name = pitch.letter().name();
    format!("{pitch}, {place} {name}{}", accidental(pitch))
}

fn accidental(pitch: WrittenPitch) -> &'static str {
    match pitch.alter() {
        0 => "",
        1 => " sharp",
        -1 => " flat",
        2.. => " double sharp",
        _ => " double flat",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_on_the_staff_are_named_as_a_teacher_names_them() {
        let words = |t: &str| on_staff(WrittenPitch::parse(t).unwrap(), Clef::Treble);
        assert_eq!(words("G4"), "G4, second-line G");
        assert_eq!(words("C4"), "C4, first ledger line below, C");
        assert_eq!(words("C5"), "C5, third-space C");
        assert_eq!(words("E5"), "E5, fourth-space E");
        assert_eq!(words("G5"), "G5, on top of the staff, G");
        assert_eq!(words("D4"), "D4, just below the staff, D");
        assert_eq!(words("F#3"), "F#3, third ledger line below, F sharp");
        assert_eq!(words("C6"), "C6, second ledger line above, C");
        let words = |t: &str| on_staff(WrittenPitch::parse(t).unwrap(), Clef::Bass);
        assert_eq!(words("Bb2"), "Bb2, second-line B flat");
        assert_eq!(words("F3"), "F3, fourth-line F");
        assert_eq!(words("C4"), "C4, first ledger line above, C");
        assert_eq!(words("E2"), "E2, first ledger line below, E");
    }

    #[test]
    fn accidentals_are_said_aloud() {
        let said = |t: &str| aloud(WrittenPitch::parse(t).unwrap());
        assert_eq!(said("F#4"), "F sharp 4");
        assert_eq!(said("Bb3"), "B flat 3");
        assert_eq!(said("C4"), "C 4");
    }
}
