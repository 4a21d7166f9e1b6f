//! Access to XML elements.

use crate::routine::bounds::LONGEST_TEXT;
use roxmltree::Node;

/// True if an element has a child of this name.
pub(super) fn has(node: Node<'_, '_>, name: &str) -> bool {
    node.children().any(|n| n.has_tag_name(name))
}

/// The text of a child element.
pub(super) fn child_text<'x>(node: Node<'x, 'x>, name: &str) -> Option<&'x str> {
    let child = node.children().find(|n| n.has_tag_name(name))?;
    child.text()
}

/// The most characters of a text that are read: more than a routine may hold, so that nothing is cut that fits.
const LONGEST: usize = 2 * LONGEST_TEXT;

/// The text in an element, cut where it is longer than any text of a routine.
pub(super) fn text_of(node: Node<'_, '_>) -> String {
    let texts = node.descendants().filter(|n| n.is_text());
    let letters = texts.filter_map(|n| n.text()).flat_map(str::chars);
    letters.take(LONGEST).collect()
}

/// Text in one row, trimmed, and cut where it is longer than any text of a routine.
pub(super) fn tidy(text: &str) -> String {
    let mut row = String::new();
    for word in text.split_whitespace() {
        if !row.is_empty() {
            row.push(' ');
        }
        row.extend(word.chars().take(LONGEST));
        if row.len() > LONGEST {
            break;
        }
    }
    row
}
