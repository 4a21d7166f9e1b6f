//! Reads one line of a routine file.

use super::bounds::{LONGEST_REST, MOST_COUNT_IN, MOST_TEMPOS, MOST_TIMES};
use super::fault::{Fault, Span};
use super::fields::{Fields, choose, no_choice, written_pitch};
use super::melody::Melody;
use super::model::{Articulation, ClickMode, Drone, Guide, Line, On, RestLength, SlideLegato};
use super::notes::foreign::Names;
use super::notes::{self, Phrase};
use super::resolve::{self, PhraseContext};
use super::walk_reader::{self, Moved};
use crate::brass::Instrument;
use crate::music::{Decimal, Key, Meter, NoteValue, Tempo, WrittenPitch};
use crate::words::tell;

/// Every key of a line.
pub const LINE_KEYS: [&str; 22] = [
    "name",
    "purpose",
    "say",
    "on",
    "notes",
    "open",
    "each",
    "tubes",
    "half_steps",
    "times",
    "between",
    "tempo",
    "meter",
    "key",
    "rest",
    "count_in",
    "click",
    "guide",
    "drone",
    "tonic",
    "articulation",
    "legato",
];

/// Reads a line. `number` counts from 1; `meter` is the routine's; `head_keys` are only valid in the head. What its
/// names say about their language goes to `names`.
pub fn read_line(
    mut fields: Fields<'_, '_>,
    number: usize,
    instrument: &'static Instrument,
    meter: Meter,
    head_keys: &[&str],
    names: &mut Names,
) -> (Option<Line>, Vec<Fault>) {
    fields.unknown((head_keys, tell::to_the_head()));
    let name = fields.text("name", "Long tone and neighbour");
    let span = name.as_ref().map_or(fields.at, |(_, span)| *span);
    if fields.get("name").is_none() {
        fields.missing("name", tell::line_without_name(), tell::write_line_name());
    }
    const CLICK: [(&str, ClickMode); 2] =
        [("all", ClickMode::All), ("count-in", ClickMode::CountIn)];
    let on = fields.choice("on", &On::WORDS).unwrap_or(On::Horn);
    let own_meter = fields.meter("meter");
    let written = read_notes(&mut fields, instrument, on, own_meter.unwrap_or(meter));
    let (walk, walk_spans) = walk_reader::read_walk(
        &mut fields,
        instrument,
        on,
        &Moved {
            melody: &written.melody,
            span: written.span,
            on_tubes: written.on_tubes,
        },
    );
    let drone = read_drone(&mut fields, on);
    let tonic = read_tonic(&mut fields, on);
    let line = Line {
        name: name.map_or_else(|| format!("Line {number}"), |(name, _)| name),
        purpose: fields.text("purpose", "steady air").map(|(p, _)| p),
        say: fields
            .text("say", "Let the air move before the lips do.")
            .map(|(s, _)| s),
        on,
        phrase: written.phrase,
        melody: written.melody,
        walk,
        times: fields.whole("times", 1, MOST_TIMES).unwrap_or(1) as u32,
        articulations: read_articulations(&mut fields, on),
        between: read_rest(&mut fields, "between").unwrap_or(RestLength::Same),
        rest: read_rest(&mut fields, "rest").unwrap_or(RestLength::Same),
        between_part: RestLength::WHOLE,
        rest_part: RestLength::WHOLE,
        tempos: read_tempos(&mut fields),
        meter: own_meter,
        key: read_key(&mut fields, on),
        legato: fields.choice("legato", &SlideLegato::WORDS),
        count_in: fields.whole("count_in", 1, MOST_COUNT_IN).map(|n| n as u32),
        click: fields.choice("click", &CLICK).unwrap_or(ClickMode::All),
        guide: fields.choice("guide", &Guide::WORDS),
        drone,
        tonic,
        words: None,
        span,
        notes_span: written.span,
        rest_span: fields.get("rest").map(|e| e.span),
        walk_spans,
    };
    names.append(written.names);
    let whole = fields.faults.is_empty();
    (whole.then_some(line), fields.faults)
}

fn read_key(fields: &mut Fields<'_, '_>, on: On) -> Option<Key> {
    let key = fields.key("key")?;
    if !on.has_pitches()
        && let Some(entry) = fields.get("key")
    {
        fields.wrong(
            entry,
            tell::has_no_key(on.line_in_words()),
            tell::leave_key_out(),
        );
    }
    Some(key)
}

