//! Text as outlines, for drawings that must look the same where our fonts are not installed. Letters stand where the page
//! layout put them: a text layout engine would choose its own positions.

use super::font;
use crate::sheet::letters::Face;
use crate::sheet::page::{OutlineStep, Page, Shape};
use ttf_parser::{GlyphId, OutlineBuilder};

/// Turns text into outlines. It reads its fonts once.
pub struct Outliner {
    fonts: [ttf_parser::Face<'static>; 3],
}

impl Default for Outliner {
    fn default() -> Self {
        let read = |face| ttf_parser::Face::parse(font(face), 0);
        Self {
            fonts: Face::ALL
                .map(|face| read(face).expect("the build script has read the same font")),
        }
    }
}

impl Outliner {
    /// The page with its letters as outlines.
    pub fn page(&self, page: &Page) -> Page {
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
