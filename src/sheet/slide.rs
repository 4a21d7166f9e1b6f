//! A trombone's slide, drawn as far out as a position has it.

use super::page::{DrawnKind, DrawnMark};
use crate::brass::Instrument;
use crate::brass::Tube;
use crate::brass::slide::travel;

/// Height of the drawing, in staff spaces.
pub const HEIGHT: f64 = 1.7;
/// From the first position to the seventh.
const WAY: f64 = 4.2;
/// Length of the outer slide.
const OUTER: f64 = 1.2;
/// Between its two tubes.
const APART: f64 = 0.7;
const INNER_LINE: f64 = 0.07;
const OUTER_LINE: f64 = 0.2;
/// Height and thickness of the sign of a position under the slide.
const POSITION: (f64, f64) = (0.3, 0.07);

/// The slide in staff spaces, its closed bow near `middle - WAY / 2` and its top at 0: the inner slide, the outer one with its
/// bow, and under them a stroke for each of the seven positions. Empty for an instrument without a slide.
pub fn drawn(instrument: &Instrument, tube: Tube, middle: f64) -> Vec<DrawnMark> {
    let Some(out) = travel(instrument, tube) else {
        return vec![];
    };
    let left = middle - (WAY + OUTER) / 2.0;
    let (start, bow) = (left + out * WAY, left + out * WAY + OUTER);
    let top = OUTER_LINE / 2.0;
    let line = |from, to, width| DrawnMark::line(DrawnKind::Picture, from, to, width);
    let mut marks = vec![];
    for y in [top, top + APART] {
        if start > left {
            marks.push(line((left, y), (start, y), INNER_LINE));
        }
        marks.push(line((start, y), (bow, y), OUTER_LINE));
    }
    let ends = (0.0, top + APART + OUTER_LINE / 2.0);
    marks.push(line((bow, ends.0), (bow, ends.1), OUTER_LINE));
    let below = top + APART + 0.4;
    for (tube, _) in instrument.tubes.iter() {
        if tube.has_thumb() || tube.is_raised() {
            continue;
        }
        let x = left + OUTER + travel(instrument, *tube).unwrap_or(0.0) * WAY;
        marks.push(line((x, below), (x, below + POSITION.0), POSITION.1));
    }
    marks
}
