//! A table of words and figures.

use super::text;

/// Rows of one length, the first holding the headings.
pub struct Table {
    rows: Vec<Vec<String>>,
    figures: Vec<bool>,
}

impl Table {
    /// A table with these headings; columns of figures (`true`) are aligned to the right.
    pub fn new(columns: &[(&str, bool)]) -> Self {
        Self {
            rows: vec![columns.iter().map(|(name, _)| (*name).to_owned()).collect()],
            figures: columns.iter().map(|(_, figures)| *figures).collect(),
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<String>) {
        debug_assert_eq!(cells.len(), self.figures.len());
        self.rows
            .push(cells.iter().map(|cell| text::printable(cell)).collect());
    }

    /// The table, two blanks between columns, no blanks at line ends.
    pub fn lines(&self) -> String {
        let length = |cell: &String| cell.chars().count();
        let widths: Vec<usize> = (0..self.figures.len())
            .map(|i| self.rows.iter().map(|r| length(&r[i])).max().unwrap_or(0))
            .collect();
        let mut out = String::new();
        for row in &self.rows {
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
