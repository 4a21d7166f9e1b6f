//! Notes and rests of a bar.

use super::element::Xml;
use crate::brass::{Instrument, fingering};
use crate::music::{Meter, Whole};
use crate::notation::beams::{self, Stroke};
use crate::notation::value::Value;
use crate::notation::written::{Note, WrittenBar, WrittenKind, WrittenPass, WrittenSymbol};
use crate::routine::{Attack, Style};
use crate::score::{Joined, Pass, Played, ScoreNote};
use std::collections::HashMap;

/// Which notes are written with their fingering.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FingeredNotes {
    /// Those with an unusual fingering, and the first note of each pass on a tube.
    Unusual,
    /// Every note played on the horn.
    All,
}

/// The context in which the notes of a pass are written.
pub(super) struct PassContext<'s> {
    /// The pass as it is played.
    pub pass: &'s Pass,
    /// Its notation.
    pub written: &'s WrittenPass,
    /// The instrument.
    pub instrument: &'s Instrument,
    /// Meter of the line.
    pub meter: Meter,
    /// Which notes carry a fingering.
    pub fingerings: FingeredNotes,
    /// Divisions of a whole note.
    pub divisions: i64,
}

/// Where a triplet begins and ends: the moments of its first and its last symbol.
type Triplets = HashMap<u32, (Whole, Whole)>;

/// The moments of the first and last notes of a pass's triplets.
pub(super) fn triplets(written: &WrittenPass) -> Triplets {
    let mut found = Triplets::new();
    for symbol in written.bars.iter().flat_map(|b| &b.symbols) {
        if let Some(number) = symbol.triplet {
            found
                .entry(number)
                .and_modify(|(_, last)| *last = symbol.at)
                .or_insert((symbol.at, symbol.at));
        }
    }
    found
}

/// Beams of each symbol of a bar: level from 1, and the word.
pub(super) fn beams(bar: &WrittenBar, meter: Meter) -> Vec<Vec<(usize, &'static str)>> {
    let mut of_symbols = vec![vec![]; bar.symbols.len()];
    for group in beams::of_bar(bar, meter) {
        let symbols: Vec<WrittenSymbol> = group.iter().map(|i| bar.symbols[*i]).collect();
        for (level, stroke) in beams::strokes(&symbols) {
            match stroke {
                Stroke::Between(from, to) => {
                    for (index, place) in group.iter().enumerate().take(to + 1).skip(from) {
                        let word = match index {
                            i if i == from => "begin",
                            i if i == to => "end",
                            _ => "continue",
                        };
                        of_symbols[*place].push((level + 1, word));
                    }
                }
                Stroke::Stub(index, right) => {
                    let word = if right {
                        "forward hook"
                    } else {
                        "backward hook"
                    };
                    of_symbols[group[index]].push((level + 1, word));
                }
            }
        }
    }
    for all in &mut of_symbols {
        all.sort_unstable();
    }
    of_symbols
}

/// Writes a note or rest.
pub(super) fn write(
    xml: &mut Xml,
    symbol: &WrittenSymbol,
    beams: &[(usize, &str)],
    triplets: &Triplets,
    setting: &PassContext<'_>,
) {
    let silent = matches!(symbol.what, WrittenKind::Air { .. });
    // Breathing has a length and no pitch: a program that plays it should be still.
    let attributes: &[_] = if silent { &[("dynamics", "0")] } else { &[] };
    xml.open("note", attributes);
    sounding(xml, &symbol.what);
    xml.leaf(
        "duration",
        &[],
        &duration(symbol.length, setting.divisions).to_string(),
    );
    let ties = ties(symbol, setting);
    for kind in &ties {
        xml.empty("tie", &[("type", kind)]);
    }
    xml.leaf("voice", &[], "1");
    if symbol.what != WrittenKind::Rest(true) {
        value(xml, symbol.value);
    }
    if let WrittenKind::Note(Note {
        accidental: Some(alter),
        ..
    }) = symbol.what
    {
        let name = match alter {
            0 => "natural",
            1 => "sharp",
            -1 => "flat",
            2.. => "double-sharp",
            _ => "flat-flat",
        };
        xml.leaf("accidental", &[], name);
    }
    if symbol.triplet.is_some() {
        xml.open("time-modification", &[]);
        xml.leaf("actual-notes", &[], "3");
        xml.leaf("normal-notes", &[], "2");
        xml.close();
    }
    if silent {
        xml.leaf("notehead", &[], "x");
    }
    for (level, word) in beams {
        xml.leaf("beam", &[("number", &level.to_string())], word);
    }
    notations(xml, symbol, &ties, triplets, setting);
    lyric(xml, symbol, setting);
    xml.close();
}

