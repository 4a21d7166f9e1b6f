//! The engine of a run, built when it is first needed.

use crate::synth::Engine;
use std::sync::OnceLock;

/// An engine that is built when the first line has to be rendered: if nothing changed, building its tables
/// would take half of the time.
pub struct LazyEngine {
    sample_rate: u32,
    engine: OnceLock<Engine>,
}

impl LazyEngine {
    /// An engine for tracks of this sample rate.
    pub const fn new(sample_rate: u32) -> Self {
        Self {
            sample_rate,
            engine: OnceLock::new(),
        }
    }

    /// The engine.
    pub fn get(&self) -> &Engine {
        self.engine.get_or_init(|| Engine::new(self.sample_rate))
    }
}