/// One tempo, or several that the line is played at, one after the other.
fn read_tempos(fields: &mut Fields<'_, '_>) -> Vec<Tempo> {
    let Some((entries, span)) = fields.list("tempo") else {
        return Vec::new();
    };
    if entries.is_empty() || entries.len() > MOST_TEMPOS {
        fields.faults.push(
            Fault::new(span, tell::tempos_from_one(MOST_TEMPOS)).hint(tell::for_instance_tempos()),
        );
        return Vec::new();
    }
    let tempos = entries.into_iter();
    tempos
        .filter_map(|entry| fields.tempo_of("tempo", entry))
        .collect()
}

fn read_tonic(fields: &mut Fields<'_, '_>, on: On) -> Option<WrittenPitch> {
    let (tonic, _) = fields.pitch("tonic", "C4")?;
    if !on.has_pitches()
        && let Some(entry) = fields.get("tonic")
    {
        fields.wrong(
            entry,
            tell::has_no_tonic(on.line_in_words()),
            tell::leave_tonic_out(),
        );
    }
    Some(tonic)
}

struct Written {
    phrase: Phrase,
    melody: Melody,
    span: Span,
    on_tubes: bool,
    names: Names,
}

/// Reports a line that has neither of the keys for its notes, both, or the one that does not apply to it.
fn either_key(
    fields: &mut Fields<'_, '_>,
    (notes_key, open_key): (Option<Span>, Option<Span>),
    on: On,
    example: &str,
) {
    match (notes_key, open_key) {
        (Some(first), Some(second)) => fields.faults.push(
            Fault::new(second, tell::notes_or_open())
                .also(first, tell::its_notes())
                .hint(tell::notes_and_open()),
        ),
        (None, None) => fields.missing(
            "notes",
            tell::line_without_notes(),
            tell::write_notes_under(example),
        ),
        _ => {}
    }
    if let (Some(at), On::Mouthpiece | On::Air | On::Rest) = (open_key, on) {
        let what = on.line_in_words();
        fields
            .faults
            .push(Fault::new(at, tell::no_tubes(&what)).hint(tell::write_as_notes()));
    }
}

/// The value of all notes without their own.
fn read_each(fields: &mut Fields<'_, '_>) -> Option<NoteValue> {
    let (placed, span) = fields.placed("each", "half")?;
    let value = NoteValue::parse(placed.text.trim());
    if value.is_none() {
        let mut fault = notes::slips::value("each", &placed.text, span);
        let meant = fault
            .hint
            .as_deref()
            .and_then(|h| h.strip_prefix("write each:"));
        if let Some(meant) = meant {
            fault.hint = Some(tell::write_each(meant));
        }
        fields.faults.push(fault);
    }
    value
}

fn read_notes(
    fields: &mut Fields<'_, '_>,
    instrument: &'static Instrument,
    on: On,
    meter: Meter,
) -> Written {
    let (notes_key, open_key) = (fields.key_span("notes"), fields.key_span("open"));
    let on_tubes = open_key.is_some();
    let key = if on_tubes { "open" } else { "notes" };
    let example = match (on, on_tubes) {
        (On::Air, _) => "in:whole out:whole",
        (On::Rest, _) => "rest:whole",
        (_, true) => "slur( C4:half G4:half | C4:whole )",
        _ => "G4:half F#4:half | G4:whole",
    };
    either_key(fields, (notes_key, open_key), on, example);
    let each = read_each(fields);
    let each_failed = each.is_none() && fields.get("each").is_some();
    let Some((placed, _)) = fields.placed(key, example) else {
        let span = fields.at;
        return Written {
            phrase: Phrase::default(),
            melody: Melody::default(),
            span,
            on_tubes,
            names: Names::default(),
        };
    };
    let span = placed.whole();
    let context = notes::NoteContext {
        instrument,
        // A faulty `each` has been reported; do not report every note as well.
        names: fields.names,
        each: each.or_else(|| each_failed.then(|| NoteValue::parse("quarter")).flatten()),
        on,
        on_tubes,
    };
    let mut faults = Vec::new();
    let (phrase, names) = notes::parse(&placed, context, &mut faults);
    let complete = faults.is_empty() && !each_failed;
    let setting = PhraseContext {
        instrument,
        on,
        meter,
        on_tubes,
        complete,
    };
    let melody = resolve::resolve(&phrase, setting, span, &mut faults);
    fields.faults.append(&mut faults);
    Written {
        phrase,
        melody,
        span,
        on_tubes,
        names,
    }
}