/// The pitch, or what stands in its place.
fn sounding(xml: &mut Xml, what: &WrittenKind) {
    match what {
        WrittenKind::Note(note) => {
            xml.open("pitch", &[]);
            xml.leaf("step", &[], &note.pitch.letter().name().to_string());
            if note.pitch.alter() != 0 {
                xml.leaf("alter", &[], &note.pitch.alter().to_string());
            }
            xml.leaf("octave", &[], &note.pitch.octave().to_string());
            xml.close();
        }
        WrittenKind::Air { .. } => {
            xml.open("unpitched", &[]);
            xml.leaf("display-step", &[], "B");
            xml.leaf("display-octave", &[], "4");
            xml.close();
        }
        WrittenKind::Rest(whole_bar) => {
            let of_bar: &[_] = if *whole_bar {
                &[("measure", "yes")]
            } else {
                &[]
            };
            xml.empty("rest", of_bar);
        }
    }
}

/// A length in divisions.
pub(super) fn duration(length: Whole, divisions: i64) -> i64 {
    (length * Whole::from_integer(divisions)).to_integer()
}

fn value(xml: &mut Xml, value: Value) {
    let name = match value.division {
        1 => "whole",
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        16 => "16th",
        32 => "32nd",
        _ => "64th",
    };
    xml.leaf("type", &[], name);
    if value.dotted {
        xml.empty("dot", &[]);
    }
}

fn ties(symbol: &WrittenSymbol, setting: &PassContext<'_>) -> Vec<&'static str> {
    let mut ties = vec![];
    let (from, on) = match &symbol.what {
        WrittenKind::Note(note) => (note.head > 0, note.tied_on),
        WrittenKind::Air { word, note } => (word.is_empty(), air_goes_on(symbol, *note, setting)),
        WrittenKind::Rest(_) => (false, false),
    };
    if from {
        ties.push("stop");
    }
    if on {
        ties.push("start");
    }
    ties
}

/// True if the breath that `symbol` is a part of has another part after it.
fn air_goes_on(symbol: &WrittenSymbol, note: Option<usize>, setting: &PassContext<'_>) -> bool {
    let symbols = setting.written.bars.iter().flat_map(|b| &b.symbols);
    let next = symbols.into_iter().find(|s| s.at == symbol.end());
    next.is_some_and(|s| matches!(s.what, WrittenKind::Air { word: "", note: n } if n == note))
}

fn note_of<'s>(
    symbol: &WrittenSymbol,
    setting: &'s PassContext<'_>,
) -> Option<(Note, &'s ScoreNote)> {
    let note = *symbol.note()?;
    Some((note, &setting.pass.notes[note.index]))
}

