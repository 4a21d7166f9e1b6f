//! Written and sounding pitch, in scientific pitch notation.
//!
//! They are two types, because a trumpet in B-flat sounds a whole step below what its player reads, and
//! mixing the two is always a mistake.

use std::fmt;

/// One of the seven letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Letter {
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}

impl Letter {
    /// All letters, from C upwards.
    pub const ALL: [Letter; 7] = [
        Letter::C,
        Letter::D,
        Letter::E,
        Letter::F,
        Letter::G,
        Letter::A,
        Letter::B,
    ];

    /// Half steps above C.
    pub fn half_steps(self) -> i32 {
        [0, 2, 4, 5, 7, 9, 11][self as usize]
    }

    /// The capital letter.
    pub fn name(self) -> char {
        ['C', 'D', 'E', 'F', 'G', 'A', 'B'][self as usize]
    }

    /// Reads a capital letter.
    pub fn parse(c: char) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.name() == c)
    }
}

/// A pitch as the player reads it, with its spelling: `F#4`, `Bb3`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct WrittenPitch {
    letter: Letter,
    /// −1 flat, 0 natural, +1 sharp; ±2 only where a line is moved to a key that needs it.
    alter: i8,
    octave: i8,
}

/// A concert pitch, numbered as in MIDI 1.0: A4 = 69, C4 = 60.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SoundingPitch(i32);

/// The lowest and the highest octave number accepted.
pub const OCTAVES: std::ops::RangeInclusive<i8> = 0..=9;

impl WrittenPitch {
    /// A pitch from its parts. `alter` is from −2 to +2; the octave changes at C.
    pub const fn new(letter: Letter, alter: i8, octave: i8) -> Self {
        Self {
            letter,
            alter,
            octave,
        }
    }

    /// Reads `C4`, `F#4`, `Bb3`, `F♯4`, `B♭3`: one capital, at most one accidental, one digit.
    pub fn parse(text: &str) -> Option<Self> {
        let mut rest = text.chars();
        let letter = Letter::parse(rest.next()?)?;
        let text = rest.as_str();
        let (alter, octave) = match text.chars().next()? {
            '#' | '♯' => (1, &text[text.chars().next()?.len_utf8()..]),
            'b' | '♭' => (-1, &text[text.chars().next()?.len_utf8()..]),
            _ => (0, text),
        };
        let digit = (octave.len() == 1)
            .then(|| octave.parse::<i8>().ok())
            .flatten()?;
        Some(Self {
            letter,
            alter,
            octave: digit,
        })
    }

    /// The letter.
    pub fn letter(self) -> Letter {
        self.letter
    }

    /// −1 flat, 0 natural, +1 sharp; −2 and +2 have two of them.
    pub fn alter(self) -> i8 {
        self.alter
    }

    /// The octave of scientific pitch notation.
    pub fn octave(self) -> i8 {
        self.octave
    }

    /// Its number as in MIDI, C4 = 60, before any transposition. Enharmonic spellings share a number.
    pub fn number(self) -> i32 {
        12 * (i32::from(self.octave) + 1) + self.letter.half_steps() + i32::from(self.alter)
    }

    /// What sounds on an instrument that sounds `transposition` half steps from what is written
    /// (−2 for a trumpet in B-flat).
    pub fn sounding(self, transposition: i32) -> SoundingPitch {
        SoundingPitch(self.number() + transposition)
    }

    /// Steps of the staff above C0.
    pub fn staff_step(self) -> i32 {
        7 * i32::from(self.octave) + self.letter as i32
    }
}

impl fmt::Display for WrittenPitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let accidental = match self.alter {
            0 => "",
            1 => "#",
            -1 => "b",
            2.. => "##",
            _ => "bb",
        };
        write!(f, "{}{accidental}{}", self.letter.name(), self.octave)
    }
}

impl SoundingPitch {
    /// The pitch of a MIDI note number.
    pub const fn from_number(number: i32) -> Self {
        Self(number)
    }

    /// Its MIDI note number, A4 = 69.
    pub fn number(self) -> i32 {
        self.0
    }

    /// This pitch moved by `half_steps`.
    pub fn moved(self, half_steps: i32) -> Self {
        Self(self.0 + half_steps)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spelling_survives_and_numbers_agree() {
        for (text, number) in [
            ("C4", 60),
            ("F#3", 54),
            ("Bb3", 58),
            ("Cb4", 59),
            ("B#3", 60),
        ] {
            let pitch = WrittenPitch::parse(text).unwrap();
            assert_eq!(pitch.to_string(), text);
            assert_eq!(pitch.number(), number);
        }
        assert_eq!(WrittenPitch::parse("F♯4"), WrittenPitch::parse("F#4"));
        assert_eq!(WrittenPitch::parse("B♭3"), WrittenPitch::parse("Bb3"));
    }

    #[test]
    fn text_that_is_not_a_pitch_is_refused() {
        for text in [
            "", "g4", "H4", "C", "C44", "C#", "C##4", "C-1", "Cé", "4C", "♯4",
        ] {
            assert_eq!(WrittenPitch::parse(text), None, "{text}");
        }
    }
}
