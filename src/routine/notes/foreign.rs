//! Names of notes in other languages: the German H, Fis and Es; do, re, mi.

use super::occurrences::Occurrences;
use crate::music::WrittenPitch;
use crate::routine::fault::Fault;
use crate::words::tell;

/// What the names of a line, or of a whole file, say about the language they are written in.
#[derive(Debug, Default)]
pub struct Names {
    /// True if a note has a German name: H, Fis, Es.
    pub german: bool,
    /// Every B without a sign. Among German names it may mean B-flat.
    pub plain_b: Occurrences,
}

impl Names {
    /// Adds those of another line.
    pub fn append(&mut self, other: Names) {
        self.german |= other.german;
        self.plain_b.append(other.plain_b);
    }

    /// Asks once about every B, if there are German names beside it.
    pub fn ask(&self, faults: &mut Vec<Fault>) {
        if self.german {
            self.plain_b.tell(faults, "file", |span, head| {
                let flat = head.replacen('B', "Bb", 1);
                Fault::new(span, tell::b_or_b_flat(head)).hint(tell::b_is_natural(head, &flat))
            });
        }
    }
}

/// The pitch of a German name: `Fis4` is F#4, `Es4` is Eb4, `H4` is B4.
pub fn german(head: &str) -> Option<WrittenPitch> {
    let mut chars = head.chars();
    let letter = chars.next()?.to_ascii_uppercase();
    let rest = chars.as_str();
    if letter == 'H' {
        let (sign, octave) = split_syllable(rest, &[("is", "#")]);
        return WrittenPitch::parse(&format!("B{sign}{octave}"));
    }
    let (sign, octave) = split_syllable(rest, &[("is", "#"), ("es", "b"), ("s", "b")]);
    // The German B is B-flat, and has no syllable.
    let named = !sign.is_empty() && letter != 'B';
    named
        .then(|| WrittenPitch::parse(&format!("{letter}{sign}{octave}")))
        .flatten()
}

fn split_syllable<'t>(
    rest: &'t str,
    syllables: &[(&str, &'static str)],
) -> (&'static str, &'t str) {
    syllables
        .iter()
        .find_map(|(syllable, sign)| Some((*sign, rest.strip_prefix(syllable)?)))
        .unwrap_or(("", rest))
}

const SYLLABLES: [(&str, char); 9] = [
    ("do", 'C'),
    ("re", 'D'),
    ("mi", 'E'),
    ("fa", 'F'),
    ("sol", 'G'),
    ("so", 'G'),
    ("la", 'A'),
    ("si", 'B'),
    ("ti", 'B'),
];

/// The pitch of a syllable: `do4` is C4, `fa#4` is F#4, `sib4` is Bb4. The octave is counted as here.
pub fn syllable(head: &str) -> Option<WrittenPitch> {
    let small = head.to_lowercase().replace('é', "e");
    SYLLABLES.iter().find_map(|(syllable, letter)| {
        let rest = small.strip_prefix(syllable)?;
        WrittenPitch::parse(&format!("{letter}{rest}"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_other_languages_are_understood_and_no_others() {
        let said = |found: Option<WrittenPitch>| found.map(|p| p.to_string()).unwrap_or_default();
        let german = ["H4", "His3", "Fis4", "Es4", "As4", "Des5", "fis4"].map(|n| said(german(n)));
        assert_eq!(german, ["B4", "B#3", "F#4", "Eb4", "Ab4", "Db5", "F#4"]);
        for other in ["B4", "Bes4", "F4", "Fis", "Hund", "s4", ""] {
            assert_eq!(super::german(other), None, "{other}");
        }
        let syllables = ["do4", "Ré4", "fa#4", "sib4", "sol3", "la4"].map(|n| said(syllable(n)));
        assert_eq!(syllables, ["C4", "D4", "F#4", "Bb4", "G3", "A4"]);
        assert_eq!(syllable("dolce"), None);
    }
}
