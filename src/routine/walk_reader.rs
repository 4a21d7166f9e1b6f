//! Reads what changes from pass to pass: half steps, or tubes.

use super::bounds::{FURTHEST_MOVE, MOST_STEPS};
use super::fault::{Fault, Span};
use super::fields::{Entry, Fields, whole_number};
use super::melody::Melody;
use super::model::{On, Walk};
use super::notes::slips;
use crate::brass::{Instrument, Tube};
use crate::words::{Words, tell};

/// The notes that are moved.
pub struct Moved<'m> {
    /// As understood.
    pub melody: &'m Melody,
    /// Their place.
    pub span: Span,
    /// True if they are those of the open horn.
    pub on_tubes: bool,
}

/// What changes from pass to pass, with the place of each entry.
pub fn read_walk(
    fields: &mut Fields<'_, '_>,
    instrument: &'static Instrument,
    on: On,
    written: &Moved<'_>,
) -> (Walk, Vec<Span>) {
    if let Some(at) = fields.key_span("half_steps") {
        let fingered = written.melody.events.iter().any(|e| e.tube.is_some());
        let conflict = if written.on_tubes {
            Some(tell::tubes_not_half_steps())
        } else if fingered {
            Some(tell::fingerings_not_half_steps())
        } else if on == On::Air {
            Some(tell::air_not_half_steps())
        } else if on == On::Rest {
            Some(tell::rest_not_half_steps())
        } else {
            None
        };
        if let Some(conflict) = conflict {
            fields
                .faults
                .push(Fault::new(at, conflict).hint(tell::leave_half_steps_out()));
        }
        return read_half_steps(fields);
    }
    if let Some(at) = fields.key_span("tubes") {
        if !written.on_tubes {
            fields
                .faults
                .push(Fault::new(at, tell::tubes_want_open()).hint(tell::write_as_open()));
        }
        return read_tubes(fields, Some(instrument));
    }
    if written.on_tubes {
        return (Walk::Tubes(vec![instrument.open()]), vec![written.span]);
    }
    (Walk::HalfSteps(vec![0]), vec![written.span])
}

/// The entries of a walk, up to the maximum.
fn steps<'a, 's>(fields: &mut Fields<'a, 's>, key: &str, example: &str) -> Vec<Entry<'a, 's>> {
    let Some((entries, span)) = fields.list(key) else {
        return Vec::new();
    };
    if entries.is_empty() || entries.len() > MOST_STEPS {
        fields.faults.push(
            Fault::new(span, tell::entries_from_one(key, MOST_STEPS))
                .hint(tell::for_instance_entries(key, example)),
        );
        return Vec::new();
    }
    entries
}

/// The half steps of a walk.
pub fn read_half_steps(fields: &mut Fields<'_, '_>) -> (Walk, Vec<Span>) {
    let (mut moves, mut spans) = (Vec::new(), Vec::new());
    for entry in steps(fields, "half_steps", "[0, -1, -2]") {
        match whole_number(entry.value).filter(|n| n.abs() <= FURTHEST_MOVE) {
            Some(n) => {
                moves.push(n as i32);
                spans.push(entry.span);
            }
            None => fields.wrong(
                entry,
                tell::half_steps_from(FURTHEST_MOVE),
                tell::for_instance_half_steps(),
            ),
        }
    }
    (Walk::HalfSteps(moves), spans)
}

/// The tubes of a walk, of this instrument if it is known.
pub fn read_tubes(
    fields: &mut Fields<'_, '_>,
    instrument: Option<&Instrument>,
) -> (Walk, Vec<Span>) {
    let (mut tubes, mut spans) = (Vec::new(), Vec::new());
    for entry in steps(fields, "tubes", "[\"0\", \"2\", \"1\"]") {
        let text = fields.item_text(entry);
        let tube = text.as_deref().map(str::trim).and_then(Tube::parse);
        let own = |tube: &Tube| instrument.is_none_or(|i| i.has(*tube));
        match tube.filter(own) {
            Some(tube) => {
                tubes.push(tube);
                spans.push(entry.span);
            }
            None => {
                let shown = match &text {
                    Some(text) => text.clone(),
                    None => fields.source[entry.span.start..entry.span.end].to_owned(),
                };
                let fault = slips::fingering(&shown, entry.span, instrument);
                let hint = fault.hint.unwrap_or_default();
                fields.faults.push(
                    Fault::new(entry.span, tell::no_tube(&shown)).hint(
                        match hint
                            .strip_prefix("write [")
                            .and_then(|h| h.strip_suffix(']'))
                        {
                            Some(tube) => tell::write_tube(tube),
                            None => named_tubes(instrument),
                        },
                    ),
                );
            }
        }
    }
    (Walk::Tubes(tubes), spans)
}

/// How tubes are named, as a hint.
fn named_tubes(instrument: Option<&Instrument>) -> Words {
    let what = match instrument.is_some_and(Instrument::has_slide) {
        true => "slide",
        false => "valves",
    };
    let lengths: Vec<String> = instrument.map_or_else(
        || {
            ["0", "2", "1", "1-2", "2-3", "1-3", "1-2-3"]
                .map(str::to_owned)
                .to_vec()
        },
        |instrument| instrument.lengths().map(|tube| tube.to_string()).collect(),
    );
    tell::tubes_are_named(what, lengths.join("\", \""))
}
