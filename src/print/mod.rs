//! Output formats for the sheet outside the core: PDF (feature `pdf`) and PNG (feature `png`). They draw a
//! resolved page and make no musical decisions.

#[cfg(feature = "png")]
pub mod outlined;
#[cfg(feature = "pdf")]
pub mod pdf;
#[cfg(feature = "png")]
pub mod png;

#[cfg(any(feature = "pdf", feature = "png"))]
use crate::sheet::letters::Face;

/// The font file of a face, chosen by the build script.
#[cfg(any(feature = "pdf", feature = "png"))]
fn font(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => include_bytes!(concat!(env!("OUT_DIR"), "/regular.otf")),
        Face::Italic => include_bytes!(concat!(env!("OUT_DIR"), "/italic.otf")),
        Face::Bold => include_bytes!(concat!(env!("OUT_DIR"), "/bold.otf")),
    }
}
