//! A section as one tune: notes with their ties joined, slurs as what they join, bar lines where they add up.

use super::course::{Played, Timing};
use super::losses::Losses;
use crate::brass::Valves;
use crate::exchange::piece::{Mark, MarkKind, Piece, Symbol, What, words};
use crate::music::{Dynamic, Whole, WrittenPitch};
use crate::routine::{Attack, Style};
use num_traits::Zero;

/// A note, rest or breath of a tune.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Event {
    /// Index of the measure it begins in, to tell where something is lost.
    pub measure: usize,
    /// What it is.
    pub kind: Kind,
    /// Its heads: moment and length of each; the later ones are tied.
    pub heads: Vec<(Whole, Whole)>,
    /// A slur joins it to the note before.
    pub joined: bool,
    pub style: Option<Style>,
    pub attack: Attack,
    pub bend: bool,
    pub breath: bool,
    /// Its fingering, where the file has one that sounds it.
    pub valves: Option<Valves>,
}

/// What an event is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    Note(WrittenPitch),
    Rest,
    In,
    Out,
    Hold,
}

impl Event {
    pub(super) fn start(&self) -> Whole {
        self.heads[0].0
    }

    pub(super) fn end(&self) -> Whole {
        let (at, length) = self.heads[self.heads.len() - 1];
        at + length
    }

    pub(super) fn pitch(&self) -> Option<WrittenPitch> {
        match self.kind {
            Kind::Note(pitch) => Some(pitch),
            _ => None,
        }
    }

    pub(super) fn is_rest(&self) -> bool {
        self.kind == Kind::Rest
    }
}

/// A change of loudness as the file has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Change {
    pub at: Whole,
    /// Index of the measure it stands in.
    pub measure: usize,
    /// Index of the bar it stands in.
    pub bar: usize,
    pub kind: ChangeKind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum ChangeKind {
    Dynamic(Dynamic),
    Wedge(bool),
    WedgeOver,
}

/// A bar of a tune.
#[derive(Clone, Debug)]
pub(super) struct Bar {
    pub start: Whole,
    pub length: Whole,
    /// True if nobody plays in it.
    pub silent: bool,
    /// What is said over it, if that is about rests.
    pub rest: Option<String>,
}

/// A section's music.
#[derive(Clone, Debug, Default)]
pub(super) struct Tune {
    pub events: Vec<Event>,
    pub changes: Vec<Change>,
    pub bars: Vec<Bar>,
    /// True if all bars are full, but the last may be short; then bar lines can be written.
    pub regular: bool,
    /// True if some of its bars were several in the file.
    pub joined_bars: bool,
    /// What stands over its beginning.
    pub heading: Vec<String>,
    /// What stands over later bars: measure and words.
    pub words: Vec<(usize, String)>,
    /// True if bars of rest that are not part of the notes have a word over them.
    pub rests_marked: bool,
    /// Leadpipe's own words.
    pub mouthpiece: bool,
    pub echo: bool,
    pub goes_on: bool,
    /// A rest after it as words have it.
    pub rest: Option<String>,
    /// Bars of rest at its end, as places in the course.
    pub rest_bars: usize,
    /// Bars of rest before its first note.
    pub lead_bars: usize,
}

