//! Turns the measures of a section into a tune.

use super::course::{PlayedMeasure, Timing};
use super::losses::Losses;
use super::symbols::Walker;
use super::tune::{ChangeKind, Tune, TuneBar, TuneChange, TuneEvent, TuneEventKind};
use crate::exchange::piece::{ImportedPiece, MarkKind, Measure, MeasureMark, SymbolKind, words};
use crate::music::Whole;
use crate::routine::Attack;
use crate::routine::line_reader::measured;
use num_traits::Zero;

/// Makes a tune of the measures at `places`, counted in `meter`; `tied` if a tie leads into them.
pub(super) fn of(
    piece: &ImportedPiece,
    places: &[PlayedMeasure],
    meter: Timing,
    tied: bool,
    losses: &mut Losses,
) -> Tune {
    let mut fields = piece.fields.iter();
    let mut tune = Tune {
        rests_marked: fields.any(|(name, _)| name == words::COMFORTABLE_TOP),
        ..Tune::default()
    };
    // Rests before the first note belong to the previous rest.
    let leading = places.iter().position(|p| !p.silent).unwrap_or(0);
    let (rests, places) = places.split_at(leading);
    for played in rests {
        head_words(piece, played.measure, &mut tune);
    }
    tune.lead_bars = leading;
    let measures = without_turns(piece, places, &mut tune);
    let bar = match meter {
        Timing::In(meter) => Some(meter.bar()),
        _ => None,
    };
    let lengths: Vec<Whole> = measures.iter().map(|m| length(piece, *m, bar)).collect();
    let pickup = bar.and_then(|bar| pickup(&lengths, bar));
    if let Some(silence) = pickup {
        tune.events.push(rest(measures[0], Whole::zero(), silence));
    }
    let now = pickup.unwrap_or_default();
    let walker = Walker::of(piece, &measures, tied);
    read(piece, walker, (&measures, &lengths), now, &mut tune, losses);
    if let Some(bar) = bar {
        join_short_bars(&mut tune.bars, bar);
        tune.joined_bars = tune.bars.len() < measures.len();
    }
    tune.regular = bar.is_some_and(|bar| {
        let (last, others) = tune.bars.split_last().expect("a section has bars");
        others.iter().all(|b| b.length == bar) && last.length <= bar
    });
    let first = measures.first().copied();
    if !tune.regular && tune.bars.len() > 1 && bar.is_some() {
        let uneven = tune.bars.len();
        let what =
            format!("not all of its {uneven} bars are full: they are written without bar lines");
        losses.lose(first, what);
    }
    match meter {
        Timing::Odd(beats, unit) => losses.lose(
            first,
            format!("a meter of {beats}/{unit} is not known here: it is written without bar lines"),
        ),
        Timing::Free => losses.lose(first, "it has no meter: it is written without bar lines"),
        Timing::In(_) => {}
    }
    strip_rest(&mut tune);
    tune
}

/// Reads the measures, with their lengths, into a tune; the first begins at `now`.
fn read(
    piece: &ImportedPiece,
    mut walker: Walker,
    (measures, lengths): (&[usize], &[Whole]),
    mut now: Whole,
    tune: &mut Tune,
    losses: &mut Losses,
) {
    for (index, (measure, length)) in measures.iter().zip(lengths).enumerate() {
        let start = if index == 0 { Whole::zero() } else { now };
        let of = &piece.measures[*measure];
        let words = own_rest(of);
        if index == 0 {
            head_words(piece, *measure, tune);
        }
        if of.symbols.is_empty() {
            tune.events.push(rest(*measure, now, *length));
        }
        for symbol in &of.symbols {
            let silent = of.symbols.len() == 1 && symbol.what == SymbolKind::Rest;
            let length = if silent { *length } else { symbol.length };
            walker.symbol(symbol, now + symbol.at, length, *measure, tune, losses);
        }
        marks(of, now, *measure, index, tune);
        let silent = is_silent(of);
        tune.bars.push(TuneBar {
            start,
            length: now + *length - start,
            silent,
            rest: words,
        });
        now += *length;
    }
}

