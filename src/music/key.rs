//! Keys: a tonic, major or minor, and the sharps or flats of their signature.

use super::name::Name;
use super::pitch::Letter;
use std::fmt;

/// Major or minor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)]
pub enum Mode {
    Major,
    Minor,
}

impl Mode {
    /// Steps on the line of fifths from the tonic of the major key with the same signature.
    fn tonic(self) -> i32 {
        match self {
            Mode::Major => 0,
            Mode::Minor => 3,
        }
    }

    /// "major" or "minor".
    pub fn word(self) -> &'static str {
        match self {
            Mode::Major => "major",
            Mode::Minor => "minor",
        }
    }
}

/// A key with a signature of at most seven sharps or flats, as the player reads it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Key {
    /// Sharps of its signature; flats are negative.
    fifths: i8,
    mode: Mode,
}

/// The name of a key as it was written; major or minor may be left open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct KeyName {
    /// The tonic.
    pub tonic: Name,
    /// Major or minor, if it was said.
    pub mode: Option<Mode>,
}

/// Why a text names no key that can be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyError {
    /// It is not the name of a key.
    NoKey,
    /// Its signature would have more than seven sharps or flats.
    TooMany {
        /// How many.
        accidentals: u32,
        /// The key that sounds the same and can be printed.
        instead: Key,
    },
}

/// The most sharps or flats of a signature.
pub const MOST: i32 = 7;
/// The most sharps or flats of a key that music is moved to: of two names for one key one has six or fewer.
pub const MOST_MOVED: i32 = 6;

impl Key {
    /// The key with so many sharps (flats are negative), at most seven.
    pub fn new(fifths: i32, mode: Mode) -> Option<Self> {
        let within = (-MOST..=MOST).contains(&fifths);
        within.then_some(Self {
            fifths: fifths as i8,
            mode,
        })
    }

    /// The key of this tonic.
    ///
    /// # Errors
    /// If its signature would have more than seven sharps or flats.
    pub fn on(tonic: Name, mode: Mode) -> Result<Self, KeyError> {
        let fifths = tonic.fifths() - mode.tonic();
        Self::new(fifths, mode).ok_or_else(|| {
            let nearer = if fifths > 0 { fifths - 12 } else { fifths + 12 };
            KeyError::TooMany {
                accidentals: fifths.unsigned_abs(),
                instead: Self::new(nearer, mode).expect("twelve fifths away it has few"),
            }
        })
    }

    /// Reads "E-flat major", "Eb major", "E♭ major", "f# minor"; a tonic alone is a major key.
    ///
    /// # Errors
    /// If it names no key, or one with more than seven sharps or flats.
    pub fn parse(text: &str) -> Result<Self, KeyError> {
        let name = KeyName::parse(text).ok_or(KeyError::NoKey)?;
        Self::on(name.tonic, name.mode.unwrap_or(Mode::Major))
    }

    /// Sharps of its signature; flats are negative.
    pub fn fifths(self) -> i32 {
        i32::from(self.fifths)
    }

    /// Major or minor.
    pub fn mode(self) -> Mode {
        self.mode
    }

    /// The key note.
    pub fn tonic(self) -> Name {
        Name::on_line_of_fifths(self.fifths() + self.mode.tonic())
    }

    /// What the signature makes of a letter: −1 flat, 0 natural, +1 sharp.
    pub fn alter(self, letter: Letter) -> i8 {
        let natural = Name::new(letter, 0).fifths();
        // The seven notes of the scale lie side by side on the line of fifths.
        let lowest = self.fifths() - 1;
        let steps = (natural - lowest).rem_euclid(7);
        ((lowest + steps - natural) / 7) as i8
    }

    /// True if a note belongs to its scale (to the natural one, if it is minor).
    pub fn contains(self, name: Name) -> bool {
        self.alter(name.letter()) == name.alter()
    }

    /// The key that lies so many half steps away. Of its names the one with fewer sharps or flats is taken, where
    /// there are six of either the one nearer on the line of fifths, and sharps if both are as near.
    pub fn moved(self, half_steps: i32) -> Self {
        let by = (7 * half_steps).rem_euclid(12);
        if by == 0 {
            return self;
        }
        let fits = |by: &i32| (self.fifths() + by).abs() <= MOST_MOVED;
        let by = [by, by - 12, by - 24, by + 12]
            .into_iter()
            .filter(fits)
            .min_by_key(|by| ((self.fifths() + by).abs(), by.abs(), -by));
        let by = by.expect("of twelve keys in a row one has at most six sharps or flats");
        Self::new(self.fifths() + by, self.mode).expect("it has at most six")
    }

    /// Half steps up from this key's tonic to another's, from 0 to 11.
    pub fn half_steps_up_to(self, tonic: Name) -> i32 {
        (7 * (tonic.fifths() - self.tonic().fifths())).rem_euclid(12)
    }
}

