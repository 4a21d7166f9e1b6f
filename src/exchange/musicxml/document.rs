//! Parses XML within limits, so that no file of any content takes more memory or time than a large score.

use crate::problem::Problem;
use roxmltree::{Document, Error, ParsingOptions};

/// The most tags, opening and closing ones. A movement of a symphony has fewer.
const MOST_TAGS: usize = 700_000;
/// The most attributes.
const MOST_ATTRIBUTES: usize = 700_000;
/// The most nodes: elements and the texts between them.
const MOST_NODES: u32 = 1_400_000;
/// The most attributes of one element, because each is compared with the others.
const MOST_OF_ONE: usize = 256;
/// The most namespaces that are named, because elements inside inherit all of them.
const MOST_NAMESPACES: usize = 100;

/// Parses a document. A DTD may be named: every MusicXML file may name its own, which is never fetched.
///
/// # Errors
/// If it is not XML, is larger than any score, or defines entities, which a score does not need and which can expand
/// without limit.
pub(super) fn parse(text: &str) -> Result<Document<'_>, Problem> {
    defines_nothing(text)?;
    bounded(text)?;
    let options = ParsingOptions {
        allow_dtd: true,
        nodes_limit: MOST_NODES,
        ..ParsingOptions::default()
    };
    Document::parse_with_options(text, options).map_err(|error| no_xml(&error))
}

fn no_xml(error: &Error) -> Problem {
    match error {
        Error::NodesLimitReached => too_large(),
        error => Problem::error(format!(
            "it is cut short, damaged or no MusicXML: line {} cannot be read",
            error.pos().row
        ))
        .hint("export it once more from the notation program, as MusicXML"),
    }
}

fn too_large() -> Problem {
    Problem::error("the score is far larger than any warm-up").hint("export one part of it")
}

fn no_score(what: &str) -> Problem {
    Problem::error(format!("{what}, so it is no score from a notation program"))
        .hint("export it once more from the notation program, as MusicXML")
}

/// Refuses a document type that defines entities.
fn defines_nothing(text: &str) -> Result<(), Problem> {
    let definition = text
        .find("<!DOCTYPE")
        .and_then(|from| Some(from + text[from..].find("<!ENTITY")?));
    match definition {
        None => Ok(()),
        Some(at) => {
            let line = text[..at].bytes().filter(|b| *b == b'\n').count() + 1;
            Err(no_score(&format!(
                "line {line} of it defines words of its own that stand for other text (entities)"
            )))
        }
    }
}

/// Counts what costs memory or time before any of it is spent. Everywhere but in comments the counts are exact.
fn bounded(text: &str) -> Result<(), Problem> {
    let bytes = text.as_bytes();
    let (mut tags, mut attributes, mut of_one, mut namespaces) = (0, 0, 0, 0);
    let mut in_tag = false;
    let mut quote = None;
    for (index, byte) in bytes.iter().enumerate() {
        match byte {
            // A value in quotes cannot hold it, so here a tag begins, or a comment or text.
            b'<' => {
                tags += 1;
                of_one = 0;
                quote = None;
                in_tag = !matches!(bytes.get(index + 1), Some(b'!' | b'?' | b'/'));
            }
            b'=' => {
                attributes += 1;
                of_one += usize::from(in_tag && quote.is_none());
            }
            b'>' if quote.is_none() => in_tag = false,
            b'"' | b'\'' if in_tag => match quote {
                None => quote = Some(byte),
                Some(open) if open == byte => quote = None,
                Some(_) => {}
            },
            b'x' => namespaces += usize::from(bytes[index..].starts_with(b"xmlns")),
            _ => {}
        }
        if of_one > MOST_OF_ONE {
            return Err(no_score(&format!(
                "one sign in it has more than {MOST_OF_ONE} attributes"
            )));
        }
    }
    if tags > MOST_TAGS || attributes > MOST_ATTRIBUTES {
        return Err(too_large());
    }
    if namespaces > MOST_NAMESPACES {
        return Err(no_score(&format!(
            "it names more than {MOST_NAMESPACES} namespaces"
        )));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        parse(text).unwrap_err().message.into()
    }

    #[test]
    fn a_document_type_is_taken_and_its_entities_are_not() {
        assert!(parse("<!DOCTYPE a PUBLIC \"-//x//DTD\" \"http://a.test/a.dtd\"><a/>").is_ok());
        assert!(parse("<!DOCTYPE a [<!ELEMENT a ANY>]><a>&amp;&#65;</a>").is_ok());
        for entity in ["x \"y\"", "% x \"y\"", "x SYSTEM \"file:///x\""] {
            assert_eq!(
                refused(&format!("<!DOCTYPE a [\n<!ENTITY {entity}>]><a>&x;</a>")),
                "line 2 of it defines words of its own that stand for other text (entities), so it is no score from a \
                 notation program"
            );
        }
    }

    #[test]
    fn what_costs_more_than_it_holds_is_refused() {
        let attributes = |n: usize| -> String {
            let all: Vec<String> = (0..n).map(|i| format!("a{i}=\">\"")).collect();
            format!("<a {}/>", all.join(" "))
        };
        assert!(parse(&attributes(MOST_OF_ONE)).is_ok());
        assert!(
            refused(&attributes(MOST_OF_ONE + 1)).starts_with("one sign in it has more than 256")
        );
        let namespaces = |n: usize| -> String {
            let all: String = (0..n).map(|i| format!("<a xmlns:n{i}=\"u\">")).collect();
            all + &"</a>".repeat(n)
        };
        assert!(parse(&namespaces(MOST_NAMESPACES)).is_ok());
        assert!(refused(&namespaces(MOST_NAMESPACES + 1)).starts_with("it names more than 100"));
        let large = "the score is far larger than any warm-up";
        let elements = |n: usize| format!("<a>{}</a>", "<b/>".repeat(n));
        assert!(parse(&elements(MOST_TAGS - 2)).is_ok());
        assert_eq!(refused(&elements(MOST_TAGS - 1)), large);
        // Rows of signs in a comment or under the notes are no attributes of one element.
        let row = "=".repeat(1000);
        assert!(parse(&format!("<a><!-- {row} --><b c=\"{row}\">{row}</b></a>")).is_ok());
    }
}
