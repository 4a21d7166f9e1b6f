//! Escapes text of a routine for a page, so that a browser shows it and never interprets it.

/// Escapes text for a place between tags or inside a quoted attribute.
pub fn html(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(' '),
            c if is_order(c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// The text as a JSON string (RFC 8259) for a data script of a page: characters with a meaning in HTML are written as
/// numbers.
pub fn json(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' | '<' | '>' | '&' | '\'' | '\u{2028}' | '\u{2029}' => {
                out.push_str(&by_number(c))
            }
            c if is_order(c) => out.push_str(&by_number(c)),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// Escapes a JSON document (RFC 8259) for a data script of a page without changing its meaning. Only its strings can
/// contain characters with a meaning in HTML.
pub fn data(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    let mut letters = json.chars();
    while let Some(c) = letters.next() {
        match c {
            // A quote inside a text goes by its number, too; what else is escaped stays so.
            '\\' => match letters.next() {
                Some('"') => out.push_str(&by_number('"')),
                Some(escaped) => out.extend([c, escaped]),
                None => out.push(c),
            },
            '<' | '>' | '&' | '\'' | '\u{2028}' | '\u{2029}' => out.push_str(&by_number(c)),
            c if is_order(c) => out.push_str(&by_number(c)),
            c => out.push(c),
        }
    }
    out
}

fn by_number(c: char) -> String {
    let mut units = [0; 2];
    let units = c.encode_utf16(&mut units).iter();
    units.map(|unit| format!("\\u{unit:04x}")).collect()
}

/// Characters that a browser interprets and does not show: control characters, and those that change the direction of
/// the text after them.
fn is_order(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A file's name as a relative URL (RFC 3986). All but unreserved characters are percent-encoded, so that nothing in it
/// is read as a folder, a query or a scheme.
pub fn address(name: &str) -> String {
    let mut out = String::new();
    for byte in name.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

/// The language of a routine's own texts as an attribute, if it is said; the page's words may be in another.
pub fn language(tag: Option<&str>) -> String {
    tag.map_or(String::new(), |tag| format!(" lang=\"{}\"", html(tag)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_becomes_a_tag_or_ends_an_attribute() {
        assert_eq!(
            html("<script>alert('x')</script> & \"y\""),
            "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;y&quot;"
        );
        assert_eq!(html("two\nrows\u{0}\u{202e}"), "two rows\u{fffd}\u{fffd}");
        assert_eq!(html("Übung ♯"), "Übung ♯");
    }

    #[test]
    fn json_says_the_same_and_ends_no_script() {
        let text = "</script><!-- \"a\\b\" 'c' & \n\u{2028}\u{202e}Übung 朝";
        let json = json(text);
        assert!(!json.contains(['<', '>', '&', '\n', '\u{202e}']), "{json}");
        let read: String = serde_json::from_str(&json).expect("it is JSON");
        assert_eq!(read, text);
    }

    #[test]
    fn a_document_of_json_says_the_same_and_ends_no_script() {
        let text = "</script><!-- \"a\\b\" 'c' & \n\u{2028}\u{202e}\u{85}Übung 朝";
        let document = serde_json::to_string(&[text]).expect("a text can be written");
        let data = data(&document);
        let orders = ['<', '>', '&', '\u{2028}', '\u{202e}', '\u{85}'];
        assert!(!data.contains(orders), "{data}");
        let read: Vec<String> = serde_json::from_str(&data).expect("it is JSON");
        assert_eq!(read, [text]);
    }

    #[test]
    fn any_name_is_one_step_of_an_address() {
        assert_eq!(address("anna 061.2 key-0.mp3"), "anna%20061.2%20key-0.mp3");
        assert_eq!(address("朝?#/..\\a:b"), "%E6%9C%9D%3F%23%2F..%5Ca%3Ab");
    }
}