/// The length of a measure; one that holds nothing is a full bar.
fn length(piece: &ImportedPiece, measure: usize, bar: Option<Whole>) -> Whole {
    let of = &piece.measures[measure];
    match bar {
        Some(bar) if of.symbols.is_empty() && of.length.is_zero() => bar,
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

/// Joins parts of a bar that a repeat or a double bar has split.
fn join_short_bars(bars: &mut Vec<TuneBar>, full: Whole) {
    let mut joined: Vec<TuneBar> = vec![];
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

fn rest(measure: usize, at: Whole, length: Whole) -> TuneEvent {
    TuneEvent {
        measure,
        kind: TuneEventKind::Rest,
        heads: vec![(at, length)],
        joined: false,
        style: None,
        attack: Attack::Tongue,
        bend: false,
        breath: false,
        tube: None,
    }
}

/// The measures, without those in which the pupil answers.
fn without_turns(piece: &ImportedPiece, places: &[PlayedMeasure], tune: &mut Tune) -> Vec<usize> {
    let mut kept = vec![];
    let mut in_turn = false;
    for played in places {
        let marks = &piece.measures[played.measure].marks;
        let turn = marks.iter().any(|m| is_words(m, words::TURN));
        let other = !played.silent || own_rest(&piece.measures[played.measure]).is_some();
        in_turn = played.silent && (turn || (in_turn && !other));
        tune.echo |= in_turn;
        if !in_turn {
            kept.push(played.measure);
            continue;
        }
        for mark in marks {
            if let MarkKind::Words(text) = &mark.kind {
                known(text, true, tune);
            }
        }
    }
    kept
}

fn is_words(mark: &MeasureMark, text: &str) -> bool {
    matches!(&mark.kind, MarkKind::Words(words) if words == text)
}

/// A text about a rest over a measure of rest: "rest", "rest 8 beats".
fn own_rest(measure: &Measure) -> Option<String> {
    if !is_silent(measure) {
        return None;
    }
    measure.marks.iter().find_map(|mark| match &mark.kind {
        MarkKind::Words(text) => rest_in_words(text),
        _ => None,
    })
}

/// The length that a text about a rest says; "rest in the left hand" says none.
fn rest_in_words(text: &str) -> Option<String> {
    let after = text.strip_prefix(words::REST)?;
    let said = after.starts_with(' ') && measured(after.trim()).is_some();
    (after.is_empty() || said).then(|| after.trim().to_owned())
}

fn is_silent(measure: &Measure) -> bool {
    measure.symbols.iter().all(|s| s.what == SymbolKind::Rest)
}

/// Text over the first note, or over the rests before it.
fn head_words(piece: &ImportedPiece, measure: usize, tune: &mut Tune) {
    let of = &piece.measures[measure];
    for mark in &of.marks {
        if let MarkKind::Words(text) = &mark.kind
            && mark.at.is_zero()
            && !known(text, is_silent(of), tune)
        {
            tune.heading.push(text.clone());
        }
    }
}

/// Interprets leadpipe's own words; those about silence stand over a silent bar.
fn known(text: &str, silent: bool, tune: &mut Tune) -> bool {
    match text {
        words::MOUTHPIECE => tune.mouthpiece = true,
        words::ECHO => tune.echo = true,
        words::GO_ON => tune.goes_on = true,
        words::TURN => return silent,
        text => return silent && rest_in_words(text).is_some(),
    }
    true
}

fn marks(of: &Measure, start: Whole, measure: usize, bar: usize, tune: &mut Tune) {
    for mark in &of.marks {
        let kind = match &mark.kind {
            MarkKind::Dynamic(dynamic) => ChangeKind::Dynamic(*dynamic),
            MarkKind::Wedge(louder) => ChangeKind::Wedge(*louder),
            MarkKind::WedgeOver => ChangeKind::WedgeOver,
            MarkKind::Words(text) => {
                let in_heading = bar == 0 && mark.at.is_zero();
                if !in_heading && !known(text, is_silent(of), tune) {
                    tune.words.push((measure, text.clone()));
                }
                continue;
            }
            MarkKind::Name(_) | MarkKind::Tempo(_) => continue,
        };
        let at = start + mark.at;
        tune.changes.push(TuneChange {
            at,
            measure,
            bar,
            kind,
        });
    }
}

/// Removes the rest after the line from its end.
fn strip_rest(tune: &mut Tune) {
    let silent = tune.bars.iter().rev().take_while(|b| b.silent).count();
    let from = tune.bars.len() - silent;
    tune.rests_marked |= tune.bars.iter().any(|b| b.rest.is_some());
    let from = match tune.bars[from..].iter().position(|b| b.rest.is_some()) {
        Some(place) => from + place,
        // If rests are marked, unmarked ones belong to the notes.
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
        // The dynamic that a wedge leads to may be under the rest after it.
        let ends = joined || c.bar < from || matches!(c.kind, ChangeKind::Dynamic(_));
        c.at < start || (c.at == start && ends)
    });
}
