//! Reads the measures of one part, for one staff and voice of it.

use super::direction_reader;
use super::nodes::{child_text, has, tidy};
use super::note_reader;
use super::reading::Reading;
use super::signs;
use crate::exchange::piece::{
    ImportedPiece, MOST_SIGNS, Measure, MeasureSymbol, Pitches, SymbolKind, on_grid, too_many_signs,
};
use crate::music::{Decimal, Whole};
use crate::problem::Problem;
use num_traits::{Signed, Zero};
use roxmltree::Node;
use std::collections::{BTreeMap, BTreeSet};

/// The most measures.
pub(super) const MOST_MEASURES: usize = 20_000;

/// A staff of a part that has notes.
pub(super) struct Staff {
    /// From 1.
    pub number: u32,
    /// Its voices, if any two of them sound at once.
    pub at_once: Vec<String>,
}

/// Divisions of a quarter note if a file gives none.
const DEFAULT_DIVISIONS: i128 = 1_000;

/// Tracks the position in a measure while its elements are read.
pub(super) struct Clock {
    /// Divisions of a quarter note, in thousandths.
    divisions: i128,
    now: Whole,
    /// Where the previous note began: the other notes of a chord begin there too.
    note: Whole,
    end: Whole,
}

impl Clock {
    fn new() -> Self {
        Self {
            divisions: DEFAULT_DIVISIONS,
            now: Whole::zero(),
            note: Whole::zero(),
            end: Whole::zero(),
        }
    }

    fn begin_measure(&mut self) {
        self.now = Whole::zero();
        self.note = Whole::zero();
        self.end = Whole::zero();
    }

    /// Converts a number of divisions to a length.
    pub(super) fn length(&self, text: Option<&str>) -> Option<Whole> {
        let thousandths = Decimal::parse(text?.trim()).ok()?.ratio() * 1000;
        on_grid(thousandths.to_integer(), self.divisions * 4)
    }

    /// Moves past an element, and returns its position and duration.
    fn pass(&mut self, node: Node<'_, '_>) -> (Whole, Whole) {
        let duration = || {
            self.length(child_text(node, "duration"))
                .unwrap_or_default()
        };
        match node.tag_name().name() {
            "attributes" => {
                let text = child_text(node, "divisions").map(str::trim);
                let divisions = text.and_then(|t| Decimal::parse(t).ok());
                if let Some(divisions) = divisions.filter(|d| d.is_positive()) {
                    self.divisions = (divisions.ratio() * 1000).to_integer();
                }
            }
            "backup" => self.now = (self.now - duration()).max(Whole::zero()),
            "forward" => self.go_on(duration()),
            "note" if !has(node, "grace") => {
                let length = note_reader::length(node, duration());
                if has(node, "chord") {
                    return (self.note, length);
                }
                self.note = self.now;
                let end = self.end;
                self.go_on(length);
                if is_hidden(node) {
                    self.end = end;
                }
                return (self.note, length);
            }
            _ => {}
        }
        (self.now, Whole::zero())
    }

    /// The moment of a direction that stands at `at`: a little before or after it, if it says so.
    fn moment(&self, direction: Node<'_, '_>, at: Whole) -> Whole {
        let offset = self.length(child_text(direction, "offset"));
        (at + offset.unwrap_or_default()).max(Whole::zero())
    }

    fn go_on(&mut self, length: Whole) {
        // Limits the length of a measure, whatever a file says.
        const LONGEST: i64 = 4096;
        self.now = (self.now + length.abs()).min(Whole::from_integer(LONGEST));
        self.end = self.end.max(self.now);
    }
}

pub(super) fn staff_of(node: Node<'_, '_>) -> u32 {
    let text = child_text(node, "staff");
    text.and_then(|t| t.trim().parse().ok()).unwrap_or(1)
}

pub(super) fn voice_of<'x>(node: Node<'x, 'x>) -> &'x str {
    child_text(node, "voice").unwrap_or("1").trim()
}

/// A rest that is not printed fills an incomplete bar.
fn is_hidden(node: Node<'_, '_>) -> bool {
    node.attribute("print-object") == Some("no") && has(node, "rest")
}

fn sounds(node: Node<'_, '_>) -> bool {
    node.has_tag_name("note")
        && (has(node, "pitch") || has(node, "unpitched"))
        && !has(node, "grace")
        && !has(node, "cue")
}

/// The staves of a part that have notes.
pub(super) fn voices<'x>(measures: &[Node<'x, 'x>]) -> Vec<Staff> {
    /// Start, end and voice.
    type Sounding<'x> = Vec<(Whole, Whole, &'x str)>;
    let mut clock = Clock::new();
    let mut staves: BTreeMap<u32, (BTreeSet<&str>, bool)> = BTreeMap::new();
    for measure in measures {
        clock.begin_measure();
        let mut sounding: BTreeMap<u32, Sounding<'_>> = BTreeMap::new();
        for node in measure.children().filter(Node::is_element) {
            let (at, length) = clock.pass(node);
            if sounds(node) {
                let all = sounding.entry(staff_of(node)).or_default();
                all.push((at, at + length, voice_of(node)));
            }
        }
        for (staff, mut notes) in sounding {
            let (voices, at_once) = staves.entry(staff).or_default();
            voices.extend(notes.iter().map(|(_, _, voice)| *voice));
            notes.sort_by_key(|(from, to, _)| (*from, *to));
            let mut latest: Option<(Whole, &str)> = None;
            for (from, to, voice) in notes {
                if let Some((until, of)) = latest {
                    *at_once |= from < until && voice != of;
                }
                if latest.is_none_or(|(until, _)| to >= until) {
                    latest = Some((to, voice));
                }
            }
        }
    }
    staves
        .into_iter()
        .map(|(number, (voices, at_once))| {
            let mut all: Vec<String> = vec![];
            if at_once {
                all.extend(voices.into_iter().map(str::to_owned));
                all.sort_by_key(String::len);
            }
            Staff {
                number,
                at_once: all,
            }
        })
        .collect()
}

