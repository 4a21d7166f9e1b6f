//! Bar lines: how wide they are, and drawing them.

use super::canvas::Canvas;
use super::glyph::defaults::{BARLINE_SEPARATION, THICK_BARLINE_THICKNESS, THIN_BARLINE_THICKNESS};
use super::page::{DrawnKind, DrawnMark};

/// What stands at the end of a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BarLine {
    /// A thin line: the end of a bar.
    Single,
    /// Two thin lines: the end of a pass.
    Double,
    /// A thin and a thick line: the end of the music.
    Final,
}

impl BarLine {
    /// How wide it is.
    pub fn width(self) -> f64 {
        let thin = THIN_BARLINE_THICKNESS;
        match self {
            BarLine::Single => thin,
            BarLine::Double => 2.0 * thin + BARLINE_SEPARATION,
            BarLine::Final => thin + BARLINE_SEPARATION + THICK_BARLINE_THICKNESS,
        }
    }

    /// Draws it with its right edge at `right`.
    pub fn draw(self, canvas: &mut Canvas, right: f64) {
        let (top, bottom) = if canvas.lines > 1 {
            (0.0, 4.0)
        } else {
            (1.0, 3.0)
        };
        let mut stroke = |right: f64, width: f64| {
            let middle = right - width / 2.0;
            canvas.put(DrawnMark::line(
                DrawnKind::BarLine,
                (middle, top),
                (middle, bottom),
                width,
            ));
        };
        let last = match self {
            BarLine::Final => THICK_BARLINE_THICKNESS,
            BarLine::Single | BarLine::Double => THIN_BARLINE_THICKNESS,
        };
        stroke(right, last);
        if self != BarLine::Single {
            stroke(right - last - BARLINE_SEPARATION, THIN_BARLINE_THICKNESS);
        }
    }
}
