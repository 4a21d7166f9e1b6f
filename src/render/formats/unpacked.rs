//! Replaces [`super::packed`] in a build without encoders: there is no encoded sound.

use super::labels::Labels;
use super::pcm::SampleFormat;
use crate::render::file_kind::FileKind;
use crate::timeline::Timeline;
use std::convert::Infallible;
use std::io::{self, Write};
use std::path::Path;

/// A file that holds encoded sound; never exists in this build.
pub struct Packed(Infallible);

impl Packed {
    /// Always `None`: this build cannot write a kind whose sound is encoded.
    pub fn open(_: &Path, _: FileKind) -> Option<Self> {
        None
    }

    /// Never called.
    pub fn copy<E: From<io::Error>>(
        self,
        _: &mut impl Write,
        _: SampleFormat,
        _: &Labels,
        _: &Timeline,
        _: impl Fn() -> Result<(), E>,
    ) -> Result<(), E> {
        match self.0 {}
    }
}
