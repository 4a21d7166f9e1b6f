//! A sheet as PDF: glyphs as outlines, text in embedded fonts, tagged for screen readers.

use super::font;
use crate::sheet::glyph::Glyph;
use crate::sheet::letters::{self, Face};
use crate::sheet::page::{DrawnMark, OutlineStep, Role, Shape, Sheet, SheetBlock};
use krilla::color::luma;
use krilla::configure::{Accessibility, ConfigurationBuilder, PdfVersion};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::graphic::Graphic;
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, LineCap, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Node, SpanTag, Tag, TagGroup, TagKind, TagTree,
};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use std::collections::HashMap;
use std::fmt;
use std::num::NonZeroU16;

/// Why a sheet cannot be written as PDF.
#[derive(Debug)]
pub struct PdfFailure(String);

impl fmt::Display for PdfFailure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for PdfFailure {}

/// The language of a sheet's own texts.
const LANGUAGE: &str = "en";

/// A sheet as a PDF file. It contains no time stamp, so equal sheets give equal files.
///
/// # Errors
/// If the pages cannot be written as PDF, which does not happen for sheets made by this program.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PdfFailure> {
    let mut document = Document::new_with(settings(sheet)?);
    let language = sheet.language.as_deref().unwrap_or(LANGUAGE);
    document.set_metadata(
        Metadata::new()
            .title(sheet.title.clone())
            .creator(concat!("leadpipe ", env!("CARGO_PKG_VERSION")).to_owned())
            .language(language.to_owned()),
    );
    let mut pen = Pen {
        fonts: Face::ALL.map(|face| {
            Font::new(font(face).into(), 0).expect("the build script has read the same font")
        }),
        glyphs: HashMap::new(),
    };
    let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
    let mut outline = Outline::new();
    for (number, page) in sheet.pages.iter().enumerate() {
        let size = PageSettings::from_wh(page.width as f32, page.height as f32)
            .ok_or_else(|| PdfFailure("a page without a size".to_owned()))?;
        let mut drawn = document.start_page_with(size);
        let mut surface = drawn.surface();
        for block in &page.blocks {
            if let Some(bookmark) = bookmark(sheet, number, block) {
                outline.push_child(bookmark);
            }
            if let Some(group) = pen.block(&mut surface, block, &sheet.title) {
                tree.push(group);
            }
        }
        surface.finish();
        drawn.finish();
    }
    document.set_outline(outline);
    document.set_tag_tree(tree);
    document
        .finish()
        .map_err(|error| PdfFailure(format!("{error:?}")))
}

/// Tagged as PDF/UA-1 asks for, which also makes a reader show the title instead of the file's name. PDF 1.5 has no
/// `Suspects` key, of which one reader complains.
fn settings(sheet: &Sheet) -> Result<SerializeSettings, PdfFailure> {
    let mut configuration = ConfigurationBuilder::new().with_version(PdfVersion::Pdf15);
    // The standard does not allow the boxes that stand for letters the font does not have.
    if texts(sheet).all(|text| letters::unknown(text).next().is_none()) {
        configuration = configuration.with_accessibility_validator(Accessibility::UA1);
    }
    Ok(SerializeSettings {
        enable_tagging: true,
        configuration: configuration
            .finish()
            .map_err(|error| PdfFailure(format!("{error:?}")))?,
        ..SerializeSettings::default()
    })
}

fn texts(sheet: &Sheet) -> impl Iterator<Item = &str> {
    let blocks = sheet.pages.iter().flat_map(|page| &page.blocks);
    let marks = blocks.flat_map(|block| &block.marks);
    marks.filter_map(|mark| match &mark.shape {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    })
}

/// The entry of a title or heading in the list that a reader shows beside the pages.
fn bookmark(sheet: &Sheet, page: usize, block: &SheetBlock) -> Option<OutlineNode> {
    let words = match &block.role {
        Role::Title => &sheet.title,
        Role::Heading(words) => words,
        Role::Paragraph | Role::Figure(_) | Role::Margin => return None,
    };
    let bounds = block.bounds()?;
    let to = XyzDestination::new(page, point((0.0, bounds.top - 8.0)));
    Some(OutlineNode::new(words.clone(), to))
}

/// State for drawing pages. A glyph is stored in the file once and reused.
struct Pen {
    fonts: [Font; 3],
    glyphs: HashMap<(Glyph, u64, u8), Graphic>,
}

