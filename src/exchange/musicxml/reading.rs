//! A measure while it is read.

use crate::exchange::piece::{Loss, Measure};

/// A measure as it is read, and its losses.
pub(super) struct Reading<'r> {
    pub index: usize,
    pub measure: &'r mut Measure,
    pub losses: &'r mut Vec<Loss>,
}

impl Reading<'_> {
    /// Reports that something in this measure is not kept.
    pub(super) fn lose(&mut self, what: impl Into<String>) {
        self.losses.push(Loss {
            measure: Some(self.index),
            what: what.into(),
        });
    }
}
