//! A page as SVG: glyphs defined once and used where they stand, text as text.

use super::glyph::Glyph;
use super::letters::{FAMILY, Face};
use super::page::{DrawnMark, OutlineStep, Page, Role, Shape};
use std::fmt::Write;

/// A page as an SVG document.
///
/// Every mark carries its kind as a class, every head the place of its note in the score, so that a page
/// can be styled and followed.
pub fn page(page: &Page) -> String {
    page_in(page, None)
}

/// The same with the language of its texts, a tag of BCP 47.
pub fn page_in(page: &Page, language: Option<&str>) -> String {
    let mut out = String::new();
    let language = language.map_or(String::new(), |tag| format!(" lang=\"{}\"", escaped(tag)));
    let (width, height) = (number(page.width), number(page.height));
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}pt\" height=\"{height}pt\" \
         viewBox=\"0 0 {width} {height}\"{language} font-family=\"'{FAMILY}', Georgia, serif\">\n<defs>\n"
    );
    for glyph in glyphs(page) {
        let path = outline(glyph.steps(), 3);
        let _ = writeln!(out, "<path id=\"{}\" d=\"{path}\"/>", glyph.name());
    }
    out.push_str("</defs>\n");
    for block in &page.blocks {
        let line = block
            .line
            .map_or(String::new(), |l| format!(" data-line=\"{}\"", l + 1));
        match &block.role {
            Role::Figure(words) => {
                let words = escaped(words);
                let _ = writeln!(out, "<g role=\"img\" aria-label=\"{words}\"{line}>");
            }
            _ => {
                let _ = writeln!(out, "<g{line}>");
            }
        }
        for shown in &block.marks {
            mark(&mut out, shown);
        }
        for note in &block.notes {
            let (x, y) = (number(note.x), number(note.y));
            let _ = writeln!(
                out,
                "<circle class=\"note\" data-note=\"{}.{}.{}.{}\" data-step=\"{}\" cx=\"{x}\" cy=\"{y}\" r=\"3\" \
                 fill=\"none\"/>",
                note.line + 1,
                note.pass + 1,
                note.note + 1,
                note.head + 1,
                note.step
            );
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

/// The glyphs of a page, each once, in the order they are met.
pub(super) fn glyphs(page: &Page) -> Vec<Glyph> {
    let mut glyphs = vec![];
    for mark in page.blocks.iter().flat_map(|b| &b.marks) {
        if let Shape::Glyph { glyph, .. } = &mark.shape
            && !glyphs.contains(glyph)
        {
            glyphs.push(*glyph);
        }
    }
    glyphs
}

fn mark(out: &mut String, mark: &DrawnMark) {
    let class = mark.kind.name();
    let paint = |name: &str| match mark.shade {
        0 if name == "fill" => String::new(),
        shade => format!(" {name}=\"#{shade:02x}{shade:02x}{shade:02x}\""),
    };
    let _ = match &mark.shape {
        Shape::Glyph { glyph, at, space } => writeln!(
            out,
            "<use class=\"{class}\" href=\"#{}\" transform=\"translate({} {}) scale({})\"{}/>",
            glyph.name(),
            number(at.0),
            number(at.1),
            number(*space),
            paint("fill")
        ),
        Shape::Line { from, to, width } => writeln!(
            out,
            "<path class=\"{class}\" d=\"M{} {}L{} {}\" stroke-width=\"{}\"{}/>",
            number(from.0),
            number(from.1),
            number(to.0),
            number(to.1),
            number(*width),
            paint("stroke")
        ),
        Shape::Area(steps) => writeln!(
            out,
            "<path class=\"{class}\" d=\"{}\"{}/>",
            outline(steps.iter().copied(), 2),
            paint("fill")
        ),
        Shape::Text {
            at,
            size,
            face,
            text,
        } => {
            let place = letters(*at, *size, *face, text);
            let fill = paint("fill");
            writeln!(
                out,
                "<text class=\"{class}\"{place}{fill}>{}</text>",
                escaped(text)
            )
        }
    };
}

/// Place, size and face of a line of text, as attributes. Another font than ours is fitted to the room that
/// was left for ours.
pub(super) fn letters(at: (f64, f64), size: f64, face: Face, text: &str) -> String {
    let style = match face {
        Face::Regular => "",
        Face::Italic => " font-style=\"italic\"",
        Face::Bold => " font-weight=\"bold\"",
    };
    format!(
        " x=\"{}\" y=\"{}\" font-size=\"{}\"{style} textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"",
        number(at.0),
        number(at.1),
        number(size),
        number(face.width(text, size))
    )
}

pub(super) fn outline(steps: impl Iterator<Item = OutlineStep>, places: usize) -> String {
    let mut path = String::new();
    let pair = |(x, y): (f64, f64)| format!("{} {}", rounded(x, places), rounded(y, places));
    for step in steps {
        let _ = match step {
            OutlineStep::Move(p) => write!(path, "M{}", pair(p)),
            OutlineStep::Line(p) => write!(path, "L{}", pair(p)),
            OutlineStep::Curve(a, b, p) => write!(path, "C{} {} {}", pair(a), pair(b), pair(p)),
            OutlineStep::Close => write!(path, "Z"),
        };
    }
    path
}

/// A length to a hundredth of a point, without needless zeros.
pub(super) fn number(value: f64) -> String {
    rounded(value, 2)
}

pub(super) fn rounded(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0" } else { short }.to_owned()
}

/// Characters that XML does not allow, and those that change the direction of the text after them.
fn is_order(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{fffe}' | '\u{ffff}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Escapes text for XML and removes characters that XML does not allow.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if is_order(c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}
