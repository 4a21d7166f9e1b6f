//! A strip of music as a part of an HTML page: drawn in the page's text colour, with its glyphs defined once for all
//! strips of the page.

use super::glyph::Glyph;
use super::letters::FAMILY;
use super::page::{Bounds, DrawnKind, DrawnMark, Page, Role, Shape, SheetBlock};
use super::sizes::SPACE;
use super::svg::{escaped, glyphs, letters, number, outline, rounded};
use super::timetable;
use crate::score::{Score, ScoreLine};
use std::fmt::Write;

/// The definitions of the glyphs that strips use, needed once in a page.
pub fn definitions<'p>(strips: impl Iterator<Item = &'p Page>) -> String {
    let mut all: Vec<Glyph> = vec![];
    for strip in strips {
        for glyph in glyphs(strip) {
            if !all.contains(&glyph) {
                all.push(glyph);
            }
        }
    }
    let mut out = "<svg hidden aria-hidden=\"true\"><defs>\n".to_owned();
    for glyph in all {
        let scaled = glyph
            .steps()
            .map(|step| step.mapped(|(x, y)| (x * SPACE, y * SPACE)));
        let path = outline(scaled, 2);
        let _ = writeln!(out, "<path id=\"{}\" d=\"{path}\"/>", glyph.name());
    }
    out + "</defs></svg>\n"
}

/// Draws a strip. Every mark has its kind as a class; each system has a description in words.
pub fn strip(page: &Page, class: &str) -> String {
    let mut out = format!(
        "<svg class=\"{class}\" viewBox=\"0 0 {} {}\" fill=\"currentColor\" font-family=\"'{FAMILY}', Georgia, serif\">\n",
        number(page.width),
        number(page.height)
    );
    for block in &page.blocks {
        match &block.role {
            Role::Figure(words) => {
                let _ = write!(out, "<g role=\"img\" aria-label=\"{}\">", escaped(words));
            }
            _ => out.push_str("<g>"),
        }
        let mut marks = &block.marks[..];
        while let Some(first) = marks.first() {
            let alike = marks.iter().take_while(|m| same_paint(first, m)).count();
            run(&mut out, &marks[..alike]);
            marks = &marks[alike..];
        }
        out.push_str("</g>\n");
    }
    out + "</svg>\n"
}

/// True for marks that one element can hold.
fn same_paint(one: &DrawnMark, other: &DrawnMark) -> bool {
    let form = |mark: &DrawnMark| match mark.shape {
        Shape::Line { width, .. } => Some(width),
        _ => None,
    };
    (one.kind, one.shade, form(one)) == (other.kind, other.shade, form(other))
}

/// Marks of one kind, shade and form.
fn run(out: &mut String, marks: &[DrawnMark]) {
    let class = marks[0].kind.name();
    // The page's style sets the grey of the pencil, which differs in dark mode.
    let shade = match (marks[0].kind, marks[0].shade) {
        (DrawnKind::Pencil, _) | (_, 0) => String::new(),
        (_, shade) => format!(" opacity=\"{}\"", number(1.0 - f64::from(shade) / 255.0)),
    };
    if let Shape::Line { width, .. } = marks[0].shape {
        let _ = write!(
            out,
            "<path class=\"{class}\" stroke=\"currentColor\" stroke-width=\"{}\"{shade} d=\"",
            number(width)
        );
        for mark in marks {
            if let Shape::Line { from, to, .. } = mark.shape {
                let pair = |(x, y): (f64, f64)| format!("{} {}", number(x), number(y));
                let _ = write!(out, "M{}L{}", pair(from), pair(to));
            }
        }
        out.push_str("\"/>");
        return;
    }
    let _ = write!(out, "<g class=\"{class}\"{shade}>");
    for mark in marks {
        filled(out, mark);
    }
    out.push_str("</g>");
}

fn filled(out: &mut String, mark: &DrawnMark) {
    let _ = match &mark.shape {
        Shape::Glyph { glyph, at, space } => {
            let (name, x, y) = (glyph.name(), number(at.0), number(at.1));
            let scale = number(space / SPACE);
            if scale == "1" {
                write!(out, "<use href=\"#{name}\" x=\"{x}\" y=\"{y}\"/>")
            } else {
                write!(
                    out,
                    "<use href=\"#{name}\" transform=\"translate({x} {y}) scale({scale})\"/>"
                )
            }
        }
        Shape::Area(steps) => {
            write!(out, "<path d=\"{}\"/>", outline(steps.iter().copied(), 2))
        }
        Shape::Text {
            at,
            size,
            face,
            text,
        } => {
            let place = letters(*at, *size, *face, text);
            write!(out, "<text{place}>{}</text>", escaped(text))
        }
        Shape::Line { .. } => unreachable!("lines of one width are one path"),
    };
}

/// The position of every moment of a strip, for a mark that follows the music. Lengths are in units of the strip's
/// `viewBox`.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(any(feature = "cli", feature = "engine"), derive(serde::Serialize))]
pub struct Places {
    /// The half step or tube of each written pass, as [`timetable::place`] names it.
    pub places: Vec<String>,
    /// The systems of the strip.
    pub systems: Vec<System>,
}

/// Where the music of one system is.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(any(feature = "cli", feature = "engine"), derive(serde::Serialize))]
pub struct System {
    /// Top and bottom of all that is drawn.
    pub r#box: [f64; 2],
    /// Top and bottom of the staff.
    pub staff: [f64; 2],
    /// Index into `places`, whole notes since the start of the pass, and x of each moment.
    pub moments: Vec<(usize, f64, f64)>,
}

/// The position of every moment of a strip.
pub fn places(page: &Page, line: &ScoreLine, score: &Score<'_>) -> Places {
    let (language, instrument) = (score.routine.words_in, score.instrument());
    let mut passes: Vec<usize> = vec![];
    let mut systems = vec![];
    for block in &page.blocks {
        let mut index = |pass: usize| {
            passes.iter().position(|p| *p == pass).unwrap_or_else(|| {
                passes.push(pass);
                passes.len() - 1
            })
        };
        let moments = block.moments.iter().map(|m| {
            let at = *m.at.numer() as f64 / *m.at.denom() as f64;
            (index(m.pass), to_decimals(at, 6), to_decimals(m.x, 2))
        });
        systems.push(System {
            moments: moments.collect(),
            r#box: height(block.bounds()),
            staff: height(staff(block)),
        });
    }
    let place = |pass: &usize| timetable::place(language, &line.passes[*pass], instrument);
    Places {
        places: passes.iter().map(place).collect(),
        systems,
    }
}

/// Bounds of the staff of a system.
fn staff(block: &SheetBlock) -> Option<Bounds> {
    let staff = block
        .marks
        .iter()
        .filter(|m| m.kind == DrawnKind::StaffLine);
    staff
        .map(DrawnMark::bounds)
        .reduce(|all, one| all.with(&one))
}

/// Top and bottom.
fn height(bounds: Option<Bounds>) -> [f64; 2] {
    let bounds = bounds.map_or([0.0, 0.0], |b| [b.top, b.bottom]);
    bounds.map(|y| to_decimals(y, 2))
}

/// Rounds a number to this many decimals.
pub fn to_decimals(value: f64, decimals: usize) -> f64 {
    rounded(value, decimals).parse().unwrap_or(value)
}
