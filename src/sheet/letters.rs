//! Letters of the text font: how wide they are, and breaking text to a width.
//!
//! The tables are made by the build script from the font that the back ends embed.

include!(concat!(env!("OUT_DIR"), "/letters.rs"));

/// A face of the text font.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// For running text.
    Regular,
    /// For instructions.
    Italic,
    /// For names.
    Bold,
}

/// The family that all faces belong to, and what stands in for it where it is not installed.
pub const FAMILY: &str = "Libertinus Serif";

/// Height of capitals above the baseline and depth of letters below it, parts of the size.
pub const ABOVE: f64 = 0.72;
/// See [`ABOVE`].
pub const BELOW: f64 = 0.23;

/// Width of a letter that the font does not have, in thousandths: a full square, as in wide scripts.
const UNKNOWN: u16 = 1000;

impl Face {
    /// All faces.
    pub const ALL: [Face; 3] = [Face::Regular, Face::Italic, Face::Bold];

    fn table(self) -> &'static [(u32, u16, u16)] {
        match self {
            Face::Regular => &REGULAR,
            Face::Italic => &ITALIC,
            Face::Bold => &BOLD,
        }
    }

    /// Number of a letter's glyph in the font and its width in thousandths of the size; `None` if the font does not have it.
    pub fn letter(self, letter: char) -> Option<(u16, u16)> {
        let table = self.table();
        let index = table.binary_search_by_key(&u32::from(letter), |row| row.0);
        index.ok().map(|i| (table[i].1, table[i].2))
    }

    /// Width of a line of text.
    pub fn width(self, text: &str, size: f64) -> f64 {
        let thousandths: u32 = text
            .chars()
            .map(|c| u32::from(self.letter(c).map_or(UNKNOWN, |l| l.1)))
            .sum();
        f64::from(thousandths) * size / 1000.0
    }

    /// Breaks text at blanks to lines no wider than `width`; a word that is wider is broken anywhere.
    pub fn wrapped(self, text: &str, size: f64, width: f64) -> Vec<String> {
        let mut lines = vec![];
        let mut line = String::new();
        for word in text.split_whitespace() {
            let longer = if line.is_empty() {
                word.to_owned()
            } else {
                format!("{line} {word}")
            };
            if self.width(&longer, size) <= width {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for letter in word.chars() {
                line.push(letter);
                if self.width(&line, size) > width && line.chars().count() > 1 {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, letter.to_string()));
                }
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
        lines
    }
}

/// Letters of a text that no face has.
pub fn unknown(text: &str) -> impl Iterator<Item = char> + '_ {
    let known = |c: char| Face::ALL.iter().all(|face| face.letter(c).is_some());
    text.chars()
        .filter(move |c| !c.is_whitespace() && !known(*c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_broken_to_its_width_and_keeps_its_letters() {
        let text = "Let the air move before the lips do, Rindfleischetikettierung";
        for width in [30.0, 60.0, 500.0] {
            let lines = Face::Regular.wrapped(text, 10.0, width);
            for line in &lines {
                assert!(Face::Regular.width(line, 10.0) <= width, "{line}");
            }
            let letters = |s: &str| s.replace(' ', "");
            assert_eq!(letters(&lines.concat()), letters(text));
        }
    }

    #[test]
    fn letters_of_other_scripts_are_told() {
        assert_eq!(unknown("Übung für Ζωή, “1–2–3” · № 4").count(), 0);
        assert_eq!(unknown("練習 no. 3").collect::<String>(), "練習");
    }
}
