//! The measures in the order in which they are played, each with its meter and tempo.

use super::losses::Losses;
use super::repeats;
use crate::exchange::piece::{
    ImportedPiece, MOST_SIGNS, MarkKind, Measure, MeterSign, SymbolKind, too_many_signs,
};
use crate::music::{Decimal, Meter, Whole};
use crate::problem::Problem;
use num_rational::Ratio;
use num_traits::ToPrimitive;

/// A measure as it is played.
#[derive(Clone, Debug)]
pub(super) struct PlayedMeasure {
    /// Index of the measure in the piece.
    pub measure: usize,
    /// Meter, and the written one if routines do not support it.
    pub meter: Timing,
    /// Quarters per minute, if the file says.
    pub tempo: Option<Ratio<i128>>,
    /// True if it contains only rests.
    pub silent: bool,
    /// True if a repeat or a jump has come back to it, or continues from it.
    pub after_repeat: bool,
    /// True if a repeat has just come back to it.
    pub again: bool,
}

/// How the bars of a line are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Timing {
    /// In this meter.
    In(Meter),
    /// In an unsupported meter: so many of a value.
    Odd(u32, u32),
    /// Without a meter.
    Free,
}

impl Timing {
    fn of(sign: MeterSign) -> Self {
        match sign {
            MeterSign::Free => Timing::Free,
            MeterSign::Of(beats, unit) => {
                let (beats, unit) = match unit {
                    // Whole notes are two halves each; an even number of sixteenths is written in eighths.
                    1 => (beats.saturating_mul(2), 2),
                    16 if beats.is_multiple_of(2) => (beats / 2, 8),
                    unit => (beats, unit),
                };
                match Meter::parse(&format!("{beats}/{unit}")) {
                    Some(meter) => Timing::In(meter),
                    None => Timing::Odd(beats, unit),
                }
            }
        }
    }

    /// The meter for a line in it.
    pub(super) fn meter(self) -> Meter {
        let four = || Meter::parse("4/4").expect("it is a meter");
        match self {
            Timing::In(meter) => meter,
            Timing::Odd(_, 8 | 16) => Meter::parse("4/8").unwrap_or_else(four),
            Timing::Odd(..) | Timing::Free => four(),
        }
    }
}

/// Lays out a piece in playing order.
pub(super) fn of(
    piece: &ImportedPiece,
    losses: &mut Losses,
) -> Result<Vec<PlayedMeasure>, Problem> {
    let mut lost = vec![];
    let order = repeats::written_out(&piece.measures, &mut lost)?;
    let weights: Vec<usize> = piece.measures.iter().map(weight).collect();
    if order.iter().map(|measure| weights[*measure]).sum::<usize>() > MOST_SIGNS {
        return Err(too_many_signs());
    }
    losses.take(lost);
    let mut meter = Timing::of(MeterSign::Of(4, 4));
    let mut tempo = None;
    // A tempo inside a bar applies from the next bar.
    let mut later = None;
    let said: Vec<(Timing, Option<Ratio<i128>>, bool)> = piece
        .measures
        .iter()
        .enumerate()
        .map(|(index, measure)| {
            if let Some(sign) = measure.meter {
                meter = Timing::of(sign);
            }
            tempo = later.take().or(tempo);
            let first_note = measure.symbols.iter().find(|s| s.what != SymbolKind::Rest);
            let first_note = first_note.map_or(Whole::default(), |s| s.at);
            for mark in &measure.marks {
                let MarkKind::Tempo(quarters) = mark.kind else {
                    continue;
                };
                if mark.at <= first_note {
                    tempo = Some(quarters);
                    later = None;
                } else {
                    if Some(quarters) != tempo && later.is_none() {
                        let what = "a change of tempo inside a bar counts from the next one";
                        losses.lose(Some(index), what);
                    }
                    later = Some(quarters);
                }
            }
            let silent = measure.symbols.iter().all(|s| s.what == SymbolKind::Rest);
            (meter, tempo, silent)
        })
        .collect();
    let mut course: Vec<PlayedMeasure> = vec![];
    for (place, measure) in order.iter().enumerate() {
        let (meter, tempo, silent) = said[*measure];
        let goes_back = place > 0 && order[place - 1] + 1 != *measure;
        let repeat = &piece.measures[*measure].repeat;
        // A repeat that ends or begins starts a new section.
        let over = place > 0 && {
            let before = &piece.measures[order[place - 1]].repeat;
            let ended = before.times.is_some() || before.ending_over;
            (ended && !goes_back) || (repeat.begins && order[place - 1] < *measure)
        };
        let again = place > 0 && {
            let before = order[place - 1];
            piece.measures[before].repeat.times.is_some() && *measure <= before
        };
        course.push(PlayedMeasure {
            measure: *measure,
            meter,
            tempo,
            silent,
            after_repeat: over,
            again,
        });
    }
    Ok(course)
}

/// How much there is to write of a measure: its signs, its words, and ties through its length.
fn weight(measure: &Measure) -> usize {
    let words = measure.marks.iter().map(|mark| match &mark.kind {
        MarkKind::Name(text) | MarkKind::Words(text) => 1 + text.len() / 16,
        _ => 1,
    });
    let length = usize::try_from(measure.length.to_integer()).unwrap_or(0);
    measure.symbols.len() + words.sum::<usize>() + length / 4
}

/// Clicks per minute of a tempo in a meter, to three decimals.
pub(super) fn clicks(quarters: Ratio<i128>, meter: Meter) -> Decimal {
    let click = meter.click();
    let quarters_a_click = Ratio::new(4 * i128::from(*click.numer()), i128::from(*click.denom()));
    let thousandths = (quarters / quarters_a_click * Ratio::from_integer(1000)).round();
    let thousandths = thousandths.to_integer().clamp(0, 999_999_999);
    let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
    Decimal::parse(&text).unwrap_or(Decimal::from_integer(0))
}

/// Seconds of a length at so many quarters per minute.
pub(super) fn seconds(length: Whole, quarters: Ratio<i128>) -> f64 {
    let wholes = length.to_f64().unwrap_or(0.0);
    wholes * 240.0 / quarters.to_f64().unwrap_or(72.0)
}
