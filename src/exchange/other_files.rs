//! Files that are no music in an open standard: what kind they are, and what to export instead.

use crate::problem::Problem;

/// What to do instead.
const EXPORT: &str = "in the notation program choose “export”, and MusicXML (.musicxml or .mxl); MIDI (.mid) and ABC (.abc) \
                      are read too";

/// First bytes, and the kind of file that begins with them.
const KINDS: [(&[u8], &str); 19] = [
    (b"%PDF", "a PDF: pages to print, not notes"),
    (b"\x89PNG", "a picture: notes are drawn in it, not written"),
    (
        b"\xff\xd8\xff",
        "a picture: notes are drawn in it, not written",
    ),
    (b"GIF8", "a picture: notes are drawn in it, not written"),
    (b"BM", "a picture: notes are drawn in it, not written"),
    (b"II*\0", "a picture: notes are drawn in it, not written"),
    (b"MM\0*", "a picture: notes are drawn in it, not written"),
    (b"%!PS", "PostScript: pages to print, not notes"),
    (b"RIFF", "a recording: sound, not notes"),
    (b"fLaC", "a recording: sound, not notes"),
    (b"ID3", "a recording: sound, not notes"),
    (b"\xff\xfb", "a recording: sound, not notes"),
    (b"OggS", "a recording: sound, not notes"),
    (b"{\\rtf", "a document of a word processor"),
    (
        b"\xd0\xcf\x11\xe0",
        "a document of an office program, or a notation program's own file",
    ),
    (
        b"\x1f\x8b",
        "a packed file of another kind, perhaps a notation program's own",
    ),
    (b"7z\xbc\xaf\x27\x1c", "a packed file of another kind"),
    (b"Rar!", "a packed file of another kind"),
    (
        b"SQLite format 3",
        "a database, perhaps a notation program's own file",
    ),
];

/// Why a file is refused, if its first bytes say what it is.
pub(super) fn refusal(bytes: &[u8]) -> Option<Problem> {
    if bytes.is_empty() {
        return Some(Problem::error("it is empty").hint(EXPORT));
    }
    // Pictures and recordings of newer kinds name theirs after the length of the first part.
    let newer = bytes.get(4..8) == Some(b"ftyp");
    let known = KINDS.iter().find(|(first, _)| bytes.starts_with(first));
    let what = match known {
        Some((_, what)) => *what,
        None if newer => "a picture, film or recording, not notes",
        None if is_binary(bytes) => {
            "a file of a kind that is not known here, perhaps a notation program's own"
        }
        None => return None,
    };
    Some(Problem::error(format!("it is {what}")).hint(EXPORT))
}

/// Text in any encoding of letters has no such bytes, but that of two bytes a letter has zeros in every other place.
fn is_binary(bytes: &[u8]) -> bool {
    let head = &bytes[..bytes.len().min(512)];
    let wide = matches!(
        head,
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] | [b'<', 0, ..] | [0, b'<', ..]
    );
    !wide && head.contains(&0)
}

/// Refuses text that is no music.
pub(super) fn no_music() -> Problem {
    Problem::error("it is text, but neither MusicXML nor ABC").hint(EXPORT)
}

/// Refuses a packed file without a score, by the names of what is in it.
pub(super) fn packed<'n>(names: impl Iterator<Item = &'n str>) -> Problem {
    let office = ["[Content_Types].xml", "mimetype", "word/document.xml"];
    let mut names = names;
    let what = if names.any(|name| office.contains(&name)) {
        "a document of an office program, or a book"
    } else {
        "a packed file without a score in MusicXML, perhaps a notation program's own"
    };
    Problem::error(format!("it is {what}")).hint(EXPORT)
}

/// Refuses XML that is no score.
pub(super) fn other_xml(root: &str) -> Problem {
    let what = match root {
        "html" | "svg" => "a page or a drawing, but no score in MusicXML",
        _ => "XML, but no score in MusicXML",
    };
    Problem::error(format!("it is {what}")).hint(EXPORT)
}
