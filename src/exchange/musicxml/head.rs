//! The head of a MusicXML file: title, program, and the list of parts.

use super::element::Xml;
use crate::exchange::piece::words;
use crate::score::Score;

/// Writes what is true of the whole file.
pub fn work(xml: &mut Xml, score: &Score<'_>) {
    let routine = score.routine;
    xml.open("work", &[]);
    xml.leaf("work-title", &[], &routine.title);
    xml.close();
    xml.open("identification", &[]);
    xml.open("encoding", &[]);
    xml.leaf(
        "software",
        &[],
        concat!("leadpipe ", env!("CARGO_PKG_VERSION")),
    );
    for element in ["accidental", "beam"] {
        xml.empty("supports", &[("element", element), ("type", "yes")]);
    }
    xml.empty(
        "supports",
        &[
            ("element", "print"),
            ("attribute", "new-system"),
            ("type", "yes"),
            ("value", "yes"),
        ],
    );
    xml.close();
    xml.open("miscellaneous", &[]);
    let top = routine.comfortable_top.to_string();
    let field = |xml: &mut Xml, name: &str, value: &str| {
        xml.leaf("miscellaneous-field", &[("name", name)], value);
    };
    field(xml, words::COMFORTABLE_TOP, &top);
    if let Some(reach) = routine.reach {
        field(xml, words::REACH, &reach.to_string());
    }
    if let Some(purpose) = &routine.purpose {
        field(xml, words::PURPOSE, purpose);
    }
    xml.close();
    xml.close();
}

/// Writes the list of parts.
pub fn parts(xml: &mut Xml, scores: &[&Score<'_>]) {
    xml.open("part-list", &[]);
    for (number, score) in (1..).zip(scores) {
        let instrument = score.instrument();
        let id = id(number);
        let instrument_id = format!("{id}-I1");
        xml.open("score-part", &[("id", &id)]);
        xml.leaf("part-name", &[], instrument.name);
        xml.open("score-instrument", &[("id", &instrument_id)]);
        xml.leaf("instrument-name", &[], instrument.name);
        xml.leaf("instrument-sound", &[], instrument.sound);
        xml.close();
        xml.open("midi-instrument", &[("id", &instrument_id)]);
        xml.leaf("midi-channel", &[], &channel(number).to_string());
        xml.leaf("midi-program", &[], &instrument.midi_program.to_string());
        xml.close();
        xml.close();
    }
    xml.close();
}

/// The name of a part in the file.
pub fn id(number: usize) -> String {
    format!("P{number}")
}

/// The MIDI channel of a part, from 1; the tenth belongs to percussion.
fn channel(number: usize) -> usize {
    const PERCUSSION: usize = 10;
    let channel = (number - 1) % 15 + 1;
    if channel < PERCUSSION {
        channel
    } else {
        channel + 1
    }
}
