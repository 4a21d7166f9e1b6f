//! Slurs and ties: curves that are thick in the middle, and clear of what they span.

use super::glyph::defaults::{
    SLUR_ENDPOINT_THICKNESS, SLUR_MIDPOINT_THICKNESS, TIE_ENDPOINT_THICKNESS,
    TIE_MIDPOINT_THICKNESS,
};
use super::page::{Bounds, DrawnKind, DrawnMark, OutlineStep, Shape};

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
    /// How far along that line they stand, as a part of it.
    pub part: f64,
}

/// Where the handles of a free curve stand.
pub const EASY: f64 = 0.25;
/// Where they may stand: the nearer to the ends, the fuller the curve.
const FULLER: [f64; 4] = [EASY, 0.17, 0.1, 0.05];
/// The step by which an end may be lifted off its note, and the most steps.
const LIFT: f64 = 0.3;
const MOST_LIFTS: u32 = 30;
/// What a slope of one costs, in staff spaces of rise.
const STEEP: f64 = 5.0;
/// A rise beyond this costs twice.
const HIGH: f64 = 3.5;

/// A cubic Bézier curve, for one coordinate.
fn along(t: f64, p: [f64; 4]) -> f64 {
    let s = 1.0 - t;
    s * s * s * p[0] + 3.0 * s * s * t * p[1] + 3.0 * s * t * t * p[2] + t * t * t * p[3]
}

impl Arch {
    /// The handles.
    fn handles(&self) -> (Point, Point) {
        let (dx, dy) = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        let out = self.side * self.rise;
        let part = self.part;
        (
            (self.from.0 + part * dx, self.from.1 + part * dy + out),
            (self.to.0 - part * dx, self.to.1 - part * dy + out),
        )
    }

    /// How far along the curve a place lies.
    fn moment(&self, x: f64) -> f64 {
        let (a, b) = self.handles();
        let xs = [self.from.0, a.0, b.0, self.to.0];
        // x grows along the curve, so halving finds the place.
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..24 {
            let middle = (low + high) / 2.0;
            if along(middle, xs) < x {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// The height of the curve at a place between its ends.
    pub fn height(&self, x: f64) -> f64 {
        let (a, b) = self.handles();
        along(self.moment(x), [self.from.1, a.1, b.1, self.to.1])
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

    /// Bends the curve so that it passes every obstacle, a point it must stay outside of: higher, fuller,
    /// or with its ends lifted, whichever changes it least.
    pub fn clear(&mut self, obstacles: &[Point]) {
        let inside: Vec<Point> = obstacles
            .iter()
            .copied()
            .filter(|(x, _)| self.from.0 < *x && *x < self.to.0)
            .collect();
        let least = self.rise;
        let across = (self.to.0 - self.from.0).max(1.0);
        let mut best: Option<(f64, Arch)> = None;
        for part in FULLER {
            let free = Arch { part, ..*self };
            // Of each obstacle: how much the right end counts there, how much the rise does, and how far
            // outside of the line between the ends as they are it lies.
            let rows: Vec<(f64, f64, f64)> = inside
                .iter()
                .map(|(x, y)| {
                    let t = free.moment(*x);
                    let right = along(t, [0.0, part, 1.0 - part, 1.0]);
                    let line = self.from.1 + right * (self.to.1 - self.from.1);
                    (right, 3.0 * t * (1.0 - t), (y - line) * self.side)
                })
                .collect();
            for lifts in 0..MOST_LIFTS * MOST_LIFTS {
                let left = LIFT * f64::from(lifts / MOST_LIFTS);
                let right = LIFT * f64::from(lifts % MOST_LIFTS);
                // Lifted ends, full, steep and very high curves all have a cost.
                let slope = (self.to.1 - self.from.1 + self.side * (right - left)).abs() / across;
                let cost = 0.9 * (left + right) + 6.0 * (EASY - part) + STEEP * slope;
                if best.is_some_and(|(other, _)| cost >= other) {
                    continue;
                }
                let rise = rows.iter().fold(least, |rise, (at, counts, out)| {
                    let missing = out - left * (1.0 - at) - right * at;
                    if missing > 0.0 {
                        rise.max(missing / counts)
                    } else {
                        rise
                    }
                });
                let cost = cost + (rise - least) + (rise - HIGH).max(0.0);
                if best.is_none_or(|(other, _)| cost < other) {
                    let lifted = Arch {
                        from: (self.from.0, self.from.1 + self.side * left),
                        to: (self.to.0, self.to.1 + self.side * right),
                        rise,
                        ..free
                    };
                    best = Some((cost, lifted));
                }
            }
        }
        if let Some((_, arch)) = best {
            *self = arch;
        }
    }

    fn mark(&self, kind: DrawnKind, end: f64, middle: f64) -> DrawnMark {
        let (a, b) = self.handles();
        // Handles move the middle of a curve by three quarters of their own way.
        let swell = (middle - end) / 0.75 / 2.0;
        let out = |p: Point, by: f64| (p.0, p.1 + self.side * by);
        let half = end / 2.0;
        DrawnMark::new(
            kind,
            Shape::Area(vec![
                OutlineStep::Move(out(self.from, half)),
                OutlineStep::Curve(
                    out(a, half + swell),
                    out(b, half + swell),
                    out(self.to, half),
                ),
                OutlineStep::Line(out(self.to, -half)),
                OutlineStep::Curve(
                    out(b, -half - swell),
                    out(a, -half - swell),
                    out(self.from, -half),
                ),
                OutlineStep::Close,
            ]),
        )
    }

    /// The curve as a slur.
    pub fn slur(&self) -> DrawnMark {
        self.mark(
            DrawnKind::Slur,
            SLUR_ENDPOINT_THICKNESS,
            SLUR_MIDPOINT_THICKNESS,
        )
    }

    /// The curve as a tie.
    pub fn tie(&self) -> DrawnMark {
        self.mark(
            DrawnKind::Tie,
            TIE_ENDPOINT_THICKNESS,
            TIE_MIDPOINT_THICKNESS,
        )
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
            part: EASY,
        };
        arch.clear(&obstacles);
        for (x, y) in obstacles {
            assert!(arch.height(x) <= y + 1e-4, "{x}: {}", arch.height(x));
        }
    }
}
