//! Reads a routine file.

use super::bounds::MOST_LINES;
use super::broken_row::Dialect;
use super::document;
use super::fault::{Fault, Span};
use super::fields::{Fields, choose, no_choice};
use super::line_reader::{LINE_KEYS, read_line};
use super::model::{HeadSpans, Line, Routine, SlideLegato};
use super::notes::foreign::Names;
use super::skill::Skill;
use super::suggest::nearest;
use crate::brass::{AgeBand, INSTRUMENTS, Instrument, Level};
use crate::music::{Meter, NoteNames, WrittenPitch};
use crate::words::{Language, Words, list, tell};
use toml::de::DeValue;

pub(crate) const HEAD_KEYS: [&str; 15] = [
    "format",
    "title",
    "purpose",
    "language",
    "names",
    "instrument",
    "comfortable_top",
    "reach",
    "age",
    "skills",
    "tempo",
    "meter",
    "key",
    "legato",
    "line",
];

const ROUTINE: Dialect = Dialect {
    file: "routine",
    opens: "[[line]]",
    table: "a line",
    keys: [&HEAD_KEYS, &LINE_KEYS],
};

/// Reads the text of a routine file.
///
/// # Errors
/// Every fault in the file, in order of place; at least one.
pub fn read(text: &str) -> Result<Routine, Vec<Fault>> {
    let (routine, faults) = document::read(text, &ROUTINE, read_head);
    match routine {
        Some(routine) if faults.is_empty() => Ok(routine),
        _ => Err(faults),
    }
}

/// Reads everything that can be read; `None` if a fault was found on the way. `valid` is true if the file had
/// no faults so far.
fn read_head(mut head: Fields<'_, '_>, valid: bool, faults: &mut Vec<Fault>) -> Option<Routine> {
    if head.table.is_empty() {
        // A file that is not TOML at all needs no further faults.
        if valid {
            faults.push(Fault::new(head.at, tell::no_routine_here()).hint(tell::routine_begins()));
        }
        return None;
    }
    head.unknown((&LINE_KEYS, tell::to_a_line()));
    document::format(&mut head);
    let title = head.text("title", "Second steps");
    if head.get("title").is_none() {
        head.missing("title", tell::no_title(), tell::write_title());
    }
    let purpose = head
        .text("purpose", "Calm air before everything else")
        .map(|(p, _)| p);
    let language = read_language(&mut head);
    let names = head.choice("names", &NoteNames::WORDS);
    let instrument = read_instrument(&mut head);
    let tempo = head.tempo("tempo");
    if head.get("tempo").is_none() {
        head.missing("tempo", tell::no_tempo(), tell::write_tempo_at_head());
    }
    let four_four = Meter::parse("4/4").expect("4/4 is a meter");
    let meter = match head.get("meter") {
        Some(_) => head.meter("meter"),
        None => Some(four_four),
    };
    let known_instrument = instrument.unwrap_or(&INSTRUMENTS[0]);
    let age = head.choice("age", &AgeBand::WORDS);
    let skills = read_skills(&mut head);
    let legato = head.choice("legato", &SlideLegato::WORDS);
    let comfort = read_comfort(&mut head, known_instrument);
    let lines = read_lines(&mut head, known_instrument, meter.unwrap_or(four_four));
    let (head_key, reach_span) = (head.key("key"), head.get("reach").map(|e| e.span));
    faults.append(&mut head.faults);
    let ((title, title_span), (tempo, tempo_span)) = (title?, tempo?);
    let (comfortable_top, top_span, reach) = comfort?;
    Some(Routine {
        title,
        purpose,
        words_in: language
            .as_deref()
            .and_then(Language::of)
            .unwrap_or_default(),
        language,
        names: names.unwrap_or_default(),
        instrument: instrument?,
        comfortable_top,
        reach,
        age,
        skills,
        tempo,
        meter: meter?,
        key: head_key,
        legato: legato.unwrap_or_default(),
        lines,
        words: None,
        spans: HeadSpans {
            title: title_span,
            comfortable_top: top_span,
            reach: reach_span,
            tempo: tempo_span,
        },
    })
}

/// The language of the texts, a tag of BCP 47 in its usual form: subtags of letters and figures, the first of them two
/// or three letters.
fn read_language(head: &mut Fields<'_, '_>) -> Option<String> {
    let (tag, span) = head.text("language", "de")?;
    let mut parts = tag.split('-');
    let letters = |part: &str| part.chars().all(|c| c.is_ascii_alphabetic());
    let first = parts
        .next()
        .is_some_and(|p| matches!(p.len(), 2 | 3) && letters(p));
    let plain = |part: &str| {
        (1..=8).contains(&part.len()) && part.chars().all(|c| c.is_ascii_alphanumeric())
    };
    if first && parts.all(plain) {
        return Some(tag);
    }
    head.faults
        .push(Fault::new(span, tell::no_language(&tag)).hint(tell::write_tag()));
    None
}

