//! Recognises what people write for a note by mistake: other languages, other spellings, typing errors.

use super::foreign;
use super::occurrences::Occurrences;
use crate::brass::{INSTRUMENTS, Instrument, Tube};
use crate::music::Clef;
use crate::music::{NoteNames, NoteValue, WrittenPitch, pitch::Letter};
use crate::routine::fault::{Fault, Span};
use crate::routine::suggest::nearest;
use crate::words::{self, Language, Words, list, tell};

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
    /// Names that are not those of the file.
    pub others: Occurrences,
}

impl Many {
    /// Reports what was counted.
    pub fn tell(&self, faults: &mut Vec<Fault>) {
        self.commas.tell(faults, "line", |span, _| {
            Fault::new(span, tell::no_commas()).hint(tell::commas_out())
        });
        self.lengthless.tell(faults, "line", |span, head| {
            let fault = Fault::new(span, tell::has_no_length(head));
            if head == "tie" {
                return fault.hint(tell::tie_names_length());
            }
            fault.hint(tell::write_quarter(head))
        });
        self.small.tell(faults, "line", |span, meant| {
            Fault::new(span, tell::capital_letter()).hint(tell::write_this(meant))
        });
        self.german.tell(faults, "line", |span, said| {
            let (written, meant) = said.split_once(' ').unwrap_or((said, said));
            if written.starts_with(['H', 'h']) {
                Fault::new(span, tell::h_is_german()).hint(tell::b_is_bb(meant))
            } else {
                Fault::new(span, tell::german_name(written)).hint(tell::german_endings(meant))
            }
        });
        self.others.tell(faults, "line", |span, said| {
            let (written, meant) = said.split_once(' ').unwrap_or((said, said));
            Fault::new(span, tell::not_in_names(written)).hint(tell::write_this(meant))
        });
        self.syllables.tell(faults, "line", |span, said| {
            let (written, meant) = said.split_once(' ').unwrap_or((said, said));
            Fault::new(span, tell::syllable_is(written, meant)).hint(tell::syllables_are(meant))
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
pub fn pitch(
    head: &str,
    names: NoteNames,
    instrument: Option<&Instrument>,
    many: &mut Many,
    span: Span,
) -> Meant {
    if names != NoteNames::English {
        return other_names(head, names, instrument, many, span);
    }
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
    let fault = |message: Words, hint: Words| Meant::Fault(Fault::new(span, message).hint(hint));
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
            return fault(tell::no_octave(&name), octaves(&name, names, instrument));
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
            tell::octave_after(),
            tell::write_octave_after(letter, accidental, octave),
        );
    }
    for (double, moves) in [("##", 2), ("♯♯", 2), ("x", 2), ("bb", -2), ("♭♭", -2)] {
        let octave = rest.strip_prefix(double).filter(|s| digit(s));
        if let Some(natural) = octave.and_then(|o| WrittenPitch::parse(&format!("{letter}{o}"))) {
            return fault(tell::no_doubles(), tell::same_valve(natural.moved(moves)));
        }
    }
    for (syllable, accidental) in [("sharp", "#"), ("flat", "b")] {
        if let Some(octave) = rest.strip_prefix(syllable).filter(|s| digit(s)) {
            let meant = format!("{letter}{accidental}{octave}");
            return fault(tell::not_written_so(head), tell::write_this(&meant));
        }
    }
    let accidentals = rest.trim_start_matches(['#', 'b', '♯', '♭']);
    let signed = accidentals.strip_prefix('-').unwrap_or(accidentals);
    if !signed.is_empty() && signed.bytes().all(|b| b.is_ascii_digit()) {
        return fault(tell::no_such_octave(head), tell::octaves_numbered());
    }
    Meant::Unknown
}

/// Interprets a word of a file whose notes have German names or syllables.
fn other_names(
    head: &str,
    names: NoteNames,
    instrument: Option<&Instrument>,
    many: &mut Many,
    span: Span,
) -> Meant {
    let small = head.to_lowercase().replace('é', "e");
    let mut letters = small.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    let large: String = first.into_iter().chain(letters).collect();
    let meant = [small.as_str(), large.as_str()];
    let meant = meant.into_iter().find_map(|head| names.parse(head));
    let meant = meant
        .or_else(|| WrittenPitch::parse(head))
        .or_else(|| foreign::german(head))
        .or_else(|| foreign::syllable(head));
    if let Some(meant) = meant {
        let said = format!("{head} {}", names.of(meant));
        many.others.add_example(span, &said);
        return Meant::Pitch(meant);
    }
    if names.parse(&format!("{head}4")).is_some() {
        let fault = Fault::new(span, tell::no_octave(head));
        return Meant::Fault(fault.hint(octaves(head, names, instrument)));
    }
    Meant::Unknown
}

/// The octaves that a name without one may mean, each with its place on the staff.
fn octaves(name: &str, names: NoteNames, instrument: Option<&Instrument>) -> Words {
    let clef = instrument.map_or(Clef::Treble, |i| i.clef);
    let read = instrument.map_or(LOWEST_READ..=HIGHEST_READ, |i| {
        i.lowest.number()..=i.highest.number()
    });
    let written = (1..=6).filter_map(|octave| names.parse(&format!("{name}{octave}")));
    let places: Vec<Words> = written
        .filter(|pitch| read.contains(&pitch.number()))
        .map(|pitch| Words::of(|language| place(language, names, pitch, clef)))
        .collect();
    tell::write_one_of(list::any(&places))
}

/// "G4 (second-line G)", but "C4 (first ledger line below)" without its letter.
fn place(language: Language, names: NoteNames, pitch: WrittenPitch, clef: Clef) -> String {
    let said = words::pitch::on_staff(language, names, pitch, clef);
    let (pitch, place) = said.split_once(", ").unwrap_or((&said, ""));
    let place = place.split_once(',').map_or(place, |(place, _)| place);
    format!("{pitch} ({place})")
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
    let fault = Fault::new(span, tell::no_mark(word));
    let meant = match word.to_lowercase().as_str() {
        "tenuto" | "ten" | "-" | "_" => {
            return fault.hint(tell::legato_is());
        }
        "marcato" | "accented" => Some("accent"),
        ">" | "^" => return fault.hint(tell::write_accent()),
        "." | "'" => return fault.hint(tell::write_staccato()),
        fingers if !valve_digits(fingers).is_empty() => {
            let joined = valve_digits(fingers).join("-");
            return fault.hint(tell::fingering_in_square(&joined));
        }
        other => nearest(other, MARKS),
    };
    match meant {
        Some(mark) => fault.hint(tell::did_you_mean_mark(mark)),
        None => fault.hint(tell::marks_are()),
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
        return Fault::new(span, tell::no_length_after_colon(head))
            .hint(tell::write_head_quarter(head));
    }
    let fault = Fault::new(span, tell::no_note_value(text));
    if let Some((first, second)) = run_together(text) {
        return fault.hint(if second.is_empty() {
            tell::tied_by_tie(head, first)
        } else {
            tell::blank_parts(head, first, second)
        });
    }
    if let Some(undotted) = text.strip_suffix("..")
        && NoteValue::parse(undotted).is_some()
    {
        return fault.hint(tell::no_double_dots(head, undotted));
    }
    if let Some(undotted) = plain
        .strip_prefix("dotted")
        .map(|s| s.trim_start_matches(['-', ' ', '_']))
        && NoteValue::parse(undotted).is_some()
    {
        return fault.hint(tell::dot_after_value(head, undotted));
    }
    match meant {
        Some(meant) => fault.hint(tell::write_value_dot(head, meant, dot)),
        None => fault.hint(tell::values_are()),
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
    let fault = Fault::new(span, tell::no_fingering(text, what));
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
        return fault.hint(tell::write_fingering(&meant));
    }
    match instrument {
        Some(instrument) => fault.hint(instrument.writing()),
        None => fault.hint(tell::fingerings_are()),
    }
}