/// Makes a tune of the measures at `places`; `meter` is how they are counted.
pub(super) fn of(piece: &Piece, places: &[Played], meter: Timing, losses: &mut Losses) -> Tune {
    let mut fields = piece.fields.iter();
    let mut tune = Tune {
        rests_marked: fields.any(|(name, _)| name == words::COMFORTABLE_TOP),
        ..Tune::default()
    };
    let mut places = places;
    // Rests before the first note belong to the rest before.
    while let [first, rest @ ..] = places
        && first.silent
        && rest.iter().any(|p| !p.silent)
    {
        head_words(piece, first.measure, &mut tune);
        tune.lead_bars += 1;
        places = rest;
    }
    let measures = without_turns(piece, places, &mut tune);
    let bar = match meter {
        Timing::In(meter) => Some(meter.bar()),
        _ => None,
    };
    let lengths: Vec<Whole> = measures.iter().map(|m| length(piece, *m, bar)).collect();
    let pickup = bar.and_then(|bar| pickup(&lengths, bar));
    let mut now = pickup.unwrap_or_default();
    if let Some(silence) = pickup {
        tune.events.push(rest(measures[0], Whole::zero(), silence));
    }
    let mut walker = Walker {
        closed: closed_slurs(piece, &measures),
        ..Walker::default()
    };
    for (index, (measure, length)) in measures.iter().zip(&lengths).enumerate() {
        let start = if index == 0 { Whole::zero() } else { now };
        let of = &piece.measures[*measure];
        let words = own_rest(&of.marks);
        if index == 0 {
            head_words(piece, *measure, &mut tune);
        }
        if of.symbols.is_empty() {
            tune.events.push(rest(*measure, now, *length));
        }
        for symbol in &of.symbols {
            let silent = of.symbols.len() == 1 && symbol.what == What::Rest;
            let length = if silent { *length } else { symbol.length };
            walker.symbol(symbol, now + symbol.at, length, *measure, &mut tune, losses);
        }
        marks(&of.marks, now, *measure, index, &mut tune);
        let silent = of.symbols.iter().all(|s| s.what == What::Rest);
        tune.bars.push(Bar {
            start,
            length: now + *length - start,
            silent,
            rest: words,
        });
        now += *length;
    }
    if let Some(bar) = bar {
        join_short_bars(&mut tune.bars, bar);
        tune.joined_bars = tune.bars.len() < measures.len();
    }
    tune.regular = bar.is_some_and(|bar| {
        let (last, others) = tune.bars.split_last().expect("a section has bars");
        others.iter().all(|b| b.length == bar) && last.length <= bar
    });
    if !tune.regular && tune.bars.len() > 1 && bar.is_some() {
        let uneven = tune.bars.len();
        let first = measures.first().copied();
        let what =
            format!("not all of its {uneven} bars are full: they are written without bar lines");
        losses.lose(first, what);
    }
    match meter {
        Timing::Odd(beats, unit) => losses.lose(
            measures.first().copied(),
            format!("a meter of {beats}/{unit} is not known here: it is written without bar lines"),
        ),
        Timing::Free => losses.lose(
            measures.first().copied(),
            "it has no meter: it is written without bar lines",
        ),
        Timing::In(_) => {}
    }
    strip_rest(&mut tune);
    tune
}

/// How long a measure is; a bar in which one rests is a bar, whatever its sign.
fn length(piece: &Piece, measure: usize, bar: Option<Whole>) -> Whole {
    let of = &piece.measures[measure];
    match (bar, of.symbols.as_slice()) {
        (Some(bar), [one]) if one.what == What::Rest => bar,
        (Some(bar), []) => bar,
        _ => of.length,
    }
}

/// The silence that fills the bar before a pickup.
fn pickup(lengths: &[Whole], bar: Whole) -> Option<Whole> {
    match lengths {
        [first, second, ..] if *first < bar && !first.is_zero() && *first + *second != bar => {
            Some(bar - *first)
        }
        [first, second] if *first < bar && *first + *second == bar => Some(bar - *first),
        _ => None,
    }
}

/// Parts of a bar that a repeat or a double bar has cut are one bar again.
fn join_short_bars(bars: &mut Vec<Bar>, full: Whole) {
    let mut joined: Vec<Bar> = vec![];
    for bar in bars.drain(..) {
        match joined.last_mut() {
            Some(before) if before.length < full && before.length + bar.length <= full => {
                before.length += bar.length;
                before.silent &= bar.silent;
                before.rest = before.rest.take().or(bar.rest);
            }
            _ => joined.push(bar),
        }
    }
    *bars = joined;
}

fn rest(measure: usize, at: Whole, length: Whole) -> Event {
    Event {
        measure,
        kind: Kind::Rest,
        heads: vec![(at, length)],
        joined: false,
        style: None,
        attack: Attack::Tongue,
        bend: false,
        breath: false,
        valves: None,
    }
}

/// The measures, without those in which the pupil answers.
fn without_turns(piece: &Piece, places: &[Played], tune: &mut Tune) -> Vec<usize> {
    let mut kept = vec![];
    let mut in_turn = false;
    for played in places {
        let marks = &piece.measures[played.measure].marks;
        let turn = marks.iter().any(|m| is_words(m, words::TURN));
        let other = !played.silent || own_rest(marks).is_some();
        in_turn = played.silent && (turn || (in_turn && !other));
        tune.echo |= in_turn;
        if !in_turn {
            kept.push(played.measure);
            continue;
        }
        for mark in marks {
            if let MarkKind::Words(text) = &mark.kind {
                known(text, tune);
            }
        }
    }
    kept
}

