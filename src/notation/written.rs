//! Writes the passes of a line as bars of notes and rests: divided at bar lines, tied, and in values that can be drawn.

use super::value::{self, Value};
use crate::music::Clef;
use crate::music::{Key, Meter, Whole, WrittenPitch};
use crate::routine::notes::{Item, ItemKind, Phrase};
use crate::routine::{EventKind, Line};
use crate::score::{Pass, Played};
use num_traits::Zero;

/// A pass as it is written.
#[derive(Clone, Debug)]
pub struct WrittenPass {
    /// Index of the pass in the score's line.
    pub index: usize,
    /// The key of its signature; none if the routine names no key.
    pub key: Option<Key>,
    /// Its bars in order, at least one.
    pub bars: Vec<WrittenBar>,
}

/// A bar, or a part of a bar that is too long for a page.
#[derive(Clone, Debug)]
pub struct WrittenBar {
    /// Moment of its start, from the start of the pass.
    pub start: Whole,
    /// Its notes and rests in order.
    pub symbols: Vec<WrittenSymbol>,
    /// False if the next part belongs to the same bar.
    pub closed: bool,
}

/// A note or rest with its own value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrittenSymbol {
    /// Moment of its start, from the start of the pass.
    pub at: Whole,
    /// How long it lasts, with the effect of triplets.
    pub length: Whole,
    /// The value that is drawn.
    pub value: Value,
    /// The number in the pass of the triplet it belongs to.
    pub triplet: Option<u32>,
    /// What it is.
    pub what: WrittenKind,
}

/// What a symbol is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WrittenKind {
    /// A note.
    Note(Note),
    /// Breathing in or out, or holding the breath.
    Air {
        /// Index in the pass; `None` for a held breath.
        note: Option<usize>,
        /// "in", "out" or "hold"; empty where it continues the symbol before.
        word: &'static str,
    },
    /// A rest; `true` for the rest of a whole bar.
    Rest(bool),
}

/// The head of a note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Note {
    /// Index of the note in the pass.
    pub index: usize,
    /// Which of its tied heads, from 0.
    pub head: usize,
    /// True if another head of it follows.
    pub tied_on: bool,
    /// Its pitch.
    pub pitch: WrittenPitch,
    /// Steps of the staff above the lowest line.
    pub step: i32,
    /// The accidental before it: from −2, two flats, to +2; 0 is a natural.
    pub accidental: Option<i8>,
}

impl WrittenSymbol {
    /// Moment of its end.
    pub fn end(&self) -> Whole {
        self.at + self.length
    }

    /// The note, if it is one.
    pub fn note(&self) -> Option<&Note> {
        match &self.what {
            WrittenKind::Note(note) => Some(note),
            _ => None,
        }
    }

    /// True for symbols with a note head.
    pub fn has_head(&self) -> bool {
        !matches!(self.what, WrittenKind::Rest(_))
    }
}

/// A part of an event, with the value that the teacher wrote.
struct Piece {
    event: usize,
    at: Whole,
    length: Whole,
    value: Value,
    triplet: Option<u32>,
}

/// Writes a pass of a line.
pub fn pass(line: &Line, pass: &Pass, index: usize, meter: Meter, clef: Clef) -> WrittenPass {
    let bar = meter.bar();
    let count = (pass.length / bar).ceil().to_integer();
    let mut bars: Vec<WrittenBar> = (0..count)
        .map(|n| WrittenBar {
            start: bar * Whole::from_integer(n),
            symbols: vec![],
            closed: true,
        })
        .collect();
    let mut heads = vec![0; line.melody.events.len()];
    let mut notes = vec![None; heads.len()];
    for (index, note) in pass.notes.iter().enumerate() {
        notes[note.event].get_or_insert(index);
    }
    for piece in pieces(line) {
        let kind = line.melody.events[piece.event].kind;
        // Rests outside triplets are made from the gaps between the notes.
        if kind == EventKind::Rest && piece.triplet.is_none() {
            continue;
        }
        for (at, length, value) in cut_at_bars(&piece, bar) {
            let head = heads[piece.event];
            heads[piece.event] += 1;
            let number = (at / bar).floor().to_integer() as usize;
            bars[number].symbols.push(WrittenSymbol {
                at,
                length,
                value,
                triplet: piece.triplet,
                what: what(pass, notes[piece.event], kind, head, clef),
            });
        }
    }
    for bar in &mut bars {
        fill(bar, meter);
    }
    let key = pass.key;
    let mut written = WrittenPass { index, key, bars };
    mark_ties(&mut written, &heads, pass);
    written
}

/// What a head of an event is; `note` is its note in the pass, if it has one.
fn what(pass: &Pass, note: Option<usize>, kind: EventKind, head: usize, clef: Clef) -> WrittenKind {
    let air = |word| WrittenKind::Air {
        note,
        word: if head == 0 { word } else { "" },
    };
    match kind {
        EventKind::Rest => WrittenKind::Rest(false),
        EventKind::In => air("in"),
        EventKind::Out => air("out"),
        EventKind::Hold => air("hold"),
        EventKind::Note(_) => {
            let index = note.expect("every note of a melody is played in every pass");
            let Played::Pitch { written, .. } = pass.notes[index].played else {
                unreachable!("a note of a melody is played as a pitch")
            };
            WrittenKind::Note(Note {
                index,
                head,
                tied_on: false,
                pitch: written,
                step: clef.step(written),
                accidental: None,
            })
        }
    }
}

