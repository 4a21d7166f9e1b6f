//! Pitches, and accidentals that hold for a bar.

use super::key::{Key, LETTERS, place};
use crate::music::{WrittenPitch, pitch::Letter};
use std::collections::HashMap;

/// A note as it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pitched {
    /// The place of its letter in the scale.
    place: usize,
    octave: i32,
    /// Its accidental.
    alter: Option<i8>,
    /// True if its accidental is a quarter of a step.
    pub between: bool,
}

impl Pitched {
    /// Reads a note from the beginning of a text: `^f'`, `_B,`. What is left of it, and the note.
    pub fn read(text: &str) -> Option<(&str, Self)> {
        // No accidental has more signs; many in a row are looked at once each.
        let signs = text.bytes().take(3);
        let signs = signs.take_while(|byte| b"^_=".contains(byte)).count();
        let letters = &text[signs..];
        let mut alter = match &text[..signs] {
            "" => None,
            "^" => Some(1),
            "^^" => Some(2),
            "_" => Some(-1),
            "__" => Some(-2),
            "=" => Some(0),
            _ => return None,
        };
        // `^/c` and `^3/2c` lie between two half steps.
        let fraction = letters.trim_start_matches(|c: char| c.is_ascii_digit() || c == '/');
        let between = alter.is_some() && fraction.len() < letters.len();
        if between {
            alter = alter.map(|alter| if alter > 0 { 0 } else { -1 });
        }
        let letter = fraction.chars().next()?;
        let place = place(letter.to_ascii_uppercase())?;
        let mut octave = 4 + i32::from(letter.is_ascii_lowercase());
        let marks = &fraction[1..];
        let rest = marks.trim_start_matches(['\'', ',']);
        for mark in marks[..marks.len() - rest.len()].chars().take(8) {
            octave += if mark == '\'' { 1 } else { -1 };
        }
        Some((
            rest,
            Self {
                place,
                octave,
                alter,
                between,
            },
        ))
    }
}

/// How far an accidental reaches, up to the next bar line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Reach {
    /// Every note of its letter.
    #[default]
    Letter,
    /// Every note of its letter in its octave.
    Octave,
    /// Its note alone.
    Note,
}

/// The key and the accidentals of a bar.
#[derive(Default)]
pub(super) struct Accidentals {
    key: [i8; 7],
    reach: Reach,
    /// Those of the bar, by letter and by octave if that counts.
    bar: HashMap<(usize, Option<i32>), i8>,
    /// The last note, which a tie may go on from over a bar line.
    last: Option<(usize, i32, i8)>,
}

impl Accidentals {
    pub fn set_key(&mut self, key: Key) {
        self.key = key.signature;
        self.bar.clear();
    }

    /// A bar line.
    pub fn bar(&mut self) {
        self.bar.clear();
    }

    /// `propagate-accidentals octave`.
    pub fn instruct(&mut self, text: &str) {
        let mut words = text.split_whitespace();
        if words.next() == Some("propagate-accidentals") {
            self.reach = match words.next() {
                Some("not") => Reach::Note,
                Some("octave") => Reach::Octave,
                _ => Reach::Letter,
            };
        }
    }

    /// The pitch of a note, read so many octaves higher; `tied` if it goes on from the last one.
    pub fn pitch(&mut self, note: &Pitched, octaves: i32, tied: bool) -> Option<WrittenPitch> {
        let of_octave = Some(note.octave).filter(|_| self.reach == Reach::Octave);
        let held = self
            .last
            .filter(|last| tied && (last.0, last.1) == (note.place, note.octave));
        let alter = match (note.alter, held) {
            (Some(alter), _) => {
                if self.reach != Reach::Note {
                    self.bar.insert((note.place, of_octave), alter);
                }
                alter
            }
            (None, Some((_, _, alter))) => alter,
            (None, None) => {
                let of_bar = self.bar.get(&(note.place, of_octave));
                of_bar.copied().unwrap_or(self.key[note.place])
            }
        };
        self.last = Some((note.place, note.octave, alter));
        let letter = Letter::parse(LETTERS[note.place])?;
        let octave = i8::try_from(note.octave + octaves).ok()?;
        if !(-1..=10).contains(&octave) {
            return None;
        }
        Some(match alter {
            -1..=1 => WrittenPitch::new(letter, alter, octave),
            more => WrittenPitch::new(letter, 0, octave).moved(i32::from(more)),
        })
    }
}
