//! Key signatures: after the clef of every system, and where a pass begins in another key than the one before.

use super::canvas::Canvas;
use super::glyph::Glyph;
use super::notes::{accidental_glyph, height};
use super::page::{DrawnKind, DrawnMark};
use crate::music::Clef;
use crate::music::Key;

/// Staff steps above the bottom line in treble clef, in the order of the sharps, F C G D A E B, and of the flats. In bass
/// clef the same figures stand two steps lower.
const SHARPS: [i32; 7] = [8, 5, 9, 6, 3, 7, 4];
const FLATS: [i32; 7] = [4, 7, 3, 6, 2, 5, 1];

/// Room before it where a pass begins with it, and after it.
const BEFORE: f64 = 0.9;
const AFTER: f64 = 0.5;
/// Room between two of its signs.
const BETWEEN: f64 = 0.1;

/// The signs of a signature, from left to right, each with its staff step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Signature {
    signs: Vec<(Glyph, i32)>,
    /// True if it stands before a bar inside a system.
    inside: bool,
}

fn signs(key: Option<Key>, clef: Clef, glyph: Option<Glyph>) -> Vec<(Glyph, i32)> {
    let fifths = key.map_or(0, Key::fifths);
    let steps = if fifths < 0 { FLATS } else { SHARPS };
    let glyph = glyph.unwrap_or_else(|| accidental_glyph(fifths.signum() as i8));
    let count = fifths.unsigned_abs() as usize;
    let down = match clef {
        Clef::Treble => 0,
        Clef::Bass => 2,
    };
    steps
        .into_iter()
        .take(count)
        .map(|step| (glyph, step - down))
        .collect()
}

impl Signature {
    /// The signature at the beginning of a system.
    pub fn of(key: Option<Key>, clef: Clef) -> Self {
        Self {
            signs: signs(key, clef, None),
            inside: false,
        }
    }

    /// The signature of a pass that begins inside a system. Naturals cancel the one before where nothing else shows
    /// that it is over (common practice).
    pub fn change(from: Option<Key>, to: Option<Key>, clef: Clef) -> Self {
        let own = signs(to, clef, None);
        let signs = match own.is_empty() {
            true => signs(from, clef, Some(Glyph::AccidentalNatural)),
            false => own,
        };
        Self {
            signs: if from.map(Key::fifths) == to.map(Key::fifths) {
                vec![]
            } else {
                signs
            },
            inside: true,
        }
    }

    /// The room it takes.
    pub fn width(&self) -> f64 {
        if self.signs.is_empty() {
            return 0.0;
        }
        let signs = self.signs.iter().map(|(glyph, _)| glyph.width() + BETWEEN);
        signs.sum::<f64>() + if self.inside { BEFORE } else { AFTER }
    }

    /// Draws it from `x` on.
    pub fn draw(&self, canvas: &mut Canvas, x: f64) {
        let mut left = if self.inside { x + BEFORE } else { x };
        for (glyph, step) in &self.signs {
            let at = left - glyph.bounds().left;
            canvas.put_clear(DrawnMark::glyph(DrawnKind::Key, *glyph, at, height(*step)));
            left += glyph.width() + BETWEEN;
        }
    }
}
