//! Outlines and boxes: the steps that an area is drawn by, and what room it takes.

/// One step of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutlineStep {
    /// To a point, without drawing.
    Move((f64, f64)),
    /// Straight to a point.
    Line((f64, f64)),
    /// Along a cubic curve: two handles and the end.
    Curve((f64, f64), (f64, f64), (f64, f64)),
    /// Back to where it began.
    Close,
}

/// A box with sides along the page's.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Bounds {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Bounds {
    /// True if the two share more than `slack` in both directions.
    pub fn overlaps(&self, other: &Bounds, slack: f64) -> bool {
        self.left + slack < other.right
            && other.left + slack < self.right
            && self.top + slack < other.bottom
            && other.top + slack < self.bottom
    }

    /// The smallest box around both.
    pub fn with(&self, other: &Bounds) -> Bounds {
        Bounds {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

impl OutlineStep {
    /// The same with every point moved.
    pub(super) fn mapped(self, to: impl Fn((f64, f64)) -> (f64, f64)) -> OutlineStep {
        match self {
            OutlineStep::Move(p) => OutlineStep::Move(to(p)),
            OutlineStep::Line(p) => OutlineStep::Line(to(p)),
            OutlineStep::Curve(a, b, p) => OutlineStep::Curve(to(a), to(b), to(p)),
            OutlineStep::Close => OutlineStep::Close,
        }
    }
}

/// Points of an outline: its corners, and of each curve enough that none lies further out.
pub(super) fn points(steps: &[OutlineStep]) -> Vec<(f64, f64)> {
    const PARTS: u32 = 16;
    let mut found: Vec<(f64, f64)> = vec![];
    for step in steps {
        match *step {
            OutlineStep::Move(p) | OutlineStep::Line(p) => found.push(p),
            OutlineStep::Curve(a, b, p) => {
                let from = found.last().copied().unwrap_or(a);
                found.extend((1..=PARTS).map(|n| {
                    let t = f64::from(n) / f64::from(PARTS);
                    let s = 1.0 - t;
                    let along = |v: [f64; 4]| {
                        s * s * s * v[0]
                            + 3.0 * s * s * t * v[1]
                            + 3.0 * s * t * t * v[2]
                            + t * t * t * v[3]
                    };
                    (
                        along([from.0, a.0, b.0, p.0]),
                        along([from.1, a.1, b.1, p.1]),
                    )
                }));
            }
            OutlineStep::Close => {}
        }
    }
    found
}
