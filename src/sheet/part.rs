//! A line of a routine prepared for drawing: which passes are written, with which fingerings and words.

use crate::notation::accidentals;

use super::options::{SheetFingerings, SheetOptions, SheetPasses};
use super::pencil_words::{self, OnLine};
use super::signature::Signature;
use super::spacing::{self, Distances, Extent};
use super::words;
use super::{letters::Face, notes};
use crate::brass::{Instrument, Valves, fingering};
use crate::music::Whole;
use crate::notation::written::{self, WrittenBar, WrittenPass, WrittenSymbol};
use crate::pencil::Pencil;
use crate::routine::{Attack, Line, On};
use crate::score::{Joined, Pass, Played, Score, ScoreLine, ScoreNote};
use num_traits::Zero;

/// Passes of a walk up to which all are written out.
const LONG_WALK: usize = 4;

/// Size of fingerings, in staff spaces.
pub const FINGERING_SIZE: f64 = 1.75;

/// A line prepared for drawing.
pub struct LinePart<'s> {
    /// As the teacher wrote it.
    pub line: &'s Line,
    /// As it is played.
    pub score_line: &'s ScoreLine,
    /// The same at each of its tempos.
    pub rungs: &'s [ScoreLine],
    /// Its number, from 1.
    pub number: usize,
    /// What is written, in order.
    pub passes: Vec<LinePass<'s>>,
    /// What is drawn over it in pencil.
    pub pencil: OnLine,
}

/// A pass prepared for drawing.
pub struct LinePass<'s> {
    /// As it is played.
    pub pass: &'s Pass,
    /// As it is written.
    pub written: WrittenPass,
    /// The words above its beginning.
    pub label: String,
    /// The fingering of each note that carries one.
    pub fingerings: Vec<Option<String>>,
    /// The words at each note, if it has any.
    pub cues: Vec<Option<&'static str>>,
}

impl<'s> LinePart<'s> {
    /// Prepares line `index` of a score.
    pub fn new(
        score: &'s Score<'s>,
        index: usize,
        options: &SheetOptions,
        pencil: Option<&Pencil>,
    ) -> Self {
        let score_line = &score.lines[index];
        let line = &score.routine.lines[score_line.index];
        let instrument = score.instrument();
        let chosen = chosen(score_line, options.passes);
        let mut written: Vec<WrittenPass> = chosen
            .iter()
            .map(|at| written::pass(line, &score_line.passes[*at], *at, score_line.meter))
            .collect();
        accidentals::set(&mut written);
        let fingerings = resolved(options.fingerings, score);
        let labels = words::labels(line, score_line, &chosen);
        let passes = written.into_iter().zip(labels).map(|(written, label)| {
            let pass = &score_line.passes[written.index];
            LinePass {
                pass,
                written,
                label,
                fingerings: of_notes(pass, fingerings, instrument),
                cues: cues(pass, score_line.meter.click(), instrument),
            }
        });
        Self {
            line,
            score_line,
            rungs: score.rungs(index),
            number: score_line.index + 1,
            passes: passes.collect(),
            pencil: pencil.map_or_else(OnLine::default, |pencil| {
                pencil_words::on_line(pencil, score.routine, score_line.index)
            }),
        }
    }

    /// Lines of its staff.
    pub fn staff_lines(&self) -> u32 {
        if self.line.on == On::Air { 1 } else { 5 }
    }

    /// All bars in order; bars wider than `room` are divided into parts that fit.
    pub fn slots(&self, room: f64) -> Vec<Slot> {
        let mut slots = vec![];
        for (number, pass) in self.passes.iter().enumerate() {
            let first = slots.len();
            for bar in &pass.written.bars {
                self.add(pass, number, bar.clone(), room, &mut slots);
            }
            let last = slots.len() - 1;
            slots[first].opens_pass = true;
            if let Some(before) = number.checked_sub(1) {
                let from = self.passes[before].written.key;
                slots[first].changes(Signature::change(from, pass.written.key));
            }
            slots[last].closes_pass = true;
        }
        slots
    }

    fn add(
        &self,
        pass: &LinePass<'_>,
        number: usize,
        bar: WrittenBar,
        room: f64,
        slots: &mut Vec<Slot>,
    ) {
        let distances = distances(pass, &bar);
        let halves = (distances.least_width() > room)
            .then(|| self.halved(&bar))
            .flatten();
        match halves {
            Some((one, other)) => {
                self.add(pass, number, one, room, slots);
                self.add(pass, number, other, room, slots);
            }
            None => slots.push(Slot {
                pass: number,
                bar,
                distances,
                opens_pass: false,
                closes_pass: false,
                change: Signature::default(),
            }),
        }
    }

    /// Divides a bar near its middle: at a beat if there is one, and never inside a triplet.
    fn halved(&self, bar: &WrittenBar) -> Option<(WrittenBar, WrittenBar)> {
        let beat = self.score_line.meter.click();
        let symbols = &bar.symbols;
        let middle = symbols.len() / 2;
        let parts = |at: usize| {
            symbols[at]
                .triplet
                .is_none_or(|t| symbols[at - 1].triplet != Some(t))
        };
        let on = |at: usize, grid: Whole| (symbols[at].at / grid).fract().is_zero();
        let quarter = Whole::new(1, 4);
        let near = |grid: Option<Whole>| {
            let places =
                (1..symbols.len()).filter(|at| parts(*at) && grid.is_none_or(|g| on(*at, g)));
            places.min_by_key(|at| at.abs_diff(middle))
        };
        let at = near(Some(beat))
            .or_else(|| near(Some(quarter)))
            .or_else(|| near(None))?;
        let (one, other) = symbols.split_at(at);
        let part = |symbols: &[WrittenSymbol], closed| WrittenBar {
            start: symbols[0].at,
            symbols: symbols.to_vec(),
            closed,
        };
        Some((part(one, false), part(other, bar.closed)))
    }
}

