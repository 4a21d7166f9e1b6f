//! Keys: which letters are raised or lowered.

use super::lengths::number;
use crate::exchange::clefs;
use crate::exchange::piece::KeySign;
use crate::music;
use crate::music::key::Mode;

/// Half steps by which each letter is raised, in the order of [`LETTERS`].
pub(super) type Signature = [i8; 7];

/// The letters in the order of the scale.
pub(super) const LETTERS: [char; 7] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/// The letters in the order in which sharps come; flats come the other way.
const SHARPS: [char; 7] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/// What a field `K:` says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Key {
    pub signature: Signature,
    /// Half steps from what is written to what sounds.
    pub transpose: Option<i32>,
    /// Octaves by which all is to be read higher.
    pub octave: Option<i32>,
    /// What is said of another clef than the treble clef.
    pub other_clef: Option<&'static str>,
    /// The key as a routine has it.
    pub sign: Option<KeySign>,
    /// What a routine's key does not say of it.
    pub lost: Option<&'static str>,
}

impl Key {
    /// The key so many fifths from C major, before its mode is counted.
    fn name(&mut self, fifths: i32, mode: &str) {
        let by = shift(mode).unwrap_or(0);
        self.signature = of_fifths(fifths + by);
        let minor = by == -3;
        if by != 0 && !minor {
            self.lost =
                Some("a key that is neither major nor minor is the major key of its signature");
        }
        let mode = if minor { Mode::Minor } else { Mode::Major };
        self.sign = Some(KeySign::Unnamed);
        match music::Key::new(fifths + by, mode) {
            Some(key) => self.sign = Some(KeySign::In(key)),
            None => self.of_its_own(),
        }
    }

    /// A signature that no key has.
    fn of_its_own(&mut self) {
        self.sign = Some(KeySign::Unnamed);
        self.lost = Some(
            "a key signature of its own kind is left out: sharps and flats stand at their notes",
        );
    }
}

/// The place of a letter in the scale.
pub(super) fn place(letter: char) -> Option<usize> {
    LETTERS.iter().position(|l| *l == letter)
}

/// Reads the value of a field; `before` is the key so far, which a field of clefs alone leaves as it is.
pub(super) fn read(text: &str, before: Key) -> Key {
    let mut key = Key {
        transpose: None,
        octave: None,
        other_clef: None,
        lost: None,
        ..before
    };
    let mut words = text.split_whitespace().peekable();
    if let Some(first) = words.peek().copied()
        && let Some((signature, more)) = tonic(first)
    {
        words.next();
        // `K:D Dor` and `K:D exp _b`: the mode may stand apart.
        let mut mode = more;
        if mode.is_empty()
            && let Some(next) = words.peek().copied()
            && (shift(next).is_some() || next.eq_ignore_ascii_case("exp"))
        {
            words.next();
            mode = next;
        }
        match signature {
            Some(fifths) if !mode.eq_ignore_ascii_case("exp") => key.name(fifths, mode),
            None if first == "Hp" => {
                key.signature = of_fifths(2);
                key.signature[4] = 0;
                key.of_its_own();
            }
            _ => (key.signature, key.sign) = ([0; 7], Some(KeySign::Unnamed)),
        }
    } else if let Some((letter, rest)) = words.peek().and_then(|first| first.split_at_checked(1))
        && !rest.contains('=')
        && let Some((Some(fifths), _)) = tonic(letter)
    {
        words.next();
        key.name(fifths, "");
        key.lost = Some("the mode of the key is not known: it is taken as major");
    }
    for word in words {
        more(word, &mut key);
    }
    key
}

/// The fifths of a key's first word, and the mode in the same word. `None` if it is no key; no fifths for `none`, `HP`
/// and `Hp`.
fn tonic(word: &str) -> Option<(Option<i32>, &str)> {
    if matches!(word, "none" | "HP" | "Hp") {
        return Some((None, ""));
    }
    let letter = word.chars().next()?;
    let fifths = SHARPS.iter().position(|l| *l == letter)? as i32 - 1;
    let rest = &word[1..];
    let (rest, moved) = match rest.chars().next() {
        Some('#') => (&rest[1..], 7),
        Some('b') => (&rest[1..], -7),
        _ => (rest, 0),
    };
    let known = rest.is_empty() || shift(rest).is_some() || rest.eq_ignore_ascii_case("exp");
    known.then_some((Some(fifths + moved), rest))
}

