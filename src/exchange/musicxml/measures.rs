//! Reads the measures of one part, for one staff and voice of it.

use super::direction_reader;
use super::filling::{self, Inside};
use super::nodes::{child_text, has, tidy};
use super::note_reader;
use super::reading::Reading;
use super::signs;
use crate::exchange::piece::{
    ImportedPiece, MOST_SIGNS, Measure, MeterSign, Pitches, SymbolKind, on_grid, too_many_signs,
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

/// Tracks the position in a measure while its elements are read, and whose they are.
pub(super) struct Clock<'x> {
    /// Divisions of a quarter note, in thousandths.
    divisions: i128,
    now: Whole,
    /// Where the previous note began: the other notes of a chord begin there too.
    note: Whole,
    end: Whole,
    /// The voice and the staff of the last note: the other notes of a chord may leave them out.
    voice: &'x str,
    staff: u32,
    /// True in a bar that need not be full.
    partial: bool,
}

impl<'x> Clock<'x> {
    fn new() -> Self {
        Self {
            voice: FIRST_VOICE,
            staff: 1,
            partial: true,
            divisions: DEFAULT_DIVISIONS,
            now: Whole::zero(),
            note: Whole::zero(),
            end: Whole::zero(),
        }
    }

    fn begin_measure(&mut self, measure: Node<'_, '_>, first: bool) {
        self.partial = first || measure.attribute("implicit") == Some("yes");
        self.now = Whole::zero();
        self.note = Whole::zero();
        self.end = Whole::zero();
    }

    /// Converts a number of divisions to a length.
    pub(super) fn length(&self, text: Option<&str>) -> Option<Whole> {
        let thousandths = Decimal::parse(text?.trim()).ok()?.ratio() * 1000;
        on_grid(thousandths.to_integer(), self.divisions * 4)
    }

    /// The shortest duration that divisions can say.
    fn division(&self) -> Whole {
        on_grid(1_000, self.divisions * 4).unwrap_or_default()
    }

    /// Notes whose the element is, if it is a note.
    fn take_owner(&mut self, node: Node<'x, 'x>) {
        let chord = has(node, "chord");
        match child_text(node, "voice") {
            Some(voice) => self.voice = voice.trim(),
            None if chord => {}
            None => self.voice = FIRST_VOICE,
        }
        if has(node, "staff") || !chord {
            self.staff = staff_of(node);
        }
    }