pub(crate) fn read_drone(fields: &mut Fields<'_, '_>, on: On) -> Drone {
    const WORDS: [(&str, Drone); 3] = [
        ("tonic", Drone::Tonic),
        ("tonic and fifth", Drone::TonicAndFifth),
        ("off", Drone::Off),
    ];
    let Some((placed, span)) = fields.placed("drone", "tonic") else {
        return if on.has_pitches() {
            Drone::Tonic
        } else {
            Drone::Off
        };
    };
    let text = placed.text.trim();
    let drone = match choose(text, &WORDS) {
        Some(drone) => drone,
        None if text.chars().any(|c| c.is_ascii_digit()) => {
            match written_pitch(text, span, fields.names, &mut fields.faults) {
                Some(pitch) if (28..=96).contains(&pitch.number()) => Drone::Pitch(pitch),
                Some(pitch) => {
                    fields.faults.push(
                        Fault::new(span, tell::no_drone_pitch(pitch))
                            .hint(tell::name_drone_pitch()),
                    );
                    Drone::Tonic
                }
                None => Drone::Tonic,
            }
        }
        None => {
            let mut fault = no_choice("drone", text, &WORDS, span);
            if !fault.hint.as_deref().unwrap_or_default().starts_with("did") {
                fault.hint = Some(tell::drone_can_be());
            }
            fields.faults.push(fault);
            Drone::Tonic
        }
    };
    if !on.has_pitches() && drone != Drone::Off {
        let what = tell::has_no_drone(on.line_in_words());
        fields
            .faults
            .push(Fault::new(span, what).hint(tell::leave_drone_out()));
    }
    drone
}

pub(crate) fn read_articulations(fields: &mut Fields<'_, '_>, on: On) -> Vec<Articulation> {
    let mut found = Vec::new();
    let Some((entries, span)) = fields.list("articulation") else {
        return vec![Articulation::AsWritten];
    };
    if !on.has_pitches() {
        let what = tell::not_articulated(on.line_in_words());
        fields
            .faults
            .push(Fault::new(span, what).hint(tell::leave_articulation_out()));
    }
    if entries.is_empty() || entries.len() > 10 {
        fields.faults.push(
            Fault::new(span, tell::articulations_from_one())
                .hint(tell::for_instance_articulations()),
        );
    }
    for entry in entries {
        let text = fields.item_text(entry);
        match text
            .as_deref()
            .and_then(|t| choose(t.trim(), &Articulation::WORDS))
        {
            Some(articulation) => found.push(articulation),
            None => {
                let written = &fields.source[entry.span.start..entry.span.end];
                let shown = text.unwrap_or_else(|| written.to_owned());
                let fault = no_choice("articulation", &shown, &Articulation::WORDS, entry.span);
                fields.faults.push(fault);
            }
        }
    }
    if found.is_empty() {
        vec![Articulation::AsWritten]
    } else {
        found
    }
}

fn read_rest(fields: &mut Fields<'_, '_>, key: &str) -> Option<RestLength> {
    let (placed, span) = fields.placed(key, "2 bars")?;
    let text = placed.text.trim();
    let rest = match text {
        "same" => Some(RestLength::Same),
        "none" => Some(RestLength::None),
        _ => measured(text),
    };
    if rest.is_none() {
        fields
            .faults
            .push(Fault::new(span, tell::cannot_be(key, text)).hint(tell::rests_can_be()));
    }
    rest
}

/// `2 bars`, `8 beats`, `20 s`.
pub(crate) fn measured(text: &str) -> Option<RestLength> {
    let split = text.find(|c: char| c.is_alphabetic() || c.is_whitespace())?;
    let (number, unit) = text.split_at(split);
    let number = Decimal::parse(number).ok()?;
    if number < Decimal::from_integer(0) || number > Decimal::from_integer(LONGEST_REST) {
        return None;
    }
    match unit.trim() {
        "bar" | "bars" => Some(RestLength::Bars(number)),
        "beat" | "beats" => Some(RestLength::Beats(number)),
        "s" | "second" | "seconds" => Some(RestLength::Seconds(number)),
        _ => None,
    }
}
