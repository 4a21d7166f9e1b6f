//! A page as a picture, drawn from its SVG with its letters as outlines: a text layout engine takes a minute to build.

use super::outlined::Outliner;
use crate::sheet::page::Page;
use crate::sheet::svg;
use resvg::{tiny_skia, usvg};
use std::fmt;

/// Dots per inch: fine staff lines are still two dots wide.
pub const DOTS: f32 = 160.0;

/// Why a page cannot be drawn.
#[derive(Debug)]
pub struct PngFailure(String);

impl fmt::Display for PngFailure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for PngFailure {}

/// Draws pages. It reads its fonts once.
#[derive(Default)]
pub struct Painter {
    outliner: Outliner,
}

impl Painter {
    /// A page as a PNG file.
    ///
    /// # Errors
    /// If the page is too large for a picture.
    pub fn png(&self, page: &Page) -> Result<Vec<u8>, PngFailure> {
        let failed = |error: String| PngFailure(error);
        let drawn = svg::page(&self.outliner.page(page));
        let tree = usvg::Tree::from_str(&drawn, &usvg::Options::default())
            .map_err(|error| failed(error.to_string()))?;
        let scale = DOTS / 72.0;
        // Sizes of the tree are in CSS pixels, 96 per inch.
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