    /// Moves past an element, and returns its position and duration.
    fn pass(&mut self, node: Node<'x, 'x>) -> (Whole, Whole) {
        if node.has_tag_name("note") {
            self.take_owner(node);
        }
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
                let length = note_reader::length(node, duration(), self.division());
                if has(node, "chord") {
                    return (self.note, length);
                }
                self.note = self.now;
                let end = self.end;
                self.go_on(length);
                if self.partial && is_hidden(node) {
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

/// The voice of a note that names none.
const FIRST_VOICE: &str = "1";

/// A rest that is not printed: at the end of a bar that need not be full it is no time.
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
    for (index, measure) in measures.iter().enumerate() {
        clock.begin_measure(*measure, index == 0);
        let mut sounding: BTreeMap<u32, Sounding<'_>> = BTreeMap::new();
        for node in measure.children().filter(Node::is_element) {
            let (at, length) = clock.pass(node);
            if sounds(node) {
                let all = sounding.entry(clock.staff).or_default();
                all.push((at, at + length, clock.voice));
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
    /// True for the note that a clock has just passed.
    fn includes(self, clock: &Clock<'_>) -> bool {
        clock.staff == self.staff && self.voice.is_none_or(|voice| clock.voice == voice)
    }

    /// A direction without a staff belongs to all staves.
    fn takes_direction(self, node: Node<'_, '_>) -> bool {
        let voices = self.voice.zip(child_text(node, "voice"));
        (!has(node, "staff") || staff_of(node) == self.staff)
            && voices.is_none_or(|(wanted, of)| wanted == of.trim())
    }
}

/// Reads the measures of one staff, and of one voice if given, into a piece.
pub(super) fn read<'x>(
    measures: &[Node<'x, 'x>],
    staff: u32,
    voice: Option<&str>,
    piece: &mut ImportedPiece,
) -> Result<(), Problem> {
    let mut reader = PartReader {
        wanted: StaffVoice { staff, voice },
        clock: Clock::new(),
        moved: 0,
        signs: 0,
        bar: Whole::from_integer(1),
        repeating: None,
        of_bar: false,
    };
    let mut measures = measures.iter().take(MOST_MEASURES);
    measures.try_for_each(|measure| reader.measure(*measure, piece))
}

/// What is carried from measure to measure.
struct PartReader<'x, 'w> {
    wanted: StaffVoice<'w>,
    clock: Clock<'x>,
    /// The difference in half steps between a later transposition and the first one of the part.
    moved: i32,
    /// How many signs there are so far.
    signs: usize,
    /// How long a full bar is.
    bar: Whole,
    /// So many bars are to be played again, until that ends.
    repeating: Option<usize>,
    /// True if the measure holds the rest of a whole bar.
    of_bar: bool,
}

impl<'x> PartReader<'x, '_> {
    fn measure(&mut self, node: Node<'x, 'x>, piece: &mut ImportedPiece) -> Result<(), Problem> {
        self.clock.begin_measure(node, piece.measures.is_empty());
        self.of_bar = false;
        let mut measure = Measure {
            label: tidy(node.attribute("number").unwrap_or_default()),
            ..Measure::default()
        };
        let mut reading = Reading {
            index: piece.measures.len(),
            measure: &mut measure,
            losses: &mut piece.losses,
        };
        let mut inside = vec![];
        let mut over = false;
        for node in node.children().filter(Node::is_element) {
            let (at, length) = self.clock.pass(node);
            match node.tag_name().name() {
                "attributes" => {
                    over |= self.attributes(node, at, &mut piece.pitches, &mut reading);
                }
                "barline" => match signs::inside(node) {
                    true if at.is_positive() => {
                        let mut signs = Measure::default();
                        let (index, losses) = (reading.index, &mut *reading.losses);
                        let measure = &mut signs;
                        signs::bar_line(
                            node,
                            &mut Reading {
                                index,
                                measure,
                                losses,
                            },
                        );
                        inside.push(Inside { at, signs });
                    }
                    _ => signs::bar_line(node, &mut reading),
                },
                _ => self.music(node, at, length, &mut reading),
            }
            if self.signs + measure_signs(reading.measure) > MOST_SIGNS {
                return Err(too_many_signs());
            }
        }
        reading.measure.length = self.clock.end;
        filling::fill(&mut reading);
        self.again(&piece.measures, &mut reading);
        if over {
            self.repeating = None;
        }
        filling::set_rest(&mut measure, self.bar, self.of_bar);
        measure.marks.sort_by_key(|mark| mark.at);
        self.signs += measure_signs(&measure);
        piece.measures.extend(filling::cut(measure, inside));
        Ok(())
    }

    /// Reads meter, transposition and signs for bars that come again; true if that ends with this measure.
    fn attributes(
        &mut self,
        node: Node<'_, '_>,
        at: Whole,
        pitches: &mut Pitches,
        reading: &mut Reading<'_>,
    ) -> bool {
        signs::attributes(node, self.wanted.staff, reading);
        if let Some(meter) = reading.measure.meter {
            let bar = match meter {
                MeterSign::Of(beats, unit) => on_grid(i128::from(beats), i128::from(unit)),
                MeterSign::Free => None,
            };
            let bar = bar.filter(|bar| bar.is_positive());
            self.bar = bar.unwrap_or(Whole::from_integer(1));
        }
        self.transposition(node, pitches, reading);
        signs::key(node, self.wanted.staff, self.moved, reading);
        match signs::bars_again(node, reading) {
            Some(Some(bars)) => self.repeating = Some(bars),
            // At the end of a bar it is still that bar again.
            Some(None) if at.is_positive() => return true,
            Some(None) => self.repeating = None,
            None => {}
        }
        false
    }

    /// Reads what stands in a measure besides its attributes and bar lines.
    fn music(&mut self, node: Node<'_, '_>, at: Whole, length: Whole, reading: &mut Reading<'_>) {
        match node.tag_name().name() {
            "note" if self.wanted.includes(&self.clock) && !is_hidden(node) => {
                let mut rests = node.children().filter(|n| n.has_tag_name("rest"));
                self.of_bar |= rests.any(|rest| rest.attribute("measure") == Some("yes"));
                note_reader::read(node, at, length, self.moved, reading);
            }
            "direction" if self.wanted.takes_direction(node) => {
                direction_reader::read(node, self.clock.moment(node, at), reading);
            }
            "sound" => direction_reader::sound(node, at, true, reading),
            "print" => reading.measure.new_system |= signs::begins_system(node),
            "harmony" => reading.lose("chord symbols are left out"),
            "figured-bass" => reading.lose("figures are left out"),
            _ => {}
        }
    }

    fn transposition(
        &mut self,
        node: Node<'_, '_>,
        pitches: &mut Pitches,
        reading: &mut Reading<'_>,
    ) {
        let Some(to) = signs::transposition(node, self.wanted.staff) else {
            return;
        };
        match pitches {
            Pitches::For(from) => {
                self.moved = to - *from;
                if self.moved != 0 {
                    reading.lose(
                        "the part changes to another instrument: its notes go on for the first one",
                    );
                }
            }
            _ => *pitches = Pitches::For(to),
        }
    }

    /// Writes out a sign that stands for the bars before.
    fn again(&mut self, before: &[Measure], reading: &mut Reading<'_>) {
        let Some(bars) = self.repeating else {
            return;
        };
        let silent = |measure: &Measure| measure.symbols.iter().all(|s| s.what == SymbolKind::Rest);
        if !silent(reading.measure) {
            return;
        }
        match before
            .len()
            .checked_sub(bars)
            .and_then(|place| before.get(place))
        {
            Some(source) => {
                reading.measure.symbols.clone_from(&source.symbols);
                reading.measure.length = source.length;
            }
            None => reading.lose("a sign that the bar before comes again has no bar before it"),
        }
    }
}

fn measure_signs(measure: &Measure) -> usize {
    measure.symbols.len() + measure.marks.len()
}
