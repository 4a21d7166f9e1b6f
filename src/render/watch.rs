//! Who is told how a batch gets on.

use super::finished::Finished;

/// Is told how a batch gets on, from all of its threads. Tracks go by their number in the batch.
pub trait Watch: Sync {
    /// A track of this many frames is begun.
    fn began(&self, track: usize, frames: u64);
    /// This many more of its frames are done.
    fn moved(&self, track: usize, frames: u64);
    /// It is done.
    fn ended(&self, track: usize, finished: &Finished);
}

/// Nobody watches.
impl Watch for () {
    fn began(&self, _: usize, _: u64) {}
    fn moved(&self, _: usize, _: u64) {}
    fn ended(&self, _: usize, _: &Finished) {}
}
