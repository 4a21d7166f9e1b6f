//! A paragraph of text.

use super::letters::{ABOVE, Face};
use super::page::{DrawnKind, DrawnMark, Role, SheetBlock};

/// Text wrapped to a width; `None` if there is no text.
pub fn paragraph(text: &str, face: Face, size: f64, width: f64) -> Option<SheetBlock> {
    let rows = face.wrapped(text, size, width);
    let mut block = SheetBlock::new(Role::Paragraph);
    let leading = size * 1.25;
    for (row, text) in rows.iter().enumerate() {
        let y = ABOVE * size + leading * row as f64;
        block
            .marks
            .push(DrawnMark::text(DrawnKind::Text, (0.0, y), face, size, text));
    }
    block.height = leading * (rows.len().max(1) - 1) as f64 + size;
    (!rows.is_empty()).then_some(block)
}
