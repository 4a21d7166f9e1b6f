//! Recognises what people write for a note by mistake: other languages, other spellings, typing errors.

use crate::music::{Dynamic, NoteValue, WrittenPitch, pitch::Letter};
use crate::routine::fault::{Fault, Span};
use crate::routine::model::On;
use crate::routine::suggest::nearest;

/// Mistakes that usually occur at every note of a line: each is reported once for each line.
#[derive(Debug, Default)]
pub struct Many {
    /// Commas between notes.
    pub commas: Occurrences,
    /// Notes without a length.
    pub lengthless: Occurrences,
    /// Pitches in lower case.
    pub small: Occurrences,
    /// The German H.
    pub german_h: Occurrences,
}

/// How many times something occurs in a line, and where first.
#[derive(Debug, Default)]
pub struct Occurrences {
    first: Option<(Span, String)>,
    count: usize,
}

impl Occurrences {
    /// Counts an occurrence.
    pub fn add(&mut self, span: Span) {
        self.add_example(span, "");
    }

    /// Counts an occurrence; the text of the first is kept for the message.
    pub fn add_example(&mut self, span: Span, example: &str) {
        self.first.get_or_insert_with(|| (span, example.to_owned()));
        self.count += 1;
    }

    fn tell(&self, faults: &mut Vec<Fault>, make: impl FnOnce(Span, &str) -> Fault) {
        if let Some((span, example)) = &self.first {
            let mut fault = make(*span, example);
            if self.count > 1 {
                fault.label = Some(format!("here and {} more in this line", self.count - 1));
            }
            faults.push(fault);
        }
    }
}

impl Many {
    /// Reports what was counted.
    pub fn tell(&self, faults: &mut Vec<Fault>) {
        self.commas.tell(faults, |span, _| {
            Fault::new(span, "notes are parted by blanks, not by commas")
                .hint("leave the commas out; where a breath is meant write the word breath")
        });
        self.lengthless.tell(faults, |span, head| {
            Fault::new(span, format!("{head} has no length")).hint(format!(
                "write {head}:quarter, or once for the whole line each = \"quarter\""
            ))
        });
        self.small.tell(faults, |span, meant| {
            Fault::new(span, "pitches are written with a capital letter")
                .hint(format!("write {meant}"))
        });
        self.german_h.tell(faults, |span, meant| {
            Fault::new(span, "H is the German name of B")
                .hint(format!("write {meant}; the German B is Bb here"))
        });
    }
}

/// The intended meaning of an invalid pitch.
#[derive(Debug)]
pub enum Meant {
    /// This pitch; the mistake has been counted.
    Pitch(WrittenPitch),
    /// A pitch, but it is ambiguous.
    Fault(Fault),
    /// Not a pitch.
    Unknown,
}

