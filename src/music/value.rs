//! Note values and exact musical time.

use num_rational::Ratio;
use std::fmt;

/// Musical time, exact, in whole notes.
pub type Whole = Ratio<i64>;

/// A written note value, plain or dotted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct NoteValue {
    /// How many of it make a whole note: 1, 2, 4, 8 or 16.
    division: u8,
    dotted: bool,
}

/// The names of the plain values, longest first, and how many of each make a whole note.
pub const NAMES: [(&str, u8); 5] = [
    ("whole", 1),
    ("half", 2),
    ("quarter", 4),
    ("eighth", 8),
    ("sixteenth", 16),
];

impl NoteValue {
    /// Reads `half` or, dotted, `half.`.
    pub fn parse(text: &str) -> Option<Self> {
        let (name, dotted) = match text.strip_suffix('.') {
            Some(name) => (name, true),
            None => (text, false),
        };
        NAMES
            .iter()
            .find(|(n, _)| *n == name)
            .map(|&(_, division)| Self { division, dotted })
    }

    /// The name of a value of which so many make a whole note: `half` for 2; empty if there is none.
    pub fn named(division: u8) -> &'static str {
        let named = NAMES.iter().find(|(_, d)| *d == division);
        named.map_or("", |(name, _)| name)
    }

    /// Its length in whole notes.
    pub fn length(self) -> Whole {
        let plain = Whole::new(1, i64::from(self.division));
        if self.dotted {
            plain * Whole::new(3, 2)
        } else {
            plain
        }
    }

    /// How many of the plain value make a whole note: 1, 2, 4, 8, 16.
    pub fn division(self) -> u8 {
        self.division
    }

    /// True with a dot.
    pub fn is_dotted(self) -> bool {
        self.dotted
    }
}

impl fmt::Display for NoteValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = Self::named(self.division);
        write!(f, "{name}{}", if self.dotted { "." } else { "" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_print_as_they_are_read() {
        for (name, division) in NAMES {
            let value = NoteValue::parse(name).unwrap();
            assert_eq!(value.length(), Whole::new(1, i64::from(division)));
            assert_eq!(value.to_string(), name);
            let dotted = NoteValue::parse(&format!("{name}.")).unwrap();
            assert_eq!(dotted.length(), Whole::new(3, 2 * i64::from(division)));
            assert_eq!(dotted.to_string(), format!("{name}."));
        }
        assert_eq!(NoteValue::parse("half.."), None);
        assert_eq!(NoteValue::parse("crotchet"), None);
    }
}
