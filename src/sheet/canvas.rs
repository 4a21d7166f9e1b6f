//! The drawing of one system, with the outlines above and below its staff.

use super::page::{Bounds, DrawnMark, PlacedHead, PlacedMoment};
use super::skyline::Skyline;

/// Marks of a system, in staff spaces from the top line of its staff.
pub struct Canvas {
    /// How many lines the staff has: five, or one for breathing.
    pub lines: u32,
    /// What is drawn.
    pub marks: Vec<DrawnMark>,
    /// Heads.
    pub notes: Vec<PlacedHead>,
    /// Where the music is at which moment.
    pub moments: Vec<PlacedMoment>,
    /// What stands above the staff.
    pub above: Skyline,
    /// What stands below it.
    pub below: Skyline,
}

impl Canvas {
    /// An empty one.
    pub fn new(lines: u32) -> Self {
        let (top, bottom) = if lines > 1 { (0.0, 4.0) } else { (1.5, 2.5) };
        Self {
            lines,
            marks: vec![],
            notes: vec![],
            moments: vec![],
            above: Skyline::above(top),
            below: Skyline::below(bottom),
        }
    }

    /// Adds a mark.
    pub fn put(&mut self, mark: DrawnMark) {
        self.marks.push(mark);
    }

    /// Later signs above and below keep clear of this box.
    pub fn clear_of(&mut self, bounds: Bounds) {
        self.above.add(bounds);
        self.below.add(bounds);
    }

    /// Adds a mark that later signs above and below keep clear of.
    pub fn put_clear(&mut self, mark: DrawnMark) {
        self.clear_of(mark.bounds());
        self.put(mark);
    }
}
