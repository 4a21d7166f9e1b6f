//! Music glyphs: outlines and anchors from a SMuFL font, and its engraving defaults.
//!
//! The table is made by the build script. Lengths are in staff spaces, y downwards as on paper.

use super::outline::{Bounds, OutlineStep as Drawn};

/// One step of an outline in font units: 250 to a staff space, y upwards.
enum Step {
    Move(f64, f64),
    Line(f64, f64),
    Curve(f64, f64, f64, f64, f64, f64),
    Close,
}

struct Outline {
    name: &'static str,
    advance: f64,
    /// Left, lowest, right, highest.
    bounds: [f64; 4],
    anchors: &'static [(&'static str, f64, f64)],
    path: &'static [Step],
}

include!(concat!(env!("OUT_DIR"), "/glyphs.rs"));

/// Font units to a staff space: SMuFL sets an em to four spaces, and this font's em to 1000.
const UNITS: f64 = 250.0;

impl Glyph {
    fn outline(self) -> &'static Outline {
        &OUTLINES[self as usize]
    }

    /// Its SMuFL name.
    pub fn name(self) -> &'static str {
        self.outline().name
    }

    /// How far the next glyph of a row stands from it.
    pub fn advance(self) -> f64 {
        self.outline().advance / UNITS
    }

    /// Its box around its origin.
    pub fn bounds(self) -> Bounds {
        let [left, low, right, high] = self.outline().bounds;
        Bounds {
            left: left / UNITS,
            top: -high / UNITS,
            right: right / UNITS,
            bottom: -low / UNITS,
        }
    }

    /// Width of its box.
    pub fn width(self) -> f64 {
        let bounds = self.bounds();
        bounds.right - bounds.left
    }

    /// An anchor by its SMuFL name: x, and y downwards.
    pub fn anchor(self, name: &str) -> Option<(f64, f64)> {
        let anchors = self.outline().anchors.iter();
        anchors
            .filter(|(n, _, _)| *n == name)
            .map(|(_, x, y)| (*x, -*y))
            .next()
    }

    /// Its outline around its origin.
    pub fn steps(self) -> impl Iterator<Item = Drawn> {
        let at = |x: f64, y: f64| (x / UNITS, -y / UNITS);
        self.outline().path.iter().map(move |step| match *step {
            Step::Move(x, y) => Drawn::Move(at(x, y)),
            Step::Line(x, y) => Drawn::Line(at(x, y)),
            Step::Curve(a, b, c, d, x, y) => Drawn::Curve(at(a, b), at(c, d), at(x, y)),
            Step::Close => Drawn::Close,
        })
    }

    /// The digit of a meter, 0–9.
    pub fn meter_digit(digit: u8) -> Glyph {
        const DIGITS: [Glyph; 10] = [
            Glyph::TimeSig0,
            Glyph::TimeSig1,
            Glyph::TimeSig2,
            Glyph::TimeSig3,
            Glyph::TimeSig4,
            Glyph::TimeSig5,
            Glyph::TimeSig6,
            Glyph::TimeSig7,
            Glyph::TimeSig8,
            Glyph::TimeSig9,
        ];
        DIGITS[usize::from(digit % 10)]
    }
}

/// The font's engraving defaults, by their SMuFL names, in staff spaces: `engravingDefaults` of Bravura's
/// published metadata, version 1.15.
#[allow(missing_docs)]
pub mod defaults {
    pub const STAFF_LINE_THICKNESS: f64 = 0.13;
    pub const STEM_THICKNESS: f64 = 0.12;
    pub const BEAM_THICKNESS: f64 = 0.5;
    pub const BEAM_SPACING: f64 = 0.25;
    pub const LEGER_LINE_THICKNESS: f64 = 0.16;
    pub const LEGER_LINE_EXTENSION: f64 = 0.4;
    pub const SLUR_ENDPOINT_THICKNESS: f64 = 0.1;
    pub const SLUR_MIDPOINT_THICKNESS: f64 = 0.22;
    pub const TIE_ENDPOINT_THICKNESS: f64 = 0.1;
    pub const TIE_MIDPOINT_THICKNESS: f64 = 0.22;
    pub const THIN_BARLINE_THICKNESS: f64 = 0.16;
    pub const THICK_BARLINE_THICKNESS: f64 = 0.5;
    pub const BARLINE_SEPARATION: f64 = 0.4;
    pub const HAIRPIN_THICKNESS: f64 = 0.16;
    pub const TUPLET_BRACKET_THICKNESS: f64 = 0.16;
}
