//! Symbols of a file, one after another, become events of a tune: ties joined, slurs as what they join.

use super::losses::Losses;
use super::tune::{Event, Kind, Tune};
use crate::brass::Valves;
use crate::exchange::piece::{Piece, Symbol, What};
use crate::music::Whole;

/// What goes on from symbol to symbol.
#[derive(Default)]
pub(super) struct Walker {
    /// True if the last head is tied on.
    tied: bool,
    /// Slurs that are open, by number.
    slurs: Vec<u8>,
    /// For each slur in the order in which they begin, whether it ends.
    closed: Vec<bool>,
    /// How many have begun.
    begun: usize,
}

/// Whether the slurs of some measures, in the order in which they begin, come to an end there.
fn closed_slurs(piece: &Piece, measures: &[usize]) -> Vec<bool> {
    let mut closed: Vec<bool> = vec![];
    let mut open: Vec<(u8, usize)> = vec![];
    let symbols = measures.iter().flat_map(|m| &piece.measures[*m].symbols);
    for symbol in symbols {
        for number in &symbol.slurs_end {
            if let Some(place) = open.iter().rposition(|(n, _)| n == number) {
                closed[open.remove(place).1] = true;
            }
        }
        for number in &symbol.slurs_begin {
            open.retain(|(n, _)| n != number);
            open.push((*number, closed.len()));
            closed.push(false);
        }
    }
    closed
}

impl Walker {
    /// Goes through the symbols of these measures, one after another.
    pub fn of(piece: &Piece, measures: &[usize]) -> Self {
        Self {
            closed: closed_slurs(piece, measures),
            ..Self::default()
        }
    }

    /// Takes the next symbol into the tune.
    pub fn symbol(
        &mut self,
        symbol: &Symbol,
        at: Whole,
        length: Whole,
        measure: usize,
        tune: &mut Tune,
        losses: &mut Losses,
    ) {
        let goes_on = symbol.tied_from && self.tied;
        let before = tune.events.last().filter(|_| goes_on);
        let kind = kind(symbol, before).unwrap_or_else(|| {
            losses.lose(Some(measure), "notes without a pitch are rests");
            Kind::Rest
        });
        let same = |before: &Event| match (before.kind, kind) {
            (Kind::Note(a), Kind::Note(b)) => a.number() == b.number(),
            (a, b) => a == b && a != Kind::Rest,
        };
        let slurred = !self.slurs.is_empty();
        self.tied = symbol.tied_on;
        if let Some(before) = tune.events.last_mut()
            && goes_on
            && same(before)
            && before.end() == at
            && !before.breath
        {
            before.heads.push((at, length));
            before.breath |= symbol.breath;
        } else {
            if symbol.tied_from && matches!(kind, Kind::Note(_)) {
                losses.lose(
                    Some(measure),
                    "a tie that comes from no such note is left out",
                );
            }
            let after_note = tune.events.last().is_some_and(|before| {
                let moves = match (before.pitch(), symbol.what) {
                    (Some(a), What::Note(b)) => a.number() != b.number(),
                    _ => false,
                };
                moves && !before.breath
            });
            tune.events.push(Event {
                measure,
                kind,
                heads: vec![(at, length)],
                joined: slurred && after_note,
                style: symbol.style,
                attack: symbol.attack,
                bend: symbol.bend,
                breath: symbol.breath,
                valves: None,
            });
            if let Some(text) = &symbol.fingering {
                fingering(text, measure, tune, losses);
            }
        }
        self.slurs(symbol, measure, losses);
    }

    /// Closes and opens slurs.
    fn slurs(&mut self, symbol: &Symbol, measure: usize, losses: &mut Losses) {
        for number in &symbol.slurs_end {
            if let Some(place) = self.slurs.iter().rposition(|n| n == number) {
                self.slurs.remove(place);
            }
        }
        for number in &symbol.slurs_begin {
            let closed = self.closed.get(self.begun) == Some(&true);
            self.begun += 1;
            if !closed {
                losses.lose(
                    Some(measure),
                    "a slur that does not end in its line is left out",
                );
            } else if !self.slurs.contains(number) {
                self.slurs.push(*number);
            }
        }
    }
}

/// What a symbol is; `before` is the event that it goes on from, if it does.
fn kind(symbol: &Symbol, before: Option<&Event>) -> Option<Kind> {
    match (symbol.what, symbol.syllable.as_deref()) {
        (What::Note(pitch), _) => Some(Kind::Note(pitch)),
        (What::Rest, _) => Some(Kind::Rest),
        (What::Unpitched, Some("in")) => Some(Kind::In),
        (What::Unpitched, Some("out")) => Some(Kind::Out),
        (What::Unpitched, Some("hold")) => Some(Kind::Hold),
        (What::Unpitched, _) => before.map(|before| before.kind),
    }
}

/// `1-3`, `13`, `1 3`, `0`: valves, whichever way they are written.
fn fingering(text: &str, measure: usize, tune: &mut Tune, losses: &mut Losses) {
    let digits: Vec<String> = text
        .chars()
        .filter(char::is_ascii_digit)
        .map(String::from)
        .collect();
    let plain = text
        .chars()
        .all(|c| c.is_ascii_digit() || " -–,/+".contains(c));
    let valves = Valves::parse(&digits.join("-"));
    match (valves, tune.events.last_mut()) {
        (Some(valves), Some(event)) if plain => event.valves = Some(valves),
        _ => losses.lose(Some(measure), "fingerings that are no valves are left out"),
    }
}
