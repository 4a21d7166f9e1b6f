//! The words over a line: its number and name, its purpose, and how to play it.

use super::letters::{ABOVE, Face};
use super::page::{DrawnKind, DrawnMark, Role, SheetBlock};
use super::paragraph::paragraph;
use super::part::LinePart;
use super::pencilled;

/// Where the names of all lines begin, and what is said of them: right of the widest number.
pub fn indent(part: &LinePart<'_>, highest: usize) -> f64 {
    let digits = "0".repeat(highest.to_string().len());
    Face::Bold.width(&digits, part.sizes.name) + 0.7 * part.sizes.name
}

/// The number, name and purpose of a line.
pub fn heading(part: &LinePart<'_>, width: f64, indent: f64) -> SheetBlock {
    let size = part.sizes.name;
    let number = part.number.to_string();
    let mut block = SheetBlock::new(Role::Heading(format!("{number} {}", part.line.name)));
    let mut y = ABOVE * size;
    let mut put = |at: (f64, f64), face: Face, size: f64, text: &str| {
        let mark = DrawnMark::text(DrawnKind::Text, at, face, size, text);
        block.marks.push(mark);
    };
    put((0.0, y), Face::Bold, size, &number);
    let mut x = indent;
    let names = Face::Bold.wrapped(&part.line.name, size, width - indent);
    for (row, name) in names.iter().enumerate() {
        if row > 0 {
            y += size * 1.2;
        }
        put((indent, y), Face::Bold, size, name);
        x = indent + Face::Bold.width(name, size) + 10.0;
    }
    if let Some(purpose) = &part.line.purpose {
        let small = part.sizes.said + 0.5;
        let mut rows = Face::Italic.wrapped(purpose, small, width - x);
        if rows.len() > 1 {
            rows = Face::Italic.wrapped(purpose, small, width - indent);
            y += size * 1.2;
            x = indent;
        }
        for (row, text) in rows.iter().enumerate() {
            if row > 0 {
                y += small * 1.25;
            }
            put((x, y), Face::Italic, small, text);
        }
    }
    block.height = y + size * 0.25;
    block
}

/// What is said of a line, under its name; `None` if nothing is.
pub fn said(
    part: &LinePart<'_>,
    text: &str,
    face: Face,
    width: f64,
    indent: f64,
) -> Option<SheetBlock> {
    let block = paragraph(text, face, part.sizes.said, width - indent)?;
    Some(block.moved(1.0, indent, 0.0))
}

/// A paragraph as a pencil writes it.
pub fn in_pencil(mut block: SheetBlock, grey: u8) -> SheetBlock {
    for mark in &mut block.marks {
        mark.kind = DrawnKind::Pencil;
        mark.shade = grey;
    }
    block
}

/// The grey of a pencil.
pub const PENCIL: u8 = pencilled::GREY;
