//! The options of a sheet.

use super::sizes::{SMALLEST_STAFF_MM, Sizes};

/// Which notes carry a fingering. Another fingering than the usual one is always shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SheetFingerings {
    /// All for players of the first level, else only the unusual.
    ByLevel,
    /// Notes with a sharp or flat, the first time in a pass.
    Unusual,
    /// Every note, but not again where it repeats the one before.
    All,
    /// None.
    None,
}

/// Which passes of a line are written out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SheetPasses {
    /// All for players of the first level, else the ends of long walks.
    ByLevel,
    /// Of a long walk the first, the last, and those with a fingering that is not written yet; words list the others.
    Ends,
    /// All.
    All,
}

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 × 297 mm.
    A4,
    /// 8.5 × 11 inches.
    Letter,
}

impl Paper {
    /// Width and height in points.
    pub fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (595.276, 841.89),
            Paper::Letter => (612.0, 792.0),
        }
    }
}

/// How large it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SheetSize {
    /// For a music stand.
    Normal,
    /// Large print.
    Large,
}

impl SheetSize {
    /// Its sizes in points.
    pub fn sizes(self) -> Sizes {
        match self {
            SheetSize::Normal => Sizes::NORMAL,
            SheetSize::Large => Sizes::LARGE,
        }
    }

    /// Heights of staff in millimetres to which it may be set smaller, from the highest. Large print keeps its own.
    pub fn staves(self) -> &'static [f64] {
        match self {
            SheetSize::Normal => &[7.0, 6.75, 6.5, 6.25, SMALLEST_STAFF_MM],
            SheetSize::Large => &[9.0],
        }
    }
}

/// The options of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SheetOptions {
    /// Paper.
    pub paper: Paper,
    /// Fingerings.
    pub fingerings: SheetFingerings,
    /// Passes.
    pub passes: SheetPasses,
    /// Size.
    pub size: SheetSize,
}

impl Default for SheetOptions {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            fingerings: SheetFingerings::ByLevel,
            passes: SheetPasses::ByLevel,
            size: SheetSize::Normal,
        }
    }
}
