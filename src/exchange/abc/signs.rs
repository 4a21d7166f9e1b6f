//! Signs at notes and over the staff.

use crate::exchange::piece::MarkKind;
use crate::music::Dynamic;
use crate::routine::Style;

/// What a sign means.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Sign {
    /// How the next note is held.
    Style(Style),
    /// A breath after the note before.
    Breath,
    /// A mark at this moment.
    Mark(MarkKind),
    /// A jump, or a place for one.
    Jump(Jump),
    /// It is not kept, and this is said.
    Lost(&'static str),
    /// It says nothing of the music.
    Nothing,
}

/// Jumps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Jump {
    DaCapo,
    DalSegno,
    Segno,
    ToCoda,
    Coda,
    Fine,
}

/// The sign that one of the letters `.~HLMOPSTuv` stands for.
pub(super) fn of_letter(letter: char) -> Option<&'static str> {
    Some(match letter {
        '.' => "staccato",
        '~' => "roll",
        'H' => "fermata",
        'L' => "accent",
        'M' => "lowermordent",
        'O' => "coda",
        'P' => "uppermordent",
        'S' => "segno",
        'T' => "trill",
        'u' => "upbow",
        'v' => "downbow",
        _ => return None,
    })
}

/// The sign of a name between exclamation marks.
pub(super) fn named(name: &str) -> Sign {
    if let Some(dynamic) = Dynamic::parse(name) {
        return Sign::Mark(MarkKind::Dynamic(dynamic));
    }
    match name {
        "staccato" => Sign::Style(Style::Staccato),
        "tenuto" => Sign::Style(Style::Legato),
        ">" | "accent" | "emphasis" => Sign::Style(Style::Accent),
        "breath" => Sign::Breath,
        "crescendo(" | "<(" => Sign::Mark(MarkKind::Wedge(true)),
        "diminuendo(" | ">(" => Sign::Mark(MarkKind::Wedge(false)),
        "crescendo)" | "<)" | "diminuendo)" | ">)" => Sign::Mark(MarkKind::WedgeOver),
        "segno" => Sign::Jump(Jump::Segno),
        "coda" => Sign::Jump(Jump::Coda),
        "dacoda" => Sign::Jump(Jump::ToCoda),
        "fine" => Sign::Jump(Jump::Fine),
        "D.S." | "D.S.alcoda" | "D.S.alfine" => Sign::Jump(Jump::DalSegno),
        "D.C." | "dacapo" | "D.C.alcoda" | "D.C.alfine" => Sign::Jump(Jump::DaCapo),
        "fermata" | "invertedfermata" => Sign::Lost("a fermata is not kept, for the click goes on"),
        "upbow" | "downbow" | "open" | "thumb" | "snap" | "plus" | "wedge" => {
            Sign::Lost("bowings and other signs of technique are left out")
        }
        "0" | "1" | "2" | "3" | "4" | "5" => Sign::Lost("numbers of fingers are left out"),
        "trill" | "trill(" | "trill)" | "roll" | "turn" | "turnx" | "invertedturn"
        | "invertedturnx" | "mordent" | "lowermordent" | "uppermordent" | "pralltriller" => {
            Sign::Lost("trills, turns and other ornaments are left out")
        }
        "ppp" | "pppp" => Sign::Lost("signs softer than pp are left out"),
        "fff" | "ffff" => Sign::Lost("signs louder than ff are left out"),
        "sfz" => Sign::Lost("a sudden sf is left out: mark the note with (accent)"),
        "" | "beambr1" | "beambr2" => Sign::Nothing,
        _ => Sign::Lost("other signs at notes are left out"),
    }
}

/// Text between quotation marks: over or under the staff, or else a chord symbol.
pub(super) fn quoted(text: &str) -> Sign {
    let mut letters = text.chars();
    match letters.next() {
        None => Sign::Nothing,
        Some('^' | '_' | '<' | '>' | '@') => words(letters.as_str().trim()),
        Some(_) => Sign::Lost("chord symbols are left out"),
    }
}

fn words(text: &str) -> Sign {
    let plain = text.to_lowercase();
    let plain = plain.trim_matches(|c: char| c.is_whitespace() || c == '.');
    match plain {
        "" => Sign::Nothing,
        "fine" => Sign::Jump(Jump::Fine),
        _ if plain.starts_with("d.c") || plain.starts_with("da capo") => Sign::Jump(Jump::DaCapo),
        _ if plain.starts_with("d.s") || plain.starts_with("dal segno") => {
            Sign::Jump(Jump::DalSegno)
        }
        _ => match Dynamic::parse(plain) {
            Some(dynamic) => Sign::Mark(MarkKind::Dynamic(dynamic)),
            None => Sign::Mark(MarkKind::Words(text.to_owned())),
        },
    }
}