fn notations(
    xml: &mut Xml,
    symbol: &WrittenSymbol,
    ties: &[&str],
    triplets: &Triplets,
    setting: &PassContext<'_>,
) {
    let slurs = slurs(symbol, setting);
    let technical = technical(symbol, setting);
    let articulations = articulations(symbol, setting);
    let tuplets: Vec<&str> = match symbol.triplet.map(|number| triplets[&number]) {
        Some((first, last)) => [("start", first), ("stop", last)]
            .into_iter()
            .filter(|(_, at)| *at == symbol.at)
            .map(|(kind, _)| kind)
            .collect(),
        None => vec![],
    };
    let nothing = ties.is_empty() && tuplets.is_empty() && slurs.is_empty();
    if nothing && technical.is_empty() && articulations.is_empty() {
        return;
    }
    xml.open("notations", &[]);
    for kind in ties {
        xml.empty("tied", &[("type", kind)]);
    }
    for kind in slurs {
        xml.empty("slur", &[("type", kind), ("number", "1")]);
    }
    for kind in tuplets {
        xml.empty(
            "tuplet",
            &[("type", kind), ("number", "1"), ("bracket", "yes")],
        );
    }
    if !technical.is_empty() {
        xml.open("technical", &[]);
        for sign in technical {
            match sign {
                Technical::Fingering(text, true) => {
                    xml.leaf("fingering", &[("alternate", "yes")], &text);
                }
                Technical::Fingering(text, false) => xml.leaf("fingering", &[], &text),
                Technical::Bend => xml.empty("brass-bend", &[]),
                Technical::Other(word) => xml.leaf("other-technical", &[], word),
            }
        }
        xml.close();
    }
    if !articulations.is_empty() {
        xml.open("articulations", &[]);
        for name in articulations {
            match name {
                "breath-mark" => xml.leaf(name, &[], "comma"),
                name => xml.empty(name, &[]),
            }
        }
        xml.close();
    }
    xml.close();
}

fn slurs(symbol: &WrittenSymbol, setting: &PassContext<'_>) -> Vec<&'static str> {
    let Some((head, note)) = note_of(symbol, setting) else {
        return vec![];
    };
    let follows = !matches!(note.joined, Joined::Fresh(_));
    let mut kinds = vec![];
    if follows && !note.leads_on && !head.tied_on {
        kinds.push("stop");
    }
    if note.leads_on && !follows && head.head == 0 {
        kinds.push("start");
    }
    kinds
}

/// A technical sign at a note.
enum Technical {
    /// The valves, and whether the fingering is unusual.
    Fingering(String, bool),
    Bend,
    Other(&'static str),
}

fn technical(symbol: &WrittenSymbol, setting: &PassContext<'_>) -> Vec<Technical> {
    let mut signs = vec![];
    let Some((head, note)) = note_of(symbol, setting) else {
        return signs;
    };
    if head.head > 0 {
        return signs;
    }
    if let Played::Pitch {
        written,
        tube: Some(tube),
        ..
    } = note.played
    {
        let usual = fingering::standard(setting.instrument, written).map(|f| f.tube);
        let alternate = usual != Some(tube);
        // The first note shows which tube a pass is played on.
        let names_tube = setting.pass.tube.is_some() && head.index == 0;
        if alternate || names_tube || setting.fingerings == FingeredNotes::All {
            signs.push(Technical::Fingering(tube.to_string(), alternate));
        }
    }
    if note.joined == Joined::Bent {
        signs.push(Technical::Bend);
    }
    if let Some(word) = start(note) {
        signs.push(Technical::Other(word));
    }
    signs
}

/// The syllable for a note's start, unless it is the plain tongue.
fn start(note: &ScoreNote) -> Option<&'static str> {
    match note.joined {
        Joined::Fresh(Attack::Air) => Some("air"),
        Joined::Fresh(Attack::Ku) => Some("ku"),
        _ => None,
    }
}

fn articulations(symbol: &WrittenSymbol, setting: &PassContext<'_>) -> Vec<&'static str> {
    let mut names = vec![];
    let Some((head, note)) = note_of(symbol, setting) else {
        return names;
    };
    if head.head == 0 {
        names.extend(note.style.map(|style| match style {
            Style::Staccato => "staccato",
            Style::Legato => "tenuto",
            Style::Accent => "accent",
        }));
    }
    if note.breath.is_some() && !head.tied_on {
        names.push("breath-mark");
    }
    names
}

/// Syllables under the notes: what the breath does, and how a note starts.
fn lyric(xml: &mut Xml, symbol: &WrittenSymbol, setting: &PassContext<'_>) {
    let word = match &symbol.what {
        WrittenKind::Air { word, .. } => Some(*word).filter(|word| !word.is_empty()),
        WrittenKind::Note(note) if note.head == 0 => start(&setting.pass.notes[note.index]),
        _ => None,
    };
    if let Some(word) = word {
        xml.open("lyric", &[("number", "1")]);
        xml.leaf("syllabic", &[], "single");
        xml.leaf("text", &[], word);
        xml.close();
    }
}