/// Interprets a word that is not a valid pitch but may be meant as one.
pub fn pitch(head: &str, many: &mut Many, span: Span) -> Meant {
    if let Some(meant) = capitalised(head) {
        many.small.add_example(span, &meant.to_string());
        return Meant::Pitch(meant);
    }
    let upper = head.replacen('h', "H", 1);
    if let Some(rest) = upper.strip_prefix('H')
        && let Some(meant) = WrittenPitch::parse(&format!("B{rest}"))
    {
        many.german_h.add_example(span, &meant.to_string());
        return Meant::Pitch(meant);
    }
    let fault = |message: String, hint: String| Meant::Fault(Fault::new(span, message).hint(hint));
    let mut chars = head.chars();
    let Some(letter) = chars
        .next()
        .and_then(|c| Letter::parse(c.to_ascii_uppercase()))
    else {
        return Meant::Unknown;
    };
    let (letter, rest) = (letter.name(), chars.as_str());
    match rest {
        "" | "#" | "♯" | "b" | "♭" => {
            let name = format!("{letter}{rest}");
            return fault(
                format!("{name} does not say in which octave"),
                format!(
                    "{name}4 is the one from the first ledger line below (C4) to the third line (B4)"
                ),
            );
        }
        _ => {}
    }
    let digit = |s: &str| s.len() == 1 && s.bytes().all(|b| b.is_ascii_digit());
    // An octave before its accidental: G4#.
    let mut parts = rest.chars();
    if let (Some(octave), accidental @ ("#" | "♯" | "b" | "♭")) = (parts.next(), parts.as_str())
        && octave.is_ascii_digit()
    {
        return fault(
            "the octave stands after the accidental".to_owned(),
            format!("write {letter}{accidental}{octave}"),
        );
    }
    for (double, moves) in [("##", 2), ("♯♯", 2), ("x", 2), ("bb", -2), ("♭♭", -2)] {
        let octave = rest.strip_prefix(double).filter(|s| digit(s));
        if let Some(natural) = octave.and_then(|o| WrittenPitch::parse(&format!("{letter}{o}"))) {
            return fault(
                "double sharps and flats are not used".to_owned(),
                format!("write {}, which is the same valve", natural.moved(moves)),
            );
        }
    }
    for (syllable, accidental) in [
        ("is", "#"),
        ("es", "b"),
        ("s", "b"),
        ("sharp", "#"),
        ("flat", "b"),
    ] {
        if let Some(octave) = rest.strip_prefix(syllable).filter(|s| digit(s)) {
            let meant = format!("{letter}{accidental}{octave}");
            return fault(
                format!("{head} is not how a pitch is written here"),
                format!("write {meant}"),
            );
        }
    }
    let accidentals = rest.trim_start_matches(['#', 'b', '♯', '♭']);
    let signed = accidentals.strip_prefix('-').unwrap_or(accidentals);
    if !signed.is_empty() && signed.bytes().all(|b| b.is_ascii_digit()) {
        return fault(
            format!("{head} is in an octave no brass player reads"),
            "octaves are numbered from C4, first ledger line below; G4 is second-line G".to_owned(),
        );
    }
    Meant::Unknown
}

/// The pitch meant by a lower-case letter: `g4`, `bb3`, `f#4`.
fn capitalised(head: &str) -> Option<WrittenPitch> {
    let first = head.chars().next().filter(char::is_ascii_lowercase)?;
    WrittenPitch::parse(&format!("{}{}", first.to_ascii_uppercase(), &head[1..]))
}

/// An unknown word.
pub fn word(word: &str, value: Option<&str>, on: On, span: Span) -> Fault {
    const HORN: [&str; 12] = [
        "rest", "tie", "breath", "cresc", "dim", "slur", "triplet", "pp", "mp", "mf", "ff", "sharp",
    ];
    const AIR: [&str; 5] = ["in", "out", "hold", "rest", "tie"];
    let head = word.split(':').next().unwrap_or(word);
    let fault = Fault::new(span, format!("{word} is not understood"));
    if Dynamic::parse(&word.to_lowercase()).is_some() {
        return fault.hint(format!("write {}", word.to_lowercase()));
    }
    let synonym = match head.to_lowercase().as_str() {
        "r" | "pause" | "silence" => Some("rest"),
        "crescendo" | "cresc." | "<" => Some("cresc"),
        "diminuendo" | "decrescendo" | "decresc" | "dim." | ">" => Some("dim"),
        "breathe" | "'" | "v" => Some("breath"),
        "~" | "-" | "_" | "tied" | "hold" => Some("tie"),
        "inhale" | "inspire" => Some("in"),
        "exhale" | "blow" => Some("out"),
        _ => None,
    };
    if let Some(meant) = synonym {
        let meant = value.map_or_else(|| meant.to_owned(), |v| format!("{meant}:{v}"));
        return fault.hint(format!("write {meant}"));
    }
    if let Some(head) = ["slur", "triplet"]
        .into_iter()
        .find(|h| head.strip_prefix(h).is_some_and(|t| matches!(t, "" | "{")))
    {
        return fault.hint(format!("its bracket stands right after it: {head}( … )"));
    }
    if matches!(head, "sfz" | "sf" | "fz" | "sffz") {
        return fault.hint("an accent is written after its note: G4:half (accent)");
    }
    if word.starts_with(['‖', ':']) {
        return fault.hint("a bar line is a single |; a repeat is times = 2 on the line");
    }
    let known: &[&str] = if on == On::Air { &AIR } else { &HORN };
    match nearest(head, known.iter().copied()) {
        Some(meant) => {
            let meant = value.map_or_else(|| meant.to_owned(), |v| format!("{meant}:{v}"));
            fault.hint(format!("did you mean {meant}?"))
        }
        None if on == On::Air => {
            fault.hint("a breathing line holds in, out, hold and rest: in:whole out:whole")
        }
        None => fault.hint("a note is its pitch and its length: G4:half"),
    }
}