/// The staff and voice to read.
#[derive(Clone, Copy)]
pub(super) struct StaffVoice<'w> {
    staff: u32,
    voice: Option<&'w str>,
}

impl StaffVoice<'_> {
    fn includes(self, node: Node<'_, '_>) -> bool {
        staff_of(node) == self.staff && self.voice.is_none_or(|voice| voice_of(node) == voice)
    }

    /// A direction without a staff belongs to all staves.
    fn takes_direction(self, node: Node<'_, '_>) -> bool {
        let voices = self.voice.zip(child_text(node, "voice"));
        (!has(node, "staff") || staff_of(node) == self.staff)
            && voices.is_none_or(|(wanted, of)| wanted == of.trim())
    }
}

/// Reads the measures of one staff, and of one voice if given, into a piece.
pub(super) fn read(
    measures: &[Node<'_, '_>],
    staff: u32,
    voice: Option<&str>,
    piece: &mut ImportedPiece,
) -> Result<(), Problem> {
    let wanted = StaffVoice { staff, voice };
    let mut clock = Clock::new();
    // The difference in half steps between a later transposition and the first one of the part.
    let mut moved = 0;
    let mut signs = 0;
    for (index, node) in measures.iter().enumerate().take(MOST_MEASURES) {
        clock.begin_measure();
        let mut measure = Measure {
            label: tidy(node.attribute("number").unwrap_or_default()),
            ..Measure::default()
        };
        let mut reading = Reading {
            index,
            measure: &mut measure,
            losses: &mut piece.losses,
        };
        for node in node.children().filter(Node::is_element) {
            let (at, length) = clock.pass(node);
            match node.tag_name().name() {
                "note" if wanted.includes(node) && !is_hidden(node) => {
                    note_reader::read(node, at, length, moved, &mut reading);
                }
                "attributes" => {
                    signs::attributes(node, &mut reading);
                    if let Some(to) = signs::transposition(node, wanted.staff) {
                        match piece.pitches {
                            Pitches::For(from) => {
                                moved = to - from;
                                reading.lose("the part changes to another instrument: its notes go on for the first one");
                            }
                            _ => piece.pitches = Pitches::For(to),
                        }
                    }
                    signs::key(node, wanted.staff, moved, &mut reading);
                }
                "direction" if wanted.takes_direction(node) => {
                    direction_reader::read(node, clock.moment(node, at), &mut reading);
                }
                "sound" => direction_reader::sound(node, at, &mut reading),
                "barline" => signs::bar_line(node, &mut reading),
                "print" => reading.measure.new_system |= signs::begins_system(node),
                "harmony" => reading.lose("chord symbols are left out"),
                "figured-bass" => reading.lose("figures are left out"),
                _ => {}
            }
            if signs + measure_signs(reading.measure) > MOST_SIGNS {
                return Err(too_many_signs());
            }
        }
        signs += measure_signs(&measure);
        let full = measure.symbols.len() == 1 && is_whole_rest(&measure.symbols[0]);
        measure.length = clock.end;
        fill(&mut measure, full);
        measure.marks.sort_by_key(|mark| mark.at);
        piece.measures.push(measure);
    }
    Ok(())
}

fn measure_signs(measure: &Measure) -> usize {
    measure.symbols.len() + measure.marks.len()
}

fn is_whole_rest(symbol: &MeasureSymbol) -> bool {
    symbol.what == SymbolKind::Rest && symbol.at.is_zero()
}

/// Puts symbols in order, without overlaps, and fills gaps with rests.
fn fill(measure: &mut Measure, whole_rest: bool) {
    let mut symbols = std::mem::take(&mut measure.symbols);
    symbols.sort_by_key(|s| s.at);
    // In a staff whose voices alternate, the rests of one stand beside the notes of the other.
    let notes: Vec<(Whole, Whole)> = symbols
        .iter()
        .filter(|s| s.what != SymbolKind::Rest)
        .map(|s| (s.at, s.at + s.length))
        .collect();
    symbols.retain(|s| {
        let before = notes.partition_point(|(at, _)| *at < s.at + s.length);
        let covered = before > 0 && notes[before - 1].1 > s.at;
        s.what != SymbolKind::Rest || !covered
    });
    let mut filled: Vec<MeasureSymbol> = Vec::with_capacity(symbols.len());
    let mut now = Whole::zero();
    for mut symbol in symbols {
        if symbol.at < now {
            // A symbol that lasts beyond the start of the next one is cut short.
            let end = symbol.at + symbol.length;
            if let Some(before) = filled.last_mut()
                && before.at < symbol.at
            {
                before.length = symbol.at - before.at;
            } else if end > now {
                symbol.length = end - now;
                symbol.at = now;
            } else {
                continue;
            }
        } else if symbol.at > now {
            filled.push(MeasureSymbol::plain(now, symbol.at - now, SymbolKind::Rest));
        }
        now = symbol.at + symbol.length;
        if symbol.length.is_positive() {
            filled.push(symbol);
        }
    }
    if whole_rest && let [rest] = filled.as_mut_slice() {
        // A whole-bar rest is as long as the bar, whatever its symbol.
        rest.length = rest.length.max(measure.length);
    } else if now < measure.length {
        filled.push(MeasureSymbol::plain(
            now,
            measure.length - now,
            SymbolKind::Rest,
        ));
    }
    measure.length = measure.length.max(now);
    measure.symbols = filled;
}
