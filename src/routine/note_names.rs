//! The names of notes in the text of a routine: which they are, and the same text in others.

use super::fault::Span;
use super::fields::choose;
use super::notes::lexer::{TokenKind, tokens};
use super::source::PlacedText;
use crate::music::NoteNames;
use toml::de::{DeTable, DeValue};

/// The names that a text says it is written in; English ones if it does not say.
pub fn of(text: &str) -> NoteNames {
    let (head, _) = DeTable::parse_recoverable(text);
    said(head.get_ref()).unwrap_or_default()
}

/// What the head of a file says.
pub(super) fn said(head: &DeTable<'_>) -> Option<NoteNames> {
    match head.get("names")?.get_ref() {
        DeValue::String(word) => choose(word.trim(), &NoteNames::WORDS),
        _ => None,
    }
}

/// The same routine with its notes in other names. Everything else stays, byte for byte.
pub fn rewritten(text: &str, to: NoteNames) -> String {
    let (root, _) = DeTable::parse_recoverable(text);
    let head = root.get_ref();
    let from = said(head).unwrap_or_default();
    if from == to {
        return text.to_owned();
    }
    let mut rewriting = Rewriting {
        text,
        from,
        to,
        changes: vec![],
    };
    rewriting.row(head);
    rewriting.one(head, "comfortable_top");
    rewriting.one(head, "reach");
    if let Some(DeValue::Array(lines)) = head.get("line").map(|value| value.get_ref()) {
        for line in lines.iter() {
            if let DeValue::Table(line) = line.get_ref() {
                rewriting.one(line, "tonic");
                rewriting.one(line, "drone");
                rewriting.notes(line, "notes");
                rewriting.notes(line, "open");
            }
        }
    }
    rewriting.done()
}

struct Rewriting<'t> {
    text: &'t str,
    from: NoteNames,
    to: NoteNames,
    changes: Vec<(Span, String)>,
}

impl Rewriting<'_> {
    /// The row that says which names they are.
    fn row(&mut self, head: &DeTable<'_>) {
        let word = format!("\"{}\"", self.to.word());
        if let Some(value) = head.get("names") {
            self.changes.push((value.span().into(), word));
            return;
        }
        let format = head.get("format").map_or(0, |value| value.span().end);
        let end = self.text[format..].find('\n');
        let at = end.map_or(self.text.len(), |end| format + end);
        self.changes
            .push((Span::new(at, at), format!("\nnames = {word}")));
    }

    fn placed(&self, table: &DeTable<'_>, key: &str) -> Option<PlacedText> {
        let value = table.get(key)?;
        matches!(value.get_ref(), DeValue::String(_))
            .then(|| PlacedText::decode(self.text, value.span()))
    }

    /// A value that is a note.
    fn one(&mut self, table: &DeTable<'_>, key: &str) {
        let Some(placed) = self.placed(table, key) else {
            return;
        };
        if let Some(pitch) = self.from.parse(placed.text.trim()) {
            self.changes.push((placed.whole(), self.to.of(pitch)));
        }
    }

    /// The notes of a line.
    fn notes(&mut self, line: &DeTable<'_>, key: &str) {
        let Some(placed) = self.placed(line, key) else {
            return;
        };
        for token in tokens(&placed.text) {
            let TokenKind::Word(word) = token.kind else {
                continue;
            };
            let head = word.split(':').next().unwrap_or(word);
            if let Some(pitch) = self.from.parse(head) {
                let at = token.range.start;
                let span = placed.span(at..at + head.len());
                self.changes.push((span, self.to.of(pitch)));
            }
        }
    }

    fn done(mut self) -> String {
        self.changes.sort_by_key(|(span, _)| span.start);
        let mut out = self.text.to_owned();
        for (span, name) in self.changes.iter().rev() {
            out.replace_range(span.start..span.end, name);
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ENGLISH: &str = "format = 1\ntitle = \"B\"\ncomfortable_top = \"C4\"\n# B4\n[[line]]\n\
        notes = \"mf slur( Bb3:half B3 ) F#4:half(bend) | rest:whole\"\ndrone = \"Bb3\"\n";

    #[test]
    fn a_text_is_rewritten_and_back() {
        let german = rewritten(ENGLISH, NoteNames::German);
        assert!(
            german.contains("format = 1\nnames = \"german\"\n"),
            "{german}"
        );
        assert!(
            german.contains("slur( B3:half H3 ) Fis4:half(bend)"),
            "{german}"
        );
        assert!(german.contains("title = \"B\"") && german.contains("# B4"));
        assert!(german.contains("drone = \"B3\""));
        assert_eq!(of(&german), NoteNames::German);
        let solfege = rewritten(&german, NoteNames::Solfege);
        assert!(
            solfege.contains("slur( si♭3:half si3 ) fa♯4:half(bend)"),
            "{solfege}"
        );
        let back = rewritten(&solfege, NoteNames::English);
        assert_eq!(back.replace("names = \"english\"\n", ""), ENGLISH);
    }
}
