//! The signs of clefs.

use super::glyph::Glyph;
use super::page::{DrawnKind, DrawnMark};
use crate::music::Clef;

/// Its glyph, and how far below the top line the line that it names lies, in staff spaces.
fn glyph(clef: Clef) -> (Glyph, f64) {
    match clef {
        Clef::Treble => (Glyph::GClef, 3.0),
        Clef::Bass => (Glyph::FClef, 1.0),
    }
}

/// The sign of a clef at `x` of a staff.
pub fn at(clef: Clef, x: f64) -> DrawnMark {
    let (glyph, y) = glyph(clef);
    DrawnMark::glyph(DrawnKind::Clef, glyph, x, y)
}

/// How wide it is, in staff spaces.
pub fn width(clef: Clef) -> f64 {
    glyph(clef).0.width()
}
