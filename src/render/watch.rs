//! Progress of a batch.

use super::finished::Finished;

/// Receives progress reports of a batch, from all of its threads. Tracks are identified by their number in the
/// batch.
pub trait Watch: Sync {
    /// A track of this many frames was started.
    fn began(&self, track: usize, frames: u64);
    /// This many more of its frames are done.
    fn moved(&self, track: usize, frames: u64);
    /// The track is done.
    fn ended(&self, track: usize, finished: &Finished);
}

/// Ignores all reports.
impl Watch for () {
    fn began(&self, _: usize, _: u64) {}
    fn moved(&self, _: usize, _: u64) {}
    fn ended(&self, _: usize, _: &Finished) {}
}
