//! Recognises what people write for a note by mistake: other languages, other spellings, typing errors.

use super::foreign;
use super::occurrences::Occurrences;
use crate::brass::{INSTRUMENTS, Instrument, Tube};
use crate::music::Clef;
use crate::music::{NoteValue, WrittenPitch, pitch::Letter};
use crate::routine::fault::{Fault, Span};
use crate::routine::suggest::nearest;
use crate::words::{self, list};

/// The lowest and the highest note that brass players of these instruments read, F#3 and C6.
const LOWEST_READ: i32 = 54;
const HIGHEST_READ: i32 = 84;

/// Mistakes that usually occur at every note of a line: each is reported once for each line.
#[derive(Debug, Default)]
pub struct Many {
    /// Commas between notes.
    pub commas: Occurrences,
    /// Notes without a length.
    pub lengthless: Occurrences,
    /// Pitches in lower case.
    pub small: Occurrences,
    /// German names: H, Fis, Es.
    pub german: Occurrences,
    /// Do, re, mi.
    pub syllables: Occurrences,
}

impl Many {
    /// Reports what was counted.
    pub fn tell(&self, faults: &mut Vec<Fault>) {
        self.commas.tell(faults, "line", |span, _| {
            Fault::new(span, "notes are parted by blanks, not by commas")
                .hint("leave the commas out; where a breath is meant write the word breath")
        });
        self.lengthless.tell(faults, "line", |span, head| {
            let fault = Fault::new(span, format!("{head} has no length"));
            if head == "tie" {
                return fault.hint("a tie names its own length: tie:quarter");
            }
            fault.hint(format!(
                "write {head}:quarter, and the notes after it that name no length are quarters, too"
            ))
        });
        self.small.tell(faults, "line", |span, meant| {
            Fault::new(span, "pitches are written with a capital letter")
                .hint(format!("write {meant}"))
        });
        self.german.tell(faults, "line", |span, said| {
            let (written, meant) = said.split_once(' ').unwrap_or((said, said));
            if written.starts_with(['H', 'h']) {
                Fault::new(span, "H is the German name of B")
                    .hint(format!("write {meant}; the German B is Bb here"))
            } else {
                Fault::new(span, format!("{written} is a German name"))
                    .hint(format!("write {meant}: is is #, es or s is b, H is B"))
            }
        });
        self.syllables.tell(faults, "line", |span, said| {
            let (written, meant) = said.split_once(' ').unwrap_or((said, said));
            Fault::new(span, format!("{written} is {meant} here")).hint(format!(
                "write {meant}: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first \
                 ledger line below"
            ))
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
/// `instrument` decides which octaves are read, where it is known.
pub fn pitch(head: &str, instrument: Option<&Instrument>, many: &mut Many, span: Span) -> Meant {
    if let Some(meant) = capitalised(head) {
        many.small.add_example(span, &meant.to_string());
        return Meant::Pitch(meant);
    }
    if let Some(meant) = foreign::german(head) {
        many.german.add_example(span, &format!("{head} {meant}"));
        return Meant::Pitch(meant);
    }
    if let Some(meant) = foreign::syllable(head) {
        many.syllables.add_example(span, &format!("{head} {meant}"));
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
                octaves(&name, instrument),
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
    for (syllable, accidental) in [("sharp", "#"), ("flat", "b")] {
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

/// The octaves that a name without one may mean, each with its place on the staff.
fn octaves(name: &str, instrument: Option<&Instrument>) -> String {
    let clef = instrument.map_or(Clef::Treble, |i| i.clef);
    let read = instrument.map_or(LOWEST_READ..=HIGHEST_READ, |i| {
        i.lowest.number()..=i.highest.number()
    });
    let written = (1..=6).filter_map(|octave| WrittenPitch::parse(&format!("{name}{octave}")));
    let places: Vec<String> = written
        .filter(|pitch| read.contains(&pitch.number()))
        .map(|pitch| {
            let said = words::pitch::on_staff(words::Language::En, pitch, clef);
            let (pitch, place) = said.split_once(", ").unwrap_or((&said, ""));
            // "second-line G", but "first ledger line below" without its letter.
            let place = place.split_once(',').map_or(place, |(place, _)| place);
            format!("{pitch} ({place})")
        })
        .collect();
    format!("write {}", list::or(&places))
}

/// The pitch meant by a lower-case letter: `g4`, `bb3`, `f#4`.
fn capitalised(head: &str) -> Option<WrittenPitch> {
    let first = head.chars().next().filter(char::is_ascii_lowercase)?;
    WrittenPitch::parse(&format!("{}{}", first.to_ascii_uppercase(), &head[1..]))
}

/// The marks that may follow a note.
pub const MARKS: [&str; 6] = ["bend", "staccato", "legato", "accent", "air", "ku"];

/// An unknown mark.
pub fn mark(word: &str, span: Span) -> Fault {
    let fault = Fault::new(span, format!("({word}) is no mark for a note"));
    let meant = match word.to_lowercase().as_str() {
        "tenuto" | "ten" | "-" | "_" => {
            return fault.hint("held to the full and tongued softly is (legato)");
        }
        "marcato" | "accented" => Some("accent"),
        ">" | "^" => return fault.hint("write (accent)"),
        "." | "'" => return fault.hint("write (staccato)"),
        fingers if !valve_digits(fingers).is_empty() => {
            let joined = valve_digits(fingers).join("-");
            return fault.hint(format!("a fingering stands in square brackets: [{joined}]"));
        }
        other => nearest(other, MARKS),
    };
    match meant {
        Some(mark) => fault.hint(format!("did you mean ({mark})?")),
        None => fault
            .hint("after a note may stand (bend), (staccato), (legato), (accent), (air) or (ku)"),
    }
}

/// The valves named in a text, each once and in order; 0 alone is the open horn.
fn valve_digits(text: &str) -> Vec<String> {
    let mut numbers: Vec<char> = text.chars().filter(|c| ('0'..='3').contains(c)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    if numbers.len() > 1 {
        numbers.retain(|c| *c != '0');
    }
    numbers.iter().map(char::to_string).collect()
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
    if let Some((first, second)) = run_together(text) {
        return fault.hint(if second.is_empty() {
            format!("two notes are tied by the word tie: {head}:{first} tie:{first}")
        } else {
            format!("a blank parts two notes: {head}:{first} {second}")
        });
    }
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

/// A length with the note after it, or with a tie, for want of a blank: `half:D4:half`, `half~`.
fn run_together(text: &str) -> Option<(&str, &str)> {
    let end = text.find([':', '_', '-', '~', '/', '+'])?;
    let (first, rest) = (&text[..end], &text[end + 1..]);
    NoteValue::parse(first)?;
    let is_note = rest
        .split_once(':')
        .is_some_and(|(head, _)| WrittenPitch::parse(head).is_some() || head == "rest");
    (is_note || rest.is_empty()).then_some((first, rest))
}

/// A fingering or position that the instrument does not have; `None` where the instrument is not known.
pub fn fingering(text: &str, span: Span, instrument: Option<&Instrument>) -> Fault {
    let slide = instrument.is_some_and(Instrument::has_slide);
    let what = if slide { "position" } else { "fingering" };
    let fault = Fault::new(span, format!("[{text}] is no {what}"));
    let mut numbers: Vec<char> = text.chars().filter(char::is_ascii_digit).collect();
    numbers.retain(|c| *c != '0');
    numbers.sort_unstable();
    numbers.dedup();
    let only_signs = text
        .chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '-' | '+' | ',' | ' ' | '&'));
    let numbers: Vec<String> = numbers.iter().map(char::to_string).collect();
    let meant = numbers.join("-");
    let has = |tube: Tube| match instrument {
        Some(instrument) => instrument.has(tube),
        None => INSTRUMENTS.iter().any(|i| !i.has_slide() && i.has(tube)),
    };
    if only_signs && Tube::parse(&meant).is_some_and(has) {
        return fault.hint(format!("write [{meant}]"));
    }
    match instrument {
        Some(instrument) => fault.hint(instrument.writing()),
        None => fault.hint(
            "valves are numbered and joined by hyphens: [1-3]; the open horn is [0]; positions of a slide are \
             numbered 1 to 7",
        ),
    }
}
