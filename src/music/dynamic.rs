//! Dynamic marks.

use std::fmt;

/// A dynamic mark, softest first, so that marks compare by loudness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dynamic {
    /// pianissimo
    Pp,
    /// piano
    P,
    /// mezzo piano
    Mp,
    /// mezzo forte, where every pass starts
    Mf,
    /// forte
    F,
    /// fortissimo
    Ff,
}

impl Dynamic {
    /// All marks, from the softest to the loudest.
    pub const ALL: [Dynamic; 6] = [
        Dynamic::Pp,
        Dynamic::P,
        Dynamic::Mp,
        Dynamic::Mf,
        Dynamic::F,
        Dynamic::Ff,
    ];

    /// The mark as it is written.
    pub fn mark(self) -> &'static str {
        match self {
            Dynamic::Pp => "pp",
            Dynamic::P => "p",
            Dynamic::Mp => "mp",
            Dynamic::Mf => "mf",
            Dynamic::F => "f",
            Dynamic::Ff => "ff",
        }
    }

    /// Reads a mark as it is written.
    pub fn parse(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|d| d.mark() == text)
    }

    /// Level in dB relative to forte. A choice of ours: no measured decibels belong to a mark.
    pub fn level_db(self) -> f64 {
        match self {
            Dynamic::Pp => -18.0,
            Dynamic::P => -13.0,
            Dynamic::Mp => -9.0,
            Dynamic::Mf => -5.0,
            Dynamic::F => 0.0,
            Dynamic::Ff => 4.0,
        }
    }
}

impl fmt::Display for Dynamic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.mark())
    }
}