fn is_words(mark: &Mark, text: &str) -> bool {
    matches!(&mark.kind, MarkKind::Words(words) if words == text)
}

/// Words about a rest over a measure: "rest", "rest 8 beats".
fn own_rest(marks: &[Mark]) -> Option<String> {
    marks.iter().find_map(|mark| match &mark.kind {
        MarkKind::Words(text) => {
            let after = text.strip_prefix(words::REST)?;
            (after.is_empty() || after.starts_with(' ')).then(|| after.trim().to_owned())
        }
        _ => None,
    })
}

/// Words over the first note, or over the rests before it.
fn head_words(piece: &Piece, measure: usize, tune: &mut Tune) {
    for mark in &piece.measures[measure].marks {
        if let MarkKind::Words(text) = &mark.kind
            && mark.at.is_zero()
            && !known(text, tune)
        {
            tune.heading.push(text.clone());
        }
    }
}

/// Leadpipe's own words are understood.
fn known(text: &str, tune: &mut Tune) -> bool {
    match text {
        words::MOUTHPIECE => tune.mouthpiece = true,
        words::ECHO => tune.echo = true,
        words::GO_ON => tune.goes_on = true,
        words::TURN => {}
        text => {
            let after = text.strip_prefix(words::REST);
            return after.is_some_and(|after| after.is_empty() || after.starts_with(' '));
        }
    }
    true
}

fn marks(marks: &[Mark], start: Whole, measure: usize, bar: usize, tune: &mut Tune) {
    for mark in marks {
        let kind = match &mark.kind {
            MarkKind::Dynamic(dynamic) => ChangeKind::Dynamic(*dynamic),
            MarkKind::Wedge(louder) => ChangeKind::Wedge(*louder),
            MarkKind::WedgeOver => ChangeKind::WedgeOver,
            MarkKind::Words(text) => {
                let in_heading = bar == 0 && mark.at.is_zero();
                if !in_heading && !known(text, tune) {
                    tune.words.push((measure, text.clone()));
                }
                continue;
            }
            MarkKind::Name(_) | MarkKind::Tempo(_) => continue,
        };
        let at = start + mark.at;
        tune.changes.push(Change {
            at,
            measure,
            bar,
            kind,
        });
    }
}

/// What goes on from symbol to symbol.
#[derive(Default)]
struct Walker {
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
    fn symbol(
        &mut self,
        symbol: &Symbol,
        at: Whole,
        length: Whole,
        measure: usize,
        tune: &mut Tune,
        losses: &mut Losses,
    ) {
        let kind = match (symbol.what, symbol.syllable.as_deref()) {
            (What::Note(pitch), _) => Kind::Note(pitch),
            (What::Rest, _) => Kind::Rest,
            (What::Unpitched, Some("in")) => Kind::In,
            (What::Unpitched, Some("out")) => Kind::Out,
            (What::Unpitched, Some("hold")) => Kind::Hold,
            (What::Unpitched, _) => match tune.events.last() {
                Some(before) if symbol.tied_from && self.tied => before.kind,
                _ => {
                    losses.lose(Some(measure), "notes without a pitch are rests");
                    Kind::Rest
                }
            },
        };
        let goes_on = symbol.tied_from && self.tied;
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

/// Takes the rest after the line off its end.
fn strip_rest(tune: &mut Tune) {
    let silent = tune.bars.iter().rev().take_while(|b| b.silent).count();
    let from = tune.bars.len() - silent;
    tune.rests_marked |= tune.bars.iter().any(|b| b.rest.is_some());
    let from = match tune.bars[from..].iter().position(|b| b.rest.is_some()) {
        Some(place) => from + place,
        // Where rests are marked, those that are not belong to the notes.
        None if tune.rests_marked => return,
        None => from,
    };
    let Some(first) = tune.bars.get(from) else {
        return;
    };
    if from == 0 {
        return;
    }
    let start = first.start;
    tune.rest = first.rest.clone().filter(|words| !words.is_empty());
    tune.rest_bars = tune.bars.len() - from;
    tune.bars.truncate(from);
    tune.events.retain(|e| e.start() < start);
    let joined = tune.joined_bars;
    tune.changes.retain(|c| {
        // What a wedge leads to may stand at the rest after it.
        let ends = joined || c.bar < from || matches!(c.kind, ChangeKind::Dynamic(_));
        c.at < start || (c.at == start && ends)
    });
}
