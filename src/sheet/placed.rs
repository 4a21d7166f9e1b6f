//! A system's place in its line, and its bars where they stand.

use super::notes::PlacedSymbol;
use super::slots::Slot;
use crate::music::Whole;

/// A system's place in its line.
#[derive(Clone, Copy, Debug)]
pub struct SystemPlace {
    /// The first of the line: it shows the meter and the tempo.
    pub first: bool,
    /// The last of the line.
    pub last: bool,
    /// Its width in staff spaces.
    pub width: f64,
    /// Where the meter or the first bar stands; where clef and signature end, if `None`.
    pub front: Option<f64>,
}

/// A bar where it stands.
pub struct PlacedBar<'p> {
    /// The bar.
    pub slot: &'p Slot,
    /// Its bar line before it, or where the system's notes begin.
    pub left: f64,
    /// Its own bar line.
    pub right: f64,
    /// What is in it.
    pub placed: Vec<PlacedSymbol>,
}

impl PlacedBar<'_> {
    /// Where a moment of the pass stands, if it lies in this bar or at its end.
    pub fn x_of(&self, moment: Whole) -> Option<f64> {
        let first = self.placed.first()?;
        let last = self.placed.last()?;
        if moment < first.symbol.at || moment > last.symbol.end() {
            return None;
        }
        let at = self.placed.iter().rposition(|p| p.symbol.at <= moment)?;
        let one = &self.placed[at];
        let next = self.placed.get(at + 1).map_or(self.right, |p| p.x);
        let part = (moment - one.symbol.at) / one.symbol.length;
        let part = *part.numer() as f64 / *part.denom() as f64;
        Some(one.x + part * (next - one.x))
    }
}
