//! A page as a picture, drawn from its SVG.

use super::font;
use crate::sheet::letters::Face;
use crate::sheet::page::Page;
use crate::sheet::svg;
use resvg::{tiny_skia, usvg};
use std::fmt;

/// Dots to an inch: fine staff lines are still two dots wide.
pub const DOTS: f32 = 160.0;

/// Why a page is no picture.
#[derive(Debug)]
pub struct PngFailure(String);

impl fmt::Display for PngFailure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for PngFailure {}

/// Draws pages. Its fonts are read once.
pub struct Painter<'f> {
    options: usvg::Options<'f>,
}

impl Default for Painter<'_> {
    fn default() -> Self {
        let mut options = usvg::Options::default();
        for face in Face::ALL {
            options.fontdb_mut().load_font_data(font(face).to_vec());
        }
        Self { options }
    }
}

impl Painter<'_> {
    /// A page as a PNG file.
    ///
    /// # Errors
    /// A page too large for a picture.
    pub fn png(&self, page: &Page) -> Result<Vec<u8>, PngFailure> {
        let failed = |error: String| PngFailure(error);
        let tree = usvg::Tree::from_str(&svg::page(page), &self.options)
            .map_err(|error| failed(error.to_string()))?;
        let scale = DOTS / 72.0;
        // Sizes of the tree are in CSS pixels, of which there are 96 to an inch.
        let dots = |points: f64| (points as f32 * scale).ceil() as u32;
        let mut picture = tiny_skia::Pixmap::new(dots(page.width), dots(page.height))
            .ok_or_else(|| failed("the page is too large for a picture".to_owned()))?;
        picture.fill(tiny_skia::Color::WHITE);
        let size = tree.size();
        let across = page.width as f32 * scale / size.width();
        let down = page.height as f32 * scale / size.height();
        let transform = tiny_skia::Transform::from_scale(across, down);
        resvg::render(&tree, transform, &mut picture.as_mut());
        picture
            .encode_png()
            .map_err(|error| failed(error.to_string()))
    }
}