impl Pen {
    /// Draws a block; its place in the document's outline, if it has one.
    fn block(
        &mut self,
        surface: &mut Surface<'_>,
        block: &SheetBlock,
        title: &str,
    ) -> Option<TagGroup> {
        if block.marks.is_empty() {
            return None;
        }
        let level = |n| NonZeroU16::new(n).expect("levels are counted from 1");
        let tag: TagKind = match &block.role {
            Role::Title => Tag::Hn(level(1), Some(title.to_owned())).into(),
            Role::Heading(words) => Tag::Hn(level(2), Some(words.clone())).into(),
            Role::Paragraph => Tag::P.into(),
            Role::Figure(words) => Tag::Figure(Some(words.clone())).into(),
            Role::Margin => {
                let artifact = Artifact::with_kind(ArtifactType::PaginationOther);
                surface.start_tagged(ContentTag::Artifact(artifact));
                block.marks.iter().for_each(|mark| self.mark(surface, mark));
                surface.end_tagged();
                return None;
            }
        };
        let content = if matches!(block.role, Role::Figure(_)) {
            ContentTag::Other
        } else {
            ContentTag::Span(SpanTag::empty())
        };
        let identifier = surface.start_tagged(content);
        block.marks.iter().for_each(|mark| self.mark(surface, mark));
        surface.end_tagged();
        Some(TagGroup::with_children(tag, vec![Node::Leaf(identifier)]))
    }

    fn mark(&mut self, surface: &mut Surface<'_>, mark: &DrawnMark) {
        let colour = luma::Color::new(mark.shade);
        surface.set_stroke(None);
        surface.set_fill(Some(Fill {
            paint: colour.into(),
            ..Fill::default()
        }));
        match &mark.shape {
            Shape::Glyph { glyph, at, space } => {
                let graphic = self.glyph(surface, *glyph, *space, mark.shade);
                let (x, y) = (at.0 as f32, at.1 as f32);
                surface.push_transform(&Transform::from_translate(x, y));
                surface.draw_graphic(graphic);
                surface.pop();
            }
            Shape::Area(steps) => {
                if let Some(path) = path(steps.iter().copied(), (0.0, 0.0), 1.0) {
                    surface.draw_path(&path);
                }
            }
            Shape::Line { from, to, width } => {
                let steps = [OutlineStep::Move(*from), OutlineStep::Line(*to)];
                surface.set_fill(None);
                surface.set_stroke(Some(Stroke {
                    paint: colour.into(),
                    width: *width as f32,
                    line_cap: LineCap::Butt,
                    ..Stroke::default()
                }));
                if let Some(path) = path(steps.into_iter(), (0.0, 0.0), 1.0) {
                    surface.draw_path(&path);
                }
            }
            Shape::Text {
                at,
                size,
                face,
                text,
            } => {
                let glyphs = glyphs(*face, text);
                let font = self.fonts[*face as usize].clone();
                surface.draw_glyphs(point(*at), &glyphs, font, text, *size as f32, false);
            }
        }
    }

    /// A glyph of a size and shade, its origin at 0.
    fn glyph(&mut self, surface: &mut Surface<'_>, glyph: Glyph, space: f64, shade: u8) -> Graphic {
        let key = (glyph, space.to_bits(), shade);
        if let Some(graphic) = self.glyphs.get(&key) {
            return graphic.clone();
        }
        let mut stream = surface.stream_builder();
        let mut inside = stream.surface();
        inside.set_fill(Some(Fill {
            paint: luma::Color::new(shade).into(),
            ..Fill::default()
        }));
        if let Some(path) = path(glyph.steps(), (0.0, 0.0), space) {
            inside.draw_path(&path);
        }
        inside.finish();
        let graphic = Graphic::new(stream.finish(), false);
        self.glyphs.insert(key, graphic.clone());
        graphic
    }
}

fn point((x, y): (f64, f64)) -> Point {
    Point::from_xy(x as f32, y as f32)
}

fn path(steps: impl Iterator<Item = OutlineStep>, at: (f64, f64), scale: f64) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let put = |(x, y): (f64, f64)| ((x * scale + at.0) as f32, (y * scale + at.1) as f32);
    for step in steps {
        match step {
            OutlineStep::Move(p) => {
                let (x, y) = put(p);
                builder.move_to(x, y);
            }
            OutlineStep::Line(p) => {
                let (x, y) = put(p);
                builder.line_to(x, y);
            }
            OutlineStep::Curve(a, b, p) => {
                let ((x1, y1), (x2, y2), (x, y)) = (put(a), put(b), put(p));
                builder.cubic_to(x1, y1, x2, y2, x, y);
            }
            OutlineStep::Close => builder.close(),
        }
    }
    builder.finish()
}

/// The letters of a text at the widths of the page layout.
fn glyphs(face: Face, text: &str) -> Vec<KrillaGlyph> {
    text.char_indices()
        .map(|(start, letter)| {
            let known = face.letter(letter);
            let (glyph, _) = known.unwrap_or((0, 0));
            let width = face.width(letter.encode_utf8(&mut [0; 4]), 1.0);
            KrillaGlyph {
                glyph_id: GlyphId::new(u32::from(glyph)),
                text_range: start..start + letter.len_utf8(),
                x_advance: width as f32,
                x_offset: 0.0,
                y_offset: 0.0,
                y_advance: 0.0,
                location: None,
            }
        })
        .collect()
}