/// The marks that may follow a note.
pub const MARKS: [&str; 6] = ["bend", "staccato", "legato", "accent", "air", "ku"];

/// An unknown mark.
pub fn mark(word: &str, span: Span) -> Fault {
    let fault = Fault::new(span, format!("({word}) is no mark for a note"));
    let meant = match word.to_lowercase().as_str() {
        "tenuto" | "ten" => return fault.hint("held to the full and tongued softly is (legato)"),
        "marcato" | "accented" => Some("accent"),
        other => nearest(other, MARKS),
    };
    match meant {
        Some(mark) => fault.hint(format!("did you mean ({mark})?")),
        None => fault
            .hint("after a note may stand (bend), (staccato), (legato), (accent), (air) or (ku)"),
    }
}

/// An unknown note value.
pub fn value(head: &str, text: &str, span: Span) -> Fault {
    let (plain, dot) = match text.strip_suffix('.') {
        Some(plain) if !plain.ends_with('.') => (plain, "."),
        _ => (text, ""),
    };
    let synonym = match plain.to_lowercase().as_str() {
        "w" | "1" | "1/1" | "semibreve" => Some("whole"),
        "h" | "2" | "1/2" | "minim" => Some("half"),
        "q" | "4" | "1/4" | "crotchet" | "fourth" => Some("quarter"),
        "e" | "8" | "1/8" | "quaver" | "8th" => Some("eighth"),
        "s" | "16" | "1/16" | "semiquaver" | "16th" => Some("sixteenth"),
        _ => None,
    };
    let names = crate::music::value::NAMES.map(|(name, _)| name);
    let meant = synonym.or_else(|| nearest(plain, names));
    if text.is_empty() {
        return Fault::new(span, format!("{head} has no length after its colon"))
            .hint(format!("write {head}:quarter"));
    }
    let fault = Fault::new(span, format!("{text} is no note value"));
    if let Some(undotted) = text.strip_suffix("..")
        && NoteValue::parse(undotted).is_some()
    {
        return fault.hint(format!(
            "there are no double dots; tie the rest on: {head}:{undotted}. tie:…"
        ));
    }
    if let Some(undotted) = plain
        .strip_prefix("dotted")
        .map(|s| s.trim_start_matches(['-', ' ', '_']))
        && NoteValue::parse(undotted).is_some()
    {
        return fault.hint(format!(
            "a dot is a full stop after the value: {head}:{undotted}."
        ));
    }
    match meant {
        Some(meant) => fault.hint(format!("write {head}:{meant}{dot}")),
        None => fault
            .hint("values are whole, half, quarter, eighth, sixteenth, and dotted half. and so on"),
    }
}

/// An invalid fingering.
pub fn valves(text: &str, span: Span) -> Fault {
    let fault = Fault::new(span, format!("[{text}] is no fingering"));
    let mut numbers: Vec<char> = text.chars().filter(|c| ('1'..='3').contains(c)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let only_signs = text
        .chars()
        .all(|c| matches!(c, '0'..='3' | '-' | '+' | ',' | ' ' | '&'));
    if only_signs && !numbers.is_empty() {
        let joined: Vec<String> = numbers.iter().map(char::to_string).collect();
        return fault.hint(format!("write [{}]", joined.join("-")));
    }
    fault.hint("valves are numbered 1, 2, 3 and joined by hyphens: [1-3]; the open horn is [0]")
}
