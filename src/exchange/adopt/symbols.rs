//! Turns the symbols of a file into events of a tune, with ties joined and slurs resolved to the notes they
//! join.

use super::losses::Losses;
use super::tune::{Tune, TuneEvent, TuneEventKind};
use crate::brass::Tube;
use crate::exchange::piece::{ImportedPiece, MeasureSymbol, SymbolKind};
use crate::music::Whole;

/// State that is carried from symbol to symbol.
#[derive(Default)]
pub(super) struct Walker {
    /// True if the last notehead is tied to the next.
    tied: bool,
    /// Slurs that are open, by number.
    slurs: Vec<u8>,
    /// For each slur, in the order in which they begin, whether it ends.
    closed: Vec<bool>,
    /// How many have begun.
    begun: usize,
    /// True until the first note, if that is the end of one before these measures.
    carried: bool,
}

/// Whether the slurs of some measures, in the order in which they begin, end within them.
fn closed_slurs(piece: &ImportedPiece, measures: &[usize]) -> Vec<bool> {
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
    /// Processes the symbols of these measures in order; `carried` if a tie leads into them.
    pub fn of(piece: &ImportedPiece, measures: &[usize], carried: bool) -> Self {
        Self {
            carried,
            closed: closed_slurs(piece, measures),
            ..Self::default()
        }
    }

    /// Adds the next symbol to the tune.
    pub fn symbol(
        &mut self,
        symbol: &MeasureSymbol,
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
            TuneEventKind::Rest
        });
        let same = |before: &TuneEvent| match (before.kind, kind) {
            (TuneEventKind::Note(a), TuneEventKind::Note(b)) => a.number() == b.number(),
            (a, b) => a == b && a != TuneEventKind::Rest,
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
            let carried = std::mem::take(&mut self.carried);
            if symbol.tied_from && !carried && matches!(kind, TuneEventKind::Note(_)) {
                losses.lose(
                    Some(measure),
                    "a tie that comes from no such note is left out",
                );
            }
            let after_note = tune.events.last().is_some_and(|before| {
                let moves = match (before.pitch(), symbol.what) {
                    (Some(a), SymbolKind::Note(b)) => a.number() != b.number(),
                    _ => false,
                };
                moves && !before.breath
            });
            tune.events.push(TuneEvent {
                measure,
                kind,
                heads: vec![(at, length)],
                joined: slurred && after_note,
                style: symbol.style,
                attack: symbol.attack,
                bend: symbol.bend,
                breath: symbol.breath,
                tube: None,
            });
            if let Some(text) = &symbol.fingering {
                fingering(text, measure, tune, losses);
            }
        }
        self.slurs(symbol, measure, losses);
    }

    /// Closes and opens slurs.
    fn slurs(&mut self, symbol: &MeasureSymbol, measure: usize, losses: &mut Losses) {
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

/// The kind of a symbol; `before` is the event that it continues, if it does.
fn kind(symbol: &MeasureSymbol, before: Option<&TuneEvent>) -> Option<TuneEventKind> {
    match (symbol.what, symbol.syllable.as_deref()) {
        (SymbolKind::Note(pitch), _) => Some(TuneEventKind::Note(pitch)),
        (SymbolKind::Rest, _) => Some(TuneEventKind::Rest),
        (SymbolKind::Unpitched, Some("in")) => Some(TuneEventKind::In),
        (SymbolKind::Unpitched, Some("out")) => Some(TuneEventKind::Out),
        (SymbolKind::Unpitched, Some("hold")) => Some(TuneEventKind::Hold),
        (SymbolKind::Unpitched, _) => before.map(|before| before.kind),
    }
}

/// Parses valves in any spelling: `1-3`, `13`, `1 3`, `0`.
fn fingering(text: &str, measure: usize, tune: &mut Tune, losses: &mut Losses) {
    let digits: Vec<String> = text
        .chars()
        .filter(char::is_ascii_digit)
        .map(String::from)
        .collect();
    let plain = text
        .chars()
        .all(|c| c.is_ascii_digit() || " -–,/+".contains(c));
    let tube = Tube::parse(&digits.join("-"));
    match (tube, tune.events.last_mut()) {
        (Some(tube), Some(event)) if plain => event.tube = Some(tube),
        _ => losses.lose(Some(measure), "fingerings that are no valves are left out"),
    }
}
