//! A measure while it is read.

use crate::exchange::piece::{Loss, Measure};
use std::borrow::Cow;

/// A measure as it is read, and its losses.
pub(super) struct Reading<'r> {
    pub index: usize,
    pub measure: &'r mut Measure,
    pub losses: &'r mut Vec<Loss>,
}

impl Reading<'_> {
    /// Reports that something in this measure is not kept.
    pub(super) fn lose(&mut self, what: &'static str) {
        let measure = Some(self.index);
        // Each is reported once, however often it is in the measure.
        let mut before = self.losses.iter().rev();
        let known = before
            .by_ref()
            .take_while(|loss| loss.measure == measure)
            .any(|loss| loss.what == what);
        if !known {
            let what = Cow::Borrowed(what);
            self.losses.push(Loss { measure, what });
        }
    }
}
