//! Stands in for [`super::packed`] in a build that packs nothing: there is no packed sound.

use super::labels::Labels;
use super::pcm::Format;
use crate::render::file_kind::FileKind;
use crate::timeline::Timeline;
use std::convert::Infallible;
use std::io::{self, Write};
use std::path::Path;

/// A file that holds packed sound: there is none.
pub struct Packed(Infallible);

impl Packed {
    /// None: a kind whose sound is packed cannot be written here.
    pub fn open(_: &Path, _: FileKind) -> Option<Self> {
        None
    }

    /// Cannot be asked for.
    pub fn copy<E: From<io::Error>>(
        self,
        _: &mut impl Write,
        _: Format,
        _: &Labels,
        _: &Timeline,
        _: impl Fn() -> Result<(), E>,
    ) -> Result<(), E> {
        match self.0 {}
    }
}