fn read_instrument(head: &mut Fields<'_, '_>) -> Option<&'static Instrument> {
    let Some((placed, span)) = head.placed("instrument", "trumpet in B-flat") else {
        if head.get("instrument").is_none() {
            head.missing(
                "instrument",
                tell::no_instrument_said(),
                tell::write_instrument(),
            );
        }
        return None;
    };
    let found = Instrument::named(&placed.text);
    if found.is_none() {
        head.faults.push(unknown_instrument(&placed.text, span));
    }
    found
}

/// An instrument of another name than those that are known.
pub fn unknown_instrument(name: &str, span: Span) -> Fault {
    let fault = Fault::new(span, tell::no_instrument(name));
    // Its own name before the others.
    let names = INSTRUMENTS.iter().map(|i| i.name);
    let others = INSTRUMENTS.iter().flat_map(|i| i.also.iter().copied());
    match nearest(name, names.chain(others)) {
        Some(meant) => fault.hint(tell::write_this_instrument(meant)),
        None => fault.hint(tell::instruments_known()),
    }
}

/// What the routine says it trains, each once.
fn read_skills(head: &mut Fields<'_, '_>) -> Vec<Skill> {
    let mut skills = Vec::new();
    let Some((entries, _)) = head.list("skills") else {
        return skills;
    };
    for entry in entries {
        let written = &head.source[entry.span.start..entry.span.end];
        let text = head.item_text(entry).unwrap_or_else(|| written.to_owned());
        match choose(text.trim(), &Skill::WORDS) {
            Some(skill) if skills.contains(&skill) => {}
            Some(skill) => skills.push(skill),
            None => head
                .faults
                .push(no_choice("skills", &text, &Skill::WORDS, entry.span)),
        }
    }
    skills
}

/// The comfortable top with its place, and the highest note.
fn read_comfort(
    head: &mut Fields<'_, '_>,
    instrument: &'static Instrument,
) -> Option<(WrittenPitch, Span, Option<WrittenPitch>)> {
    let open_notes: Vec<WrittenPitch> = Level::all()
        .map(|level| level.open_top(instrument))
        .collect();
    // The second level is the example.
    let second = open_notes[1];
    if head.get("comfortable_top").is_none() {
        head.missing(
            "comfortable_top",
            tell::no_comfortable_top(),
            tell::write_comfortable_top(second),
        );
    }
    let example = head.names.of(second);
    let top = head.pitch("comfortable_top", &example);
    if let Some((pitch, span)) = top
        && !open_notes.iter().any(|p| p.number() == pitch.number())
    {
        let names: Vec<Words> = open_notes.iter().map(|note| (*note).into()).collect();
        head.faults.push(
            Fault::new(span, tell::not_an_open_top(pitch)).hint(tell::tops_are(list::any(&names))),
        );
    }
    let reach = head.pitch("reach", "B4");
    if let Some((pitch, span)) = reach {
        if !instrument.can_reach(pitch) {
            head.faults.push(
                Fault::new(span, tell::outside_the(pitch, instrument.named_in_words())).hint(
                    tell::notes_dealt_with(instrument.lowest, instrument.highest),
                ),
            );
        } else if let Some((top, top_span)) = top
            && pitch.number() < top.number()
        {
            head.faults.push(
                Fault::new(span, tell::reach_below_top(pitch))
                    .also(top_span, tell::the_comfortable_top())
                    .hint(tell::what_reach_is()),
            );
        }
    }
    top.map(|(pitch, span)| (pitch, span, reach.map(|(p, _)| p)))
}

fn read_lines(
    head: &mut Fields<'_, '_>,
    instrument: &'static Instrument,
    meter: Meter,
) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut names = Names::default();
    let Some(entry) = head.get("line") else {
        head.missing("line", tell::no_lines(), tell::write_a_line());
        return lines;
    };
    let DeValue::Array(array) = entry.value else {
        head.wrong(entry, tell::line_opened_twice(), tell::line_own_row());
        return lines;
    };
    if array.len() > MOST_LINES {
        head.wrong(
            entry,
            tell::too_many_lines(array.len(), MOST_LINES),
            tell::split_routine(),
        );
        return lines;
    }
    for (index, item) in array.iter().enumerate() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults
                .push(Fault::new(span, tell::line_opened()).hint(tell::line_own_row()));
            continue;
        };
        let fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &LINE_KEYS,
            broken: head.broken,
            names: head.names,
            faults: Vec::new(),
        };
        let (line, mut faults) = read_line(
            fields,
            index + 1,
            instrument,
            meter,
            &HEAD_KEYS[..HEAD_KEYS.len() - 1],
            &mut names,
        );
        head.faults.append(&mut faults);
        lines.extend(line);
    }
    names.ask(&mut head.faults);
    lines
}
