//! A message of a Fluent file, and the two forms in which leadpipe keeps it: with marks for its parts, which
//! `words::catalogue` reads, and as JSON for the page's script.

use fluent_syntax::ast::{Expression, InlineExpression, Pattern, PatternElement, VariantKey};
use fluent_syntax::unicode::unescape_unicode_to_string;

/// A message: its parts in order.
pub struct Message(Vec<Part>);

enum Part {
    Text(String),
    Argument(String),
    /// The argument that chooses, and the variants; the last one holds where no other does.
    Choice(String, Vec<(String, Message)>),
}

impl Message {
    /// Reads a pattern.
    pub fn of(pattern: &Pattern<&str>) -> Result<Self, String> {
        let parts = pattern.elements.iter().map(|element| match element {
            // A text that goes on in the next row of the file is one row all the same.
            PatternElement::TextElement { value } => Ok(Part::Text(value.replace('\n', " "))),
            PatternElement::Placeable { expression } => match expression {
                Expression::Inline(inline) => inlined(inline),
                Expression::Select { selector, variants } => {
                    let InlineExpression::VariableReference { id } = selector else {
                        return Err("only an argument chooses among variants".to_owned());
                    };
                    let mut all = vec![];
                    for variant in variants {
                        let key = match &variant.key {
                            VariantKey::Identifier { name } => *name,
                            VariantKey::NumberLiteral { value } => *value,
                        };
                        let key = (variant.default, key.to_owned());
                        all.push((key, Self::of(&variant.value)?));
                    }
                    all.sort_by_key(|((default, _), _)| *default);
                    let all = all.into_iter().map(|((_, key), message)| (key, message));
                    Ok(Part::Choice(id.name.to_owned(), all.collect()))
                }
            },
        });
        Ok(Self(parts.collect::<Result<_, _>>()?))
    }

    /// The names of its arguments, in order.
    pub fn arguments(&self) -> Vec<&str> {
        let parts = self.0.iter();
        parts
            .flat_map(|part| match part {
                Part::Text(_) => vec![],
                Part::Argument(name) => vec![name.as_str()],
                Part::Choice(name, variants) => {
                    let inside = variants.iter().flat_map(|(_, message)| message.arguments());
                    std::iter::once(name.as_str()).chain(inside).collect()
                }
            })
            .collect()
    }

    /// With marks for its parts: an argument is `\u{1}` and its number; a choice is `\u{2}`, the number, for each
    /// variant `\u{3}`, its key, `\u{4}` and its words, and `\u{5}`. The numbers are letters from `a`.
    pub fn written(&self, arguments: &[&str]) -> String {
        let number = |name: &str| {
            let at = arguments.iter().position(|a| *a == name);
            char::from(b'a' + u8::try_from(at.expect("it is among them")).expect("they are few"))
        };
        let parts = self.0.iter();
        parts
            .map(|part| match part {
                Part::Text(text) => text.clone(),
                Part::Argument(name) => format!("\u{1}{}", number(name)),
                Part::Choice(name, variants) => {
                    let last = variants.len() - 1;
                    let all = variants.iter().enumerate().map(|(at, (key, message))| {
                        let key = if at == last { "" } else { key };
                        format!("\u{3}{key}\u{4}{}", message.written(arguments))
                    });
                    format!("\u{2}{}{}\u{5}", number(name), all.collect::<String>())
                }
            })
            .collect()
    }

    /// For the page's script: a text with its arguments in braces; a choice by number alone as an object.
    pub fn json(&self, key: &str) -> String {
        if let [Part::Choice(by, variants)] = &self.0[..] {
            let all = variants.iter().map(|(variant, message)| {
                format!(",{}:{}", quoted(variant), quoted(&message.braced(key)))
            });
            return format!("{{\"by\":{}{}}}", quoted(by), all.collect::<String>());
        }
        quoted(&self.braced(key))
    }

    fn braced(&self, key: &str) -> String {
        let parts = self.0.iter();
        parts
            .map(|part| match part {
                Part::Text(text) => text.clone(),
                Part::Argument(name) => format!("{{{name}}}"),
                Part::Choice(..) => panic!("{key}: in the script's words a choice stands alone"),
            })
            .collect()
    }

    /// For a reader of the program: the words with the names of arguments in braces.
    pub fn english(&self) -> String {
        let parts = self.0.iter();
        let said: String = parts
            .map(|part| match part {
                Part::Text(text) => text.clone(),
                Part::Argument(name) => format!("{{{name}}}"),
                Part::Choice(_, variants) => variants[0].1.english(),
            })
            .collect();
        said
    }
}

fn inlined(inline: &InlineExpression<&str>) -> Result<Part, String> {
    match inline {
        InlineExpression::StringLiteral { value } => {
            Ok(Part::Text(unescape_unicode_to_string(value).into_owned()))
        }
        InlineExpression::NumberLiteral { value } => Ok(Part::Text((*value).to_owned())),
        InlineExpression::VariableReference { id } => Ok(Part::Argument(id.name.to_owned())),
        _ => Err("only arguments and quoted texts stand in braces".to_owned()),
    }
}

/// A text as JSON.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