/// A bar in the order of the page.
pub struct Slot {
    /// Index in the part's passes.
    pub pass: usize,
    /// What is in it.
    pub bar: WrittenBar,
    /// How wide it is.
    pub distances: Distances,
    /// True if a pass begins with it.
    pub opens_pass: bool,
    /// True if a pass ends with it.
    pub closes_pass: bool,
    /// The key signature that changes with it; empty if it does not. Its distances have room for it.
    pub change: Signature,
}

impl Slot {
    fn changes(&mut self, change: Signature) {
        for distances in [&mut self.distances.natural, &mut self.distances.least] {
            if let Some(first) = distances.first_mut() {
                *first += change.width();
            }
        }
        self.change = change;
    }
}

fn distances(pass: &LinePass<'_>, bar: &WrittenBar) -> Distances {
    let extents: Vec<Extent> = bar.symbols.iter().map(|s| extent(pass, s)).collect();
    spacing::of_bar(&bar.symbols, &extents)
}

fn extent(pass: &LinePass<'_>, symbol: &WrittenSymbol) -> Extent {
    let mut extent = notes::extent(symbol);
    if let Some(note) = symbol.note() {
        if note.head == 0
            && let Some(text) = &pass.fingerings[note.index]
        {
            let half = Face::Regular.width(text, FINGERING_SIZE) / 2.0;
            extent.fingering = Some((0.6 - half, 0.6 + half));
        }
        extent.breath = !note.tied_on && pass.pass.notes[note.index].breath.is_some();
    }
    extent
}

/// Indices of the passes that are written: one for each half step or tube, of a long walk the first and
/// the last.
fn chosen(line: &ScoreLine, passes: SheetPasses) -> Vec<usize> {
    let mut all: Vec<usize> = vec![];
    for (index, pass) in line.passes.iter().enumerate() {
        let last = all.last().map(|i| line.passes[*i].walk_index);
        if last != Some(pass.walk_index) {
            all.push(index);
        }
    }
    match passes {
        SheetPasses::Ends if all.len() > LONG_WALK => vec![all[0], all[all.len() - 1]],
        _ => all,
    }
}

fn resolved(fingerings: SheetFingerings, score: &Score<'_>) -> SheetFingerings {
    let instrument = score.instrument();
    let first_level = crate::brass::Level::of_top(instrument, score.routine.comfortable_top)
        .is_none_or(|level| level.number() == 1);
    match fingerings {
        SheetFingerings::ByLevel if first_level => SheetFingerings::All,
        SheetFingerings::ByLevel => SheetFingerings::Unusual,
        other => other,
    }
}

/// Valves of a note, if it has any.
fn valves(note: &ScoreNote) -> Option<Valves> {
    match note.played {
        Played::Pitch { valves, .. } => valves,
        Played::In | Played::Out => None,
    }
}

fn of_notes(pass: &Pass, mode: SheetFingerings, instrument: &Instrument) -> Vec<Option<String>> {
    let mut shown: Vec<(i32, Valves)> = vec![];
    let mut before: Option<(i32, Valves)> = None;
    let mut all = vec![];
    for note in &pass.notes {
        let Played::Pitch {
            written,
            valves: Some(valves),
            ..
        } = note.played
        else {
            before = None;
            all.push(None);
            continue;
        };
        let usual = fingering::standard(instrument, written).map(|f| f.valves);
        let this = (written.number(), valves);
        // On a tube the tube's name says it for all notes but those that leave it.
        let said = pass.tube == Some(valves) && note.joined != Joined::Bent;
        let show = if said {
            false
        } else if usual != Some(valves) {
            true
        } else {
            match mode {
                SheetFingerings::All => before != Some(this),
                SheetFingerings::None => false,
                _ => written.alter() != 0 && !shown.contains(&this),
            }
        };
        if show {
            shown.push(this);
        }
        before = Some(this);
        all.push(show.then(|| valves.to_string()));
    }
    all
}

fn cues(pass: &Pass, beat: Whole, instrument: &Instrument) -> Vec<Option<&'static str>> {
    let mut out = false;
    let mut said = false;
    let mut all = vec![];
    for note in &pass.notes {
        let long = valves(note).is_some_and(|v| instrument.slide_goes_out(v));
        // Written the first time, and then only where the player has time for it.
        let time = !said || note.length >= beat;
        let goes_out = long && is_low(note) && !out && time;
        said |= goes_out;
        out = long && (out || is_low(note));
        let bends = note.joined == Joined::Bent;
        all.push(match note.joined {
            _ if bends => Some("bend"),
            _ if goes_out => Some("slide out"),
            Joined::Fresh(Attack::Air) => Some("air"),
            Joined::Fresh(Attack::Ku) => Some("ku"),
            _ => None,
        });
    }
    all
}

/// Notes for which the third slide is extended: the two lowest partials of the long tubes (common practice).
fn is_low(note: &ScoreNote) -> bool {
    match note.played {
        Played::Pitch { partial, .. } => partial.is_some_and(|p| p <= 3),
        Played::In | Played::Out => false,
    }
}
