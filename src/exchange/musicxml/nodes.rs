//! Access to XML elements.

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

/// All text in an element.
pub(super) fn text_of(node: Node<'_, '_>) -> String {
    node.descendants()
        .filter(|n| n.is_text())
        .filter_map(|n| n.text())
        .collect()
}

/// Text in one row, trimmed.
pub(super) fn tidy(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ")
}
