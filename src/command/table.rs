//! A table of words and figures.

use super::text;
use crate::music::NoteNames;
use crate::words::{Language, Words};

/// Rows of one length, the first holding the headings.
pub struct Table {
    rows: Vec<Vec<Words>>,
    figures: Vec<bool>,
}

impl Table {
    /// A table with these headings; columns of figures (`true`) are aligned to the right.
    pub fn new(columns: &[(impl Into<Words> + Clone, bool)]) -> Self {
        let headings = columns.iter().map(|(name, _)| name.clone().into());
        Self {
            rows: vec![headings.collect()],
            figures: columns.iter().map(|(_, figures)| *figures).collect(),
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<impl Into<Words>>) {
        debug_assert_eq!(cells.len(), self.figures.len());
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// The table in a language, two blanks between columns, no blanks at line ends.
    pub fn lines(&self, language: Language) -> String {
        self.lines_in(language, NoteNames::English)
    }

    /// The same with notes in these names.
    pub fn lines_in(&self, language: Language, names: NoteNames) -> String {
        let rows = self.rows.iter();
        let rows = rows.map(|row| {
            let cells = row.iter();
            cells.map(|cell| text::printable(&cell.said(language, names)))
        });
        let rows: Vec<Vec<String>> = rows.map(Iterator::collect).collect();
        let length = |cell: &String| cell.chars().count();
        let widths: Vec<usize> = (0..self.figures.len())
            .map(|i| rows.iter().map(|r| length(&r[i])).max().unwrap_or(0))
            .collect();
        let mut out = String::new();
        for row in &rows {
            let cells = row.iter().zip(&widths).zip(&self.figures);
            let cells: Vec<String> = cells
                .map(|((cell, width), figures)| {
                    if *figures {
                        format!("{cell:>width$}")
                    } else {
                        format!("{cell:<width$}")
                    }
                })
                .collect();
            out.push_str(cells.join("  ").trim_end());
            out.push('\n');
        }
        out
    }
}
