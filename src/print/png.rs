//! A page as a picture, drawn from its SVG. Letters are drawn as outlines at the positions of the PDF: a text
//! layout engine would choose its own positions, and takes a minute to build.

use super::font;
use crate::sheet::letters::Face;
use crate::sheet::page::{OutlineStep, Page, Shape};
use crate::sheet::svg;
use resvg::{tiny_skia, usvg};
use std::fmt;
use ttf_parser::{GlyphId, OutlineBuilder};

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
pub struct Painter {
    fonts: [ttf_parser::Face<'static>; 3],
}

impl Default for Painter {
    fn default() -> Self {
        let read = |face| ttf_parser::Face::parse(font(face), 0);
        Self {
            fonts: Face::ALL
                .map(|face| read(face).expect("the build script has read the same font")),
        }
    }
}

impl Painter {
    /// A page as a PNG file.
    ///
    /// # Errors
    /// If the page is too large for a picture.
    pub fn png(&self, page: &Page) -> Result<Vec<u8>, PngFailure> {
        let failed = |error: String| PngFailure(error);
        let drawn = svg::page(&self.outlined(page));
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

    /// The page with its letters as outlines.
    fn outlined(&self, page: &Page) -> Page {
        let mut page = page.clone();
        for mark in page.blocks.iter_mut().flat_map(|block| &mut block.marks) {
            if let Shape::Text {
                at,
                size,
                face,
                text,
            } = &mark.shape
            {
                mark.shape = Shape::Area(self.letters(*face, text, *at, *size));
            }
        }
        page
    }

    /// The outlines of a line of text, at the widths that the page was laid out with.
    fn letters(&self, face: Face, text: &str, at: (f64, f64), size: f64) -> Vec<OutlineStep> {
        let font = &self.fonts[face as usize];
        let mut pen = Pen {
            steps: vec![],
            at,
            scale: size / f64::from(font.units_per_em()),
        };
        for letter in text.chars() {
            let glyph = face.letter(letter).map_or(0, |(glyph, _)| glyph);
            // `None` for a letter without an outline, such as a space.
            let _ = font.outline_glyph(GlyphId(glyph), &mut pen);
            pen.at.0 += face.width(letter.encode_utf8(&mut [0; 4]), size);
        }
        pen.steps
    }
}

/// Copies outlines from a font, whose y axis points up, to a page, whose y axis points down.
struct Pen {
    steps: Vec<OutlineStep>,
    at: (f64, f64),
    scale: f64,
}

impl Pen {
    fn point(&self, x: f32, y: f32) -> (f64, f64) {
        (
            self.at.0 + f64::from(x) * self.scale,
            self.at.1 - f64::from(y) * self.scale,
        )
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.steps.push(OutlineStep::Move(self.point(x, y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.steps.push(OutlineStep::Line(self.point(x, y)));
    }

    fn quad_to(&mut self, _: f32, _: f32, _: f32, _: f32) {
        unreachable!("the build script takes fonts with cubic outlines only");
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (a, b, end) = (self.point(x1, y1), self.point(x2, y2), self.point(x, y));
        self.steps.push(OutlineStep::Curve(a, b, end));
    }

    fn close(&mut self) {
        self.steps.push(OutlineStep::Close);
    }
}
