//! The outline of what is drawn above or below a staff, so that the next sign keeps clear of it.

use super::outline::Bounds;

/// The boxes on one side of a staff. Lengths are in staff spaces, y downwards.
#[derive(Clone, Debug)]
pub struct Skyline {
    /// −1 above the staff, +1 below it.
    side: f64,
    /// The staff's own edge: nothing comes nearer.
    edge: f64,
    boxes: Vec<Bounds>,
}

impl Skyline {
    /// The side above a staff whose top line is at `edge`.
    pub fn above(edge: f64) -> Self {
        Self {
            side: -1.0,
            edge,
            boxes: vec![],
        }
    }

    /// The side below a staff whose bottom line is at `edge`.
    pub fn below(edge: f64) -> Self {
        Self {
            side: 1.0,
            edge,
            boxes: vec![],
        }
    }

    /// Adds something drawn.
    pub fn add(&mut self, bounds: Bounds) {
        self.boxes.push(bounds);
    }

    /// True where nothing stands.
    pub fn is_free(&self, bounds: &Bounds) -> bool {
        self.boxes.iter().all(|b| !b.overlaps(bounds, 0.0))
    }

    /// The outermost edge of all that stands between `left` and `right`.
    pub fn edge(&self, left: f64, right: f64) -> f64 {
        let between = self
            .boxes
            .iter()
            .filter(|b| b.left < right && left < b.right);
        between.fold(self.edge, |edge, b| {
            if self.side < 0.0 {
                edge.min(b.top)
            } else {
                edge.max(b.bottom)
            }
        })
    }
}