/// The parts of every event, with the teacher's values and ties.
fn pieces(line: &Line) -> Vec<Piece> {
    let mut reading = Reading {
        pieces: vec![],
        now: Whole::zero(),
        events: 0,
        triplet: None,
        triplets: 0,
    };
    reading.items(&line.phrase);
    let pieces = reading.pieces;
    let events = &line.melody.events;
    if events.len() == reading.events {
        let mut lengths = vec![Whole::zero(); events.len()];
        for piece in &pieces {
            lengths[piece.event] += piece.length;
        }
        if events.iter().map(|event| event.length).eq(lengths) {
            return pieces;
        }
    }
    // The melody was changed after it was read: its lengths are valid, its written values are not.
    let mut pieces = vec![];
    for (index, event) in events.iter().enumerate() {
        let mut at = event.start;
        for value in value::notes(event.length) {
            let length = value.length();
            pieces.push(Piece {
                event: index,
                at,
                length,
                value,
                triplet: None,
            });
            at += length;
        }
    }
    pieces
}

struct Reading {
    pieces: Vec<Piece>,
    now: Whole,
    events: usize,
    triplet: Option<u32>,
    triplets: u32,
}

impl Reading {
    fn items(&mut self, phrase: &Phrase) {
        self.list(&phrase.items);
    }

    fn list(&mut self, items: &[Item]) {
        for item in items {
            match &item.kind {
                ItemKind::Note(note) => self.piece(note.value.into(), true),
                ItemKind::Rest(value)
                | ItemKind::In(value)
                | ItemKind::Out(value)
                | ItemKind::Hold(value) => self.piece((*value).into(), true),
                ItemKind::Tie(value) => self.piece((*value).into(), false),
                ItemKind::Slur(inside) => self.list(inside),
                ItemKind::Triplet(inside) => {
                    self.triplets += 1;
                    self.triplet = Some(self.triplets);
                    self.list(inside);
                    self.triplet = None;
                }
                ItemKind::Breath
                | ItemKind::Bar
                | ItemKind::Dynamic(_)
                | ItemKind::Cresc
                | ItemKind::Dim => {}
            }
        }
    }

    fn piece(&mut self, value: Value, begins: bool) {
        self.events += usize::from(begins);
        let length = value.length() * self.scale();
        if let Some(event) = self.events.checked_sub(1) {
            self.pieces.push(Piece {
                event,
                at: self.now,
                length,
                value,
                triplet: self.triplet,
            });
        }
        self.now += length;
    }

    fn scale(&self) -> Whole {
        match self.triplet {
            Some(_) => Whole::new(2, 3),
            None => Whole::from_integer(1),
        }
    }
}

/// A piece as it is drawn: whole, or in several parts where it crosses a bar line.
fn cut_at_bars(piece: &Piece, bar: Whole) -> Vec<(Whole, Whole, Value)> {
    let end = piece.at + piece.length;
    let bar_end = |at: Whole| ((at / bar).floor() + Whole::from_integer(1)) * bar;
    if bar_end(piece.at) >= end {
        return vec![(piece.at, piece.length, piece.value)];
    }
    let scale = if piece.triplet.is_some() {
        Whole::new(2, 3)
    } else {
        Whole::from_integer(1)
    };
    let mut cut = vec![];
    let mut at = piece.at;
    while at < end {
        let next = bar_end(at).min(end);
        for value in value::notes((next - at) / scale) {
            let length = value.length() * scale;
            cut.push((at, length, value));
            at += length;
        }
        at = next;
    }
    cut
}

/// Fills the gaps of a bar with rests.
fn fill(bar: &mut WrittenBar, meter: Meter) {
    let mut filled = Vec::with_capacity(bar.symbols.len());
    let mut now = bar.start;
    let end = bar.start + meter.bar();
    let silence = |from: Whole, to: Whole, filled: &mut Vec<WrittenSymbol>| {
        let mut at = from;
        for (length, value) in value::rests(from - bar.start, to - from, meter) {
            filled.push(WrittenSymbol {
                at,
                length,
                value,
                triplet: None,
                what: WrittenKind::Rest(length == meter.bar()),
            });
            at += length;
        }
    };
    for symbol in &bar.symbols {
        if symbol.at > now {
            silence(now, symbol.at, &mut filled);
        }
        now = symbol.end();
        filled.push(*symbol);
    }
    if now < end {
        silence(now, end, &mut filled);
    }
    bar.symbols = filled;
}

fn mark_ties(written: &mut WrittenPass, heads: &[usize], pass: &Pass) {
    for bar in &mut written.bars {
        for symbol in &mut bar.symbols {
            if let WrittenKind::Note(note) = &mut symbol.what {
                note.tied_on = note.head + 1 < heads[pass.notes[note.index].event];
            }
        }
    }
}
