//! Texts that people write.

use leadpipe::check::{self, Options};
use leadpipe::pencil::{self, edit, spoken};
use leadpipe::routine::{self, Fault, Routine};
use leadpipe::score::{self, Take};
use leadpipe::{class, volume};

/// The input as text. Files that are no text are refused before a reader sees them.
fn text(bytes: &[u8]) -> Option<&str> {
    std::str::from_utf8(bytes).ok()
}

/// Every fault has words, a hint, and places in the text at whole letters.
fn assert_inside(faults: &[Fault], text: &str) {
    for fault in faults {
        assert!(!fault.message.is_empty(), "{fault:?}");
        assert!(fault.hint.is_some(), "{fault:?}");
        let also = fault.also.as_ref().map(|(span, _)| *span);
        for span in [Some(fault.span), also].into_iter().flatten() {
            assert!(text.get(span.start..span.end).is_some(), "{fault:?}");
        }
    }
}

/// A routine that was read can be unrolled and checked, or is refused with words.
fn use_of(routine: &Routine) {
    let take = Take::default();
    match score::unroll(routine, &take) {
        Ok(score) => drop(check::check(&score, &Options::default())),
        Err(fault) => {
            let refusal = score::spoken::refusal(&fault, &take, routine);
            assert!(!refusal.message.is_empty());
        }
    }
}

pub fn routine(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    match routine::read(text) {
        Ok(routine) => use_of(&routine),
        Err(faults) => {
            assert!(!faults.is_empty());
            assert_inside(&faults, text);
        }
    }
}

/// Notes as they stand in a routine: on a horn and on tubes, with and without a value for each.
pub fn notes(bytes: &[u8]) {
    let Some(notes) = text(bytes) else { return };
    let quoted = spoken::quoted(notes);
    for (key, more) in [
        ("notes", ""),
        ("open", "tubes = [\"0\", \"1-2\"]\n"),
        ("notes", "each = \"quarter\"\n"),
    ] {
        let text = format!(
            "format = 1\ntitle = \"T\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G5\"\ntempo = 72\n\
             meter = \"4/4\"\n[[line]]\nname = \"N\"\n{more}{key} = {quoted}\n"
        );
        match routine::read(&text) {
            Ok(routine) => use_of(&routine),
            Err(faults) => assert_inside(&faults, &text),
        }
    }
}

pub fn pencil(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let read = pencil::read(text);
    assert_inside(&read.faults, text);
    let Some(found) = read.pencil.filter(|_| read.faults.is_empty()) else {
        return;
    };
    // Erasing a mark leaves a pencil with the others.
    if let Some(mark) = found.marks.first() {
        let left = edit::erase(text, mark).map(|text| pencil::read(&text));
        if let Some(left) = left {
            assert!(left.faults.is_empty(), "{:?}", left.faults);
        }
    }
}

/// Marks as they are typed.
pub fn marks(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    for said in text.lines() {
        match spoken::parse(said) {
            Ok(row) => {
                let line = spoken::quoted(said);
                let pencil = edit::add(&edit::empty(Some(said)), Some(&line), &row, None);
                let read = pencil::read(&pencil);
                assert!(read.pencil.is_some(), "{said:?} makes {pencil:?}");
                // A value that no mark can have is for the reader to say.
                assert_inside(&read.faults, &pencil);
            }
            Err(words) => assert!(!words.is_empty()),
        }
    }
}

pub fn class(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let read = class::read(text);
    assert_inside(&read.faults, text);
}

/// The values of options, one a row: each is read or refused with words.
pub fn options(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    for value in text.lines() {
        let refused = [
            score::spoken::tempo(value).err(),
            score::spoken::key(value).err(),
            score::spoken::guide(value).err(),
            score::spoken::a4(value).err(),
            score::spoken::temperament(value).err(),
            volume::parse(value).err().map(Into::into),
        ];
        assert!(refused.iter().flatten().all(|words| !words.is_empty()));
        if let Some(shard) = class::Shard::parse(value) {
            shard.holds(0);
        }
    }
}