/// Fifths from major to a mode, by its first three letters.
fn shift(mode: &str) -> Option<i32> {
    let mode = mode.to_ascii_lowercase();
    if mode == "m" {
        return Some(-3);
    }
    let first: String = mode.chars().take(3).collect();
    let all = mode.chars().all(|c| c.is_ascii_alphabetic());
    Some(match first.as_str() {
        _ if !all => return None,
        "maj" | "ion" => 0,
        "min" | "aeo" => -3,
        "mix" => -1,
        "dor" => -2,
        "phr" => -4,
        "lyd" => 1,
        "loc" => -5,
        _ => return None,
    })
}

/// The signature so many fifths from C major; more than seven sharps are double ones.
fn of_fifths(fifths: i32) -> Signature {
    let mut signature = [0; 7];
    for step in 0..fifths.unsigned_abs().min(14) as usize {
        let letter = if fifths > 0 {
            SHARPS[step % 7]
        } else {
            SHARPS[6 - step % 7]
        };
        let place = place(letter).expect("it is a letter");
        signature[place] += if fifths > 0 { 1 } else { -1 };
    }
    signature
}

/// An accidental of its own (`^f`, `_b`, `=c`), or something of the clef.
fn more(word: &str, key: &mut Key) {
    if let Some((alter, letter)) = accidental(word)
        && let Some(place) = place(letter.to_ascii_uppercase())
    {
        key.signature[place] = alter;
        key.of_its_own();
        return;
    }
    let (name, value) = word.split_once('=').unwrap_or(("clef", word));
    let signed = || {
        let digits = value.trim_start_matches(['-', '+']);
        let (_, number) = number(digits);
        let number = i32::try_from(number?).ok()?;
        Some(if value.starts_with('-') {
            -number
        } else {
            number
        })
    };
    match name {
        "transpose" => key.transpose = signed().filter(|n| (-48..=48).contains(n)),
        "octave" => key.octave = signed().filter(|n| (-4..=4).contains(n)),
        "clef" => {
            key.other_clef = match value.trim_matches('"') {
                "none" => None,
                clef if clef.starts_with("treble") => None,
                "bass" => Some(clefs::BASS),
                _ => Some(clefs::OTHER),
            };
        }
        _ => {}
    }
}

/// `^f`, `__b`, `=c`.
fn accidental(word: &str) -> Option<(i8, char)> {
    let letter = word.chars().next_back()?;
    let alter = match &word[..word.len() - letter.len_utf8()] {
        "^" => 1,
        "^^" => 2,
        "_" => -1,
        "__" => -2,
        "=" => 0,
        _ => return None,
    };
    Some((alter, letter))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn signs(text: &str) -> String {
        let key = read(text, Key::default());
        let signs = LETTERS.iter().zip(key.signature).filter(|(_, n)| *n != 0);
        let mut words: Vec<String> = signs
            .map(|(letter, n)| format!("{letter}{}", if n > 0 { "#" } else { "b" }))
            .collect();
        words.sort();
        words.join(" ")
    }

    /// The table of section 3.1.14 of the standard.
    #[test]
    fn keys_and_modes() {
        for (text, wanted) in [
            ("C", ""),
            ("G", "F#"),
            ("F#", "A# C# D# E# F# G#"),
            ("Bb", "Bb Eb"),
            ("Am", ""),
            ("Gm", "Bb Eb"),
            ("EMIN", "F#"),
            ("A mix", "C# F#"),
            ("DDorian", ""),
            ("D Phrygian", "Bb Eb"),
            ("F lyd", ""),
            ("B Loc", ""),
            ("D Phr ^f", "Bb Eb F#"),
            ("D maj =c", "F#"),
            ("D exp _b _e ^f", "Bb Eb F#"),
            ("HP", ""),
            ("Hp", "C# F#"),
            ("none", ""),
            ("", ""),
            ("G clef=bass", "F#"),
        ] {
            assert_eq!(signs(text), wanted, "{text}");
        }
        assert_eq!(read("C transpose=-2", Key::default()).transpose, Some(-2));
        assert!(read("D bass", Key::default()).other_clef.is_some());
        let unknown = read("Bn", Key::default());
        assert!(unknown.lost.is_some() && unknown.signature == read("B", Key::default()).signature);
    }
}
