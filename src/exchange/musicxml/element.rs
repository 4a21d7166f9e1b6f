//! Writes XML elements and text, always well-formed.

/// An XML document being written.
pub(super) struct Xml {
    text: String,
    open: Vec<&'static str>,
}

/// Names and values of an element's attributes.
pub(super) type Attributes<'a> = &'a [(&'static str, &'a str)];

impl Xml {
    pub(super) fn new(head: &str) -> Self {
        Self {
            text: head.to_owned(),
            open: vec![],
        }
    }

    /// Opens an element that holds others.
    pub(super) fn open(&mut self, name: &'static str, attributes: Attributes<'_>) {
        self.tag(name, attributes);
        self.text.push_str(">\n");
        self.open.push(name);
    }

    /// Closes the last open element.
    pub(super) fn close(&mut self) {
        let name = self.open.pop().expect("what is closed was opened");
        self.indent();
        self.text.push_str(&format!("</{name}>\n"));
    }

    /// Writes an element with text.
    pub(super) fn leaf(&mut self, name: &'static str, attributes: Attributes<'_>, text: &str) {
        self.tag(name, attributes);
        self.text.push('>');
        escape(text, &mut self.text);
        self.text.push_str(&format!("</{name}>\n"));
    }

    /// Writes an empty element.
    pub(super) fn empty(&mut self, name: &'static str, attributes: Attributes<'_>) {
        self.tag(name, attributes);
        self.text.push_str("/>\n");
    }

    fn tag(&mut self, name: &'static str, attributes: Attributes<'_>) {
        self.indent();
        self.text.push('<');
        self.text.push_str(name);
        for (key, value) in attributes {
            self.text.push_str(&format!(" {key}=\""));
            escape(value, &mut self.text);
            self.text.push('"');
        }
    }

    fn indent(&mut self) {
        self.text.push_str(&"  ".repeat(self.open.len()));
    }

    /// The whole text.
    pub(super) fn finish(self) -> String {
        debug_assert!(self.open.is_empty(), "all elements are closed");
        self.text
    }
}

/// Appends `text`, escaped. Control characters that XML cannot hold are left out.
fn escape(text: &str, to: &mut String) {
    for c in text.chars() {
        match c {
            '&' => to.push_str("&amp;"),
            '<' => to.push_str("&lt;"),
            '>' => to.push_str("&gt;"),
            '"' => to.push_str("&quot;"),
            '\n' | '\t' | '\r' => to.push_str(&format!("&#{};", u32::from(c))),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => to.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_back() {
        let odd = "a < b & \"c\" > d\te\u{1}é𝄞";
        let mut xml = Xml::new("");
        xml.open("a", &[("b", odd)]);
        xml.leaf("c", &[], odd);
        xml.empty("d", &[]);
        xml.close();
        let text = xml.finish();
        let read = roxmltree::Document::parse(&text).unwrap();
        let without_control = odd.replace('\u{1}', "");
        let root = read.root_element();
        assert_eq!(root.attribute("b"), Some(without_control.as_str()));
        let c = root.first_element_child().unwrap();
        assert_eq!(c.text(), Some(without_control.as_str()));
    }
}
