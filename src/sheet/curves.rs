//! Slurs and ties: curves that are thick in the middle, and clear of what they span.

use super::glyph::defaults::{
    SLUR_ENDPOINT_THICKNESS, SLUR_MIDPOINT_THICKNESS, TIE_ENDPOINT_THICKNESS, TIE_MIDPOINT_THICKNESS,
};
use super::page::{Bounds, Kind, Mark, Shape, Step};

/// A point of the page.
type Point = (f64, f64);

/// A curve between two points that bends to one side.
#[derive(Clone, Copy, Debug)]
pub struct Arch {
    /// Left end.
    pub from: Point,
    /// Right end.
    pub to: Point,
    /// −1 upwards, +1 downwards.
    pub side: f64,
    /// How far the handles stand out from the line between the ends.
    pub rise: f64,
}

impl Arch {
    /// How far along the line the handles stand.
    fn handles(&self) -> (Point, Point) {
        let (dx, dy) = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        let part = if dx > 8.0 { 0.22 } else { 0.28 };
        let out = self.side * self.rise;
        (
            (self.from.0 + part * dx, self.from.1 + part * dy + out),
            (self.to.0 - part * dx, self.to.1 - part * dy + out),
        )
    }

    /// The height of the curve above a place between its ends.
    pub fn height(&self, x: f64) -> f64 {
        let (a, b) = self.handles();
        // x grows along the curve, so halving finds the place.
        let (mut low, mut high) = (0.0, 1.0);
        let at = |t: f64, p: [f64; 4]| {
            let s = 1.0 - t;
            s * s * s * p[0] + 3.0 * s * s * t * p[1] + 3.0 * s * t * t * p[2] + t * t * t * p[3]
        };
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if at(middle, [self.from.0, a.0, b.0, self.to.0]) < x {
                low = middle;
            } else {
                high = middle;
            }
        }
        at(low, [self.from.1, a.1, b.1, self.to.1])
    }

    /// The part of the curve between two places, as a box.
    pub fn bounds(&self, left: f64, right: f64) -> Bounds {
        let steps = 12;
        let heights = (0..=steps).map(|n| {
            let x = left + (right - left) * f64::from(n) / f64::from(steps);
            self.height(x.clamp(self.from.0, self.to.0))
        });
        let (top, bottom) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(t, b), y| {
            (t.min(y), b.max(y))
        });
        Bounds {
            left,
            top: top - SLUR_MIDPOINT_THICKNESS,
            right,
            bottom: bottom + SLUR_MIDPOINT_THICKNESS,
        }
    }

    /// The boxes of short stretches of it, for whatever has to clear it.
    pub fn stretches(&self) -> impl Iterator<Item = Bounds> + '_ {
        let count = ((self.to.0 - self.from.0).ceil() as u32).max(1);
        let width = (self.to.0 - self.from.0) / f64::from(count);
        (0..count).map(move |n| {
            let left = self.from.0 + f64::from(n) * width;
            self.bounds(left, left + width)
        })
    }

    /// Lifts the curve until it passes every obstacle, a point it must stay outside of.
    pub fn clear(&mut self, obstacles: &[Point]) {
        let hit = |arch: &Arch| {
            obstacles.iter().any(|(x, y)| {
                let inside = arch.from.0 < *x && *x < arch.to.0;
                inside && (arch.height(*x) - y) * arch.side < 0.0
            })
        };
        // A higher curve first; where that would be a balloon, the ends go outwards as well.
        let highest = 1.6 + 0.12 * (self.to.0 - self.from.0);
        for _ in 0..200 {
            if !hit(self) {
                return;
            }
            if self.rise < highest {
                self.rise += 0.2;
            } else {
                self.from.1 += 0.2 * self.side;
                self.to.1 += 0.2 * self.side;
            }
        }
    }

    fn mark(&self, kind: Kind, end: f64, middle: f64) -> Mark {
        let (a, b) = self.handles();
        // Handles move the middle of a curve by three quarters of their own way.
        let swell = (middle - end) / 0.75 / 2.0;
        let out = |p: Point, by: f64| (p.0, p.1 + self.side * by);
        let half = end / 2.0;
        Mark::new(
            kind,
            Shape::Area(vec![
                Step::Move(out(self.from, half)),
                Step::Curve(
                    out(a, half + swell),
                    out(b, half + swell),
                    out(self.to, half),
                ),
                Step::Line(out(self.to, -half)),
                Step::Curve(
                    out(b, -half - swell),
                    out(a, -half - swell),
                    out(self.from, -half),
                ),
                Step::Close,
            ]),
        )
    }

    /// It as a slur.
    pub fn slur(&self) -> Mark {
        self.mark(Kind::Slur, SLUR_ENDPOINT_THICKNESS, SLUR_MIDPOINT_THICKNESS)
    }

    /// It as a tie.
    pub fn tie(&self) -> Mark {
        self.mark(Kind::Tie, TIE_ENDPOINT_THICKNESS, TIE_MIDPOINT_THICKNESS)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slur_is_lifted_over_what_it_spans() {
        let obstacles = [(3.0, -2.0), (5.0, -4.5), (9.5, -3.0)];
        let mut arch = Arch {
            from: (0.0, 0.0),
            to: (10.0, -1.0),
            side: -1.0,
            rise: 1.0,
        };
        arch.clear(&obstacles);
        for (x, y) in obstacles {
            assert!(arch.height(x) <= y, "{x}: {}", arch.height(x));
        }
    }
}
