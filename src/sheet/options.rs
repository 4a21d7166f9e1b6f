//! The options of a sheet.

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
    /// Of a long walk only the first and the last; words describe those between.
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

/// The options of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SheetOptions {
    /// Paper.
    pub paper: Paper,
    /// Fingerings.
    pub fingerings: SheetFingerings,
    /// Passes.
    pub passes: SheetPasses,
}

impl Default for SheetOptions {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            fingerings: SheetFingerings::ByLevel,
            passes: SheetPasses::Ends,
        }
    }
}
