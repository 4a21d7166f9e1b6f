//! What the tracks of a batch share.

use super::failure::RenderFailure;
use super::lazy_engine::LazyEngine;
use super::reuse::shelf::Shelf;
use super::settings::RenderSettings;
use super::watch::Watch;
use std::path::Path;

/// What the tracks of a batch share.
pub(super) struct Shared<'a> {
    pub folder: &'a Path,
    pub settings: &'a RenderSettings,
    pub engine: &'a LazyEngine,
    pub shelf: Option<&'a Shelf>,
    pub stopped: &'a (dyn Fn() -> bool + Sync),
    pub watch: &'a dyn Watch,
}

impl Shared<'_> {
    pub fn go_on(&self) -> Result<(), RenderFailure> {
        if (self.stopped)() {
            Err(RenderFailure::Stopped)
        } else {
            Ok(())
        }
    }
}
