//! The names that notes have in different countries. The octave is numbered everywhere as in English: C4 is on the first
//! ledger line below the treble staff.

use super::WrittenPitch;
use super::pitch::{Letter, OCTAVES};

/// A way of naming notes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum NoteNames {
    /// `B4`, `Bb4`, `F#4`.
    #[default]
    English,
    /// `H4`, `B4`, `Fis4`.
    German,
    /// `si4`, `si♭4`, `fa♯4`.
    Solfege,
}

/// The syllables of C to B.
const SYLLABLES: [&str; 7] = ["do", "re", "mi", "fa", "sol", "la", "si"];

/// Signs in front of the octave, with what they alter, longest first.
const SIGNS: [(&str, i8); 8] = [
    ("♯♯", 2),
    ("##", 2),
    ("♭♭", -2),
    ("bb", -2),
    ("♯", 1),
    ("#", 1),
    ("♭", -1),
    ("b", -1),
];

impl NoteNames {
    /// Their words in files and on the command line.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("english", Self::English),
        ("german", Self::German),
        ("solfege", Self::Solfege),
    ];

    /// The word.
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize].0
    }

    /// The name of a note with its octave: `F#4`, `Fis4`, `fa♯4`.
    pub fn of(self, pitch: WrittenPitch) -> String {
        match self {
            Self::English => pitch.to_string(),
            _ => format!("{}{}", self.without_octave(pitch), pitch.octave()),
        }
    }

    /// The name of a note without its octave.
    pub fn without_octave(self, pitch: WrittenPitch) -> String {
        let (letter, alter) = (pitch.letter(), pitch.alter());
        match self {
            Self::English => {
                let name = pitch.to_string();
                name.trim_end_matches(|c: char| c.is_ascii_digit())
                    .to_owned()
            }
            Self::German => german(letter, alter),
            Self::Solfege => {
                let sign = match alter {
                    0 => "",
                    1 => "♯",
                    -1 => "♭",
                    2.. => "♯♯",
                    _ => "♭♭",
                };
                format!("{}{sign}", SYLLABLES[letter as usize])
            }
        }
    }

    /// Reads the name of a note. English and German names begin with a capital, syllables with a small letter; with
    /// `#` and `b` as well as with `♯` and `♭`. One accidental is the most, as in [`WrittenPitch::parse`].
    pub fn parse(self, text: &str) -> Option<WrittenPitch> {
        if self == Self::English {
            return WrittenPitch::parse(text);
        }
        let octave = text.chars().next_back().filter(char::is_ascii_digit)?;
        let name = &text[..text.len() - 1];
        let octave = i8::try_from(octave.to_digit(10)?).ok()?;
        let (letter, alter) = match self {
            Self::Solfege => syllable(name)?,
            _ => of_german(name)?,
        };
        let pitch = WrittenPitch::new(letter, alter, octave);
        (alter.abs() < 2 && OCTAVES.contains(&octave)).then_some(pitch)
    }
}

fn german(letter: Letter, alter: i8) -> String {
    let name = match letter {
        Letter::B => 'H',
        other => other.name(),
    };
    match (letter, alter) {
        (Letter::B, -1) => "B".to_owned(),
        (_, 0) => name.to_string(),
        (_, 1) => format!("{name}is"),
        (_, 2..) => format!("{name}isis"),
        (Letter::A | Letter::E, -1) => format!("{name}s"),
        (Letter::A | Letter::E, _) => format!("{name}ses"),
        (_, -1) => format!("{name}es"),
        _ => format!("{name}eses"),
    }
}

fn of_german(name: &str) -> Option<(Letter, i8)> {
    let mut all = Letter::ALL
        .into_iter()
        .flat_map(|l| (-1..=1).map(move |alter| (l, alter)));
    all.find(|(letter, alter)| german(*letter, *alter) == name)
}

fn syllable(name: &str) -> Option<(Letter, i8)> {
    let (at, rest) = SYLLABLES
        .iter()
        .enumerate()
        .find_map(|(at, syllable)| Some((at, name.strip_prefix(syllable)?)))?;
    let alter = match rest {
        "" => 0,
        sign => SIGNS.iter().find(|(written, _)| *written == sign)?.1,
    };
    Some((Letter::ALL[at], alter))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> [String; 3] {
        let pitch = WrittenPitch::parse(text).unwrap();
        NoteNames::WORDS.map(|(_, names)| names.of(pitch))
    }

    #[test]
    fn notes_have_their_usual_names() {
        assert_eq!(names("B4"), ["B4", "H4", "si4"]);
        assert_eq!(names("Bb4"), ["Bb4", "B4", "si♭4"]);
        assert_eq!(names("F#4"), ["F#4", "Fis4", "fa♯4"]);
        assert_eq!(names("Eb4"), ["Eb4", "Es4", "mi♭4"]);
        assert_eq!(names("Ab4"), ["Ab4", "As4", "la♭4"]);
        assert_eq!(names("Db5"), ["Db5", "Des5", "re♭5"]);
        assert_eq!(names("Cb5"), ["Cb5", "Ces5", "do♭5"]);
        let double = WrittenPitch::new(Letter::B, -2, 3);
        assert_eq!(NoteNames::German.of(double), "Heses3");
    }

    #[test]
    fn every_name_is_read_as_the_note_it_names() {
        for (_, names) in NoteNames::WORDS {
            for letter in Letter::ALL {
                for (alter, octave) in [(-1, 2), (0, 4), (1, 5)] {
                    let pitch = WrittenPitch::new(letter, alter, octave);
                    assert_eq!(names.parse(&names.of(pitch)), Some(pitch), "{pitch}");
                }
            }
        }
        assert_eq!(NoteNames::Solfege.parse("fa#4"), WrittenPitch::parse("F#4"));
        assert_eq!(NoteNames::Solfege.parse("sib4"), WrittenPitch::parse("Bb4"));
        for (names, text) in [
            (NoteNames::German, "Bb4"),
            (NoteNames::German, "F#4"),
            (NoteNames::German, "h4"),
            (NoteNames::German, "Hes4"),
            (NoteNames::English, "H4"),
            (NoteNames::Solfege, "C4"),
            (NoteNames::Solfege, "do"),
            (NoteNames::Solfege, "é"),
            (NoteNames::German, ""),
        ] {
            assert_eq!(names.parse(text), None, "{text}");
        }
    }
}
