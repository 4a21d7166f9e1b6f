//! Names of notes, and their places on the line of fifths: … B♭ F C G D A E B F♯ C♯ …, with C at 0, sharps upwards.

use super::pitch::{Letter, WrittenPitch};
use std::fmt;

/// The name of a note without its octave.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Name {
    letter: Letter,
    alter: i8,
}

/// The letters in the order of the line of fifths.
const BY_FIFTHS: [Letter; 7] = {
    use Letter::{A, B, C, D, E, F, G};
    [F, C, G, D, A, E, B]
};

/// The first and the last name: F with two flats, B with two sharps.
const ENDS: (i32, i32) = (-15, 19);

impl Name {
    /// A name from its parts; `alter` is from −2, two flats, to +2, two sharps.
    pub const fn new(letter: Letter, alter: i8) -> Self {
        Self { letter, alter }
    }

    /// The name so many fifths above C; one with three accidentals gets its simpler one.
    pub fn on_line_of_fifths(fifths: i32) -> Self {
        let mut from_f = fifths + 1;
        while from_f - 1 > ENDS.1 {
            from_f -= 12;
        }
        while from_f - 1 < ENDS.0 {
            from_f += 12;
        }
        Self {
            letter: BY_FIFTHS[from_f.rem_euclid(7) as usize],
            alter: from_f.div_euclid(7) as i8,
        }
    }

    /// Fifths above C.
    pub fn fifths(self) -> i32 {
        let place = [1, 3, 5, 0, 2, 4, 6][self.letter as usize];
        place - 1 + 7 * i32::from(self.alter)
    }

    /// The letter.
    pub fn letter(self) -> Letter {
        self.letter
    }

    /// −2 to +2; −1 is flat, +1 sharp.
    pub fn alter(self) -> i8 {
        self.alter
    }

    /// The pitch of this name that has a number, which is that of one of its octaves.
    pub fn pitch(self, number: i32) -> WrittenPitch {
        let natural = number - i32::from(self.alter) - self.letter.half_steps();
        WrittenPitch::new(self.letter, self.alter, (natural.div_euclid(12) - 1) as i8)
    }
}

impl fmt::Display for Name {
    /// "E-flat", "F-sharp", "C".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let accidental = match self.alter {
            0 => "",
            1 => "-sharp",
            -1 => "-flat",
            2.. => "-double-sharp",
            _ => "-double-flat",
        };
        write!(f, "{}{accidental}", self.letter.name())
    }
}

impl WrittenPitch {
    /// Its name.
    pub fn name(self) -> Name {
        Name::new(self.letter(), self.alter())
    }
}