impl fmt::Display for Key {
    /// "E-flat major".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.tonic(), self.mode.word())
    }
}

impl KeyName {
    /// Reads "E-flat major", "Eb", "E♭ major", "f sharp minor", in capital or small letters.
    pub fn parse(text: &str) -> Option<Self> {
        let plain = text.to_lowercase().replace('♯', "#").replace('♭', "b");
        let mut words = plain
            .split(|c: char| c.is_whitespace() || c == '-')
            .filter(|word| !word.is_empty());
        let mut tonic = words.next()?.chars();
        let letter = Letter::parse(tonic.next()?.to_ascii_uppercase())?;
        let sign = match tonic.as_str() {
            "" => None,
            "#" | "sharp" => Some(1),
            "b" | "flat" => Some(-1),
            _ => return None,
        };
        let mut words = words.peekable();
        let word = match words.peek() {
            Some(&"sharp" | &"#") => Some(1),
            Some(&"flat" | &"b") => Some(-1),
            Some(&"natural") => Some(0),
            _ => None,
        };
        if word.is_some() {
            words.next();
        }
        let alter = match (sign, word) {
            (Some(_), Some(_)) => return None,
            (sign, word) => sign.or(word).unwrap_or(0),
        };
        let mode = match words.next() {
            None => None,
            Some("major" | "maj") => Some(Mode::Major),
            Some("minor" | "min") => Some(Mode::Minor),
            Some(_) => return None,
        };
        let whole = words.next().is_none();
        whole.then(|| Self {
            tonic: Name::new(letter, alter),
            mode,
        })
    }
}

impl fmt::Display for KeyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            KeyError::NoKey => f.write_str("this is no key"),
            KeyError::TooMany { accidentals, .. } => {
                write!(f, "this key would have {accidentals} sharps or flats")
            }
        }
    }
}

impl std::error::Error for KeyError {}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> Key {
        Key::parse(text).unwrap_or_else(|e| panic!("{text}: {e}"))
    }

    #[test]
    fn keys_are_read_as_teachers_write_them() {
        let e_flat = key("E-flat major");
        for text in [
            "Eb major",
            "E♭ major",
            "E flat major",
            "eb",
            "E-Flat Major",
            " E - flat  major ",
            "E♭",
            "Eflat major",
            "Eb maj",
        ] {
            assert_eq!(key(text), e_flat, "{text}");
        }
        assert_eq!(key("F# minor"), key("f-sharp minor"));
        assert_eq!(key("F♯ min").to_string(), "F-sharp minor");
        assert_eq!(key("B natural minor").to_string(), "B minor");
        assert_eq!(key("bb").to_string(), "B-flat major");
        assert_eq!(key("b minor").fifths(), 2);
        assert_eq!(e_flat.fifths(), -3);
    }

    #[test]
    fn what_is_no_key_is_refused() {
        for text in [
            "",
            "H",
            "major",
            "E-flat dorian",
            "Es-Dur",
            "F##",
            "E flat flat major",
            "Eb flat",
            "C major scale",
            "3",
            "é",
        ] {
            assert_eq!(Key::parse(text), Err(KeyError::NoKey), "{text}");
        }
        let too_many = Key::parse("G# major").unwrap_err();
        let instead = key("Ab major");
        assert_eq!(
            too_many,
            KeyError::TooMany {
                accidentals: 8,
                instead
            }
        );
        assert!(Key::parse("Fb major").is_err());
        assert_eq!(key("Cb major").fifths(), -7);
    }

    #[test]
    fn names_of_keys_are_read_back() {
        for mode in [Mode::Major, Mode::Minor] {
            for fifths in -MOST..=MOST {
                let one = Key::new(fifths, mode).unwrap();
                assert_eq!(Key::parse(&one.to_string()), Ok(one));
            }
            assert_eq!(Key::new(8, mode), None);
        }
    }

    #[test]
    fn keys_move_to_the_name_with_fewer_accidentals() {
        let moved = |text: &str, by: i32| key(text).moved(by).to_string();
        assert_eq!(moved("C major", -1), "B major");
        assert_eq!(moved("C major", 1), "D-flat major");
        assert_eq!(moved("C major", 6), "F-sharp major");
        assert_eq!(moved("G major", -1), "F-sharp major");
        assert_eq!(moved("F major", 1), "G-flat major");
        assert_eq!(moved("A minor", -1), "G-sharp minor");
        assert_eq!(moved("A minor", 1), "B-flat minor");
        assert_eq!(moved("C# major", 12), "C-sharp major");
        assert_eq!(moved("C# major", 1), "D major");
        assert_eq!(moved("Cb major", -1), "B-flat major");
    }
}
