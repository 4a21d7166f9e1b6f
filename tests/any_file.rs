//! Whatever is in a file: it is read without panic, and every fault points into it, at whole letters.

use leadpipe::command::source::SourceText;
use leadpipe::routine::{self, Fault};
use proptest::prelude::*;
use std::fs;

/// Pieces that rows of routine files are made of, and of what goes wrong in them.
const PIECES: [&str; 64] = [
    "format = 1\n",
    "title = \"T\"\n",
    "instrument = \"cornet\"\n",
    "comfortable_top = \"G4\"\n",
    "tempo = 72\n",
    "meter = \"4/4\"\n",
    "[[line]]\n",
    "name = \"N\"\n",
    "notes = \"G4:half\"\n",
    "open = \"C4:half\"\n",
    "tubes = [\"0\", \"1-2\"]\n",
    "half_steps = [0, -1]\n",
    "on = \"air\"\n",
    "tempo",
    "notes",
    "title",
    "half_steps",
    "line",
    "comfortable top",
    " = ",
    "=",
    ": ",
    "\"",
    "\"\"\"",
    "'",
    "'''",
    "“",
    "”",
    "„",
    "‘",
    "’",
    "[",
    "[[",
    "]",
    "]]",
    "{",
    "}",
    ",",
    ".",
    "#",
    "\\",
    "\\q",
    "\\u12",
    "\\U0001d11e",
    "\n",
    "\r\n",
    "\r",
    "\t",
    " ",
    "72",
    "60,5",
    "4/4",
    "–1",
    "nan",
    "1e9",
    "0x1f",
    "1979-05-27",
    "G4:half",
    "slur( ",
    " )",
    "é",
    "朝",
    "\u{200b}",
    "\u{1}",
];

fn text() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(PIECES.to_vec());
    let pieces = prop::collection::vec(piece, 0..60).prop_map(|p| p.concat());
    let odd = (
        prop::collection::vec(any::<char>(), 0..4),
        any::<prop::sample::Index>(),
    );
    (pieces, odd).prop_map(|(mut text, (odd, at))| {
        let mut at = at.index(text.len() + 1);
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        text.insert_str(at, &odd.into_iter().collect::<String>());
        text
    })
}

fn assert_inside(faults: &[Fault], text: &str) {
    assert!(!faults.is_empty());
    for fault in faults {
        assert!(!fault.message.is_empty(), "{fault:?}");
        assert!(
            fault.hint.is_some(),
            "every fault says what would be right: {fault:?}"
        );
        let also = fault.also.as_ref().map(|(span, _)| *span);
        for span in [Some(fault.span), also].into_iter().flatten() {
            assert!(span.start <= span.end, "{fault:?}");
            assert!(
                text.get(span.start..span.end).is_some(),
                "{fault:?} in {text:?}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn rows_of_any_kind_are_read(text in text()) {
        if let Err(faults) = routine::read(&text) {
            assert_inside(&faults, &text);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Bytes of any kind, as a file, the way the program reads it: either words on why they are no text,
    /// or a text whose faults lie inside it.
    #[test]
    fn bytes_of_any_kind_are_read(
        text in text(),
        bytes in prop::collection::vec(any::<u8>(), 0..40),
        at in any::<prop::sample::Index>(),
    ) {
        let mut all = text.into_bytes();
        let at = at.index(all.len() + 1);
        all.splice(at..at, bytes);
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.toml");
        fs::write(&path, &all).unwrap();
        if let Ok(source) = SourceText::find(path.as_os_str())
            && let Err(faults) = source.read()
        {
            assert_inside(&faults, &source.text);
        }
        prop_assert!(fs::read(&path).unwrap() == all, "the file stays as it is");
    }
}
