//! Bars of a tune as they are filled.

use super::bars::Line;
use super::signs::Jump;
use crate::exchange::piece::{
    KeySign, Loss, MarkKind, Measure, MeasureMark, MeasureSymbol, MeterSign, SymbolKind, on_grid,
};
use crate::music::Whole;
use crate::problem::Problem;
use num_traits::Zero;
use std::borrow::Cow;

/// The most bars.
const MOST_MEASURES: usize = 20_000;

/// The bars that are full, and the one that is being filled.
#[derive(Default)]
pub(super) struct Measures {
    full: Vec<Measure>,
    measure: Measure,
    now: Whole,
    /// How long a full bar is, if there is a meter.
    bar: Option<Whole>,
    /// A key that counts from the next bar on.
    next_key: Option<KeySign>,
    /// The number of the last bar.
    number: usize,
    in_ending: bool,
    /// True if a sign has begun a repeat that has not ended.
    open: bool,
    /// How many signs there are.
    pub signs: usize,
    /// What is lost in which bar: each once.
    told: Option<(usize, Vec<&'static str>)>,
}

impl Measures {
    /// Reports a loss in the bar that is being filled.
    pub fn lose(&mut self, what: &'static str, losses: &mut Vec<Loss>) {
        let index = self.full.len();
        let (of, told) = self.told.get_or_insert_with(|| (index, vec![]));
        if *of != index {
            (*of, *told) = (index, vec![]);
        }
        if !told.contains(&what) {
            told.push(what);
            losses.push(Loss {
                measure: Some(index),
                what: Cow::Borrowed(what),
            });
        }
    }

    /// A meter from the next bar on, which is this one if nothing is in it.
    pub fn set_meter(&mut self, meter: MeterSign) {
        if !self.measure.symbols.is_empty() {
            self.end_bar(&Line::default());
        }
        self.measure.meter = Some(meter);
        self.bar = match meter {
            MeterSign::Of(beats, unit) => on_grid(i128::from(beats), i128::from(unit)),
            MeterSign::Free => None,
        };
    }

    /// A key from here on; in a bar that has begun it counts from the next one.
    pub fn set_key(&mut self, key: KeySign) {
        match self.measure.symbols.is_empty() {
            true => self.measure.key = Some(key),
            false => self.next_key = Some(key),
        }
    }

    pub fn mark(&mut self, kind: MarkKind) {
        self.signs += 1;
        self.measure.marks.push(MeasureMark { at: self.now, kind });
    }

    pub fn jump(&mut self, jump: Jump) {
        let late = !self.now.is_zero();
        // What stands right after a bar line closes the bar before it.
        let closes = matches!(
            jump,
            Jump::DaCapo | Jump::DalSegno | Jump::ToCoda | Jump::Fine
        );
        let measure = match self.full.last_mut() {
            Some(last) if closes && !late => last,
            _ => &mut self.measure,
        };
        let repeat = &mut measure.repeat;
        match jump {
            Jump::DaCapo => repeat.da_capo = true,
            Jump::DalSegno => repeat.dal_segno = true,
            Jump::Segno => repeat.segno = true,
            Jump::ToCoda => repeat.to_coda = true,
            Jump::Fine => repeat.fine = true,
            Jump::Coda => {
                repeat.coda = true;
                repeat.coda_late = late;
            }
        }
    }

    /// The last note or rest.
    pub fn last(&self) -> Option<&MeasureSymbol> {
        let of_full = || self.full.last().and_then(|measure| measure.symbols.last());
        self.measure.symbols.last().or_else(of_full)
    }

    /// Changes the last note, if there is one.
    pub fn at_last(&mut self, change: impl FnOnce(&mut MeasureSymbol)) {
        let measure = match self.measure.symbols.is_empty() {
            true => self.full.last_mut(),
            false => Some(&mut self.measure),
        };
        if let Some(last) = measure.and_then(|measure| measure.symbols.last_mut())
            && last.what != SymbolKind::Rest
        {
            change(last);
        }
    }

    /// Makes the last note or rest of the bar longer or shorter.
    pub fn scale_last(&mut self, (over, under): (i128, i128)) {
        if let Some(last) = self.measure.symbols.last_mut() {
            let (o, u) = (
                i128::from(*last.length.numer()),
                i128::from(*last.length.denom()),
            );
            let length = on_grid(o.saturating_mul(over), u.saturating_mul(under));
            let length = length.filter(|length| !length.is_zero());
            last.length = length.unwrap_or(last.length);
            self.now = last.at + last.length;
        }
    }

    pub fn put(&mut self, mut symbol: MeasureSymbol) {
        /// Limits the length of a bar, whatever a file says.
        const LONGEST: i64 = 4096;
        if self.now >= Whole::from_integer(LONGEST) {
            self.end_bar(&Line::default());
        }
        let tied = self.last().is_some_and(|last| last.tied_on);
        symbol.tied_from = tied && symbol.what != SymbolKind::Rest;
        symbol.at = self.now;
        self.now += symbol.length;
        self.signs += 1;
        self.measure.symbols.push(symbol);
    }

    /// So many bars of rest.
    pub fn rest_bars(&mut self, bars: i128) {
        let bar = self.bar.unwrap_or(Whole::from_integer(1));
        let bars = usize::try_from(bars).unwrap_or(MOST_MEASURES);
        for index in 0..bars.clamp(1, MOST_MEASURES + 1) {
            if index > 0 {
                self.end_bar(&Line::default());
            }
            if self.full.len() > MOST_MEASURES {
                return;
            }
            self.put(MeasureSymbol::plain(Whole::zero(), bar, SymbolKind::Rest));
        }
    }

    /// A bar line.
    pub fn end_bar(&mut self, line: &Line) {
        if !self.measure.symbols.is_empty() && self.full.len() <= MOST_MEASURES {
            let mut measure = std::mem::take(&mut self.measure);
            measure.length = std::mem::take(&mut self.now);
            self.measure.key = self.next_key.take();
            // A pickup is bar 0.
            let pickup = self.full.is_empty() && self.bar.is_some_and(|bar| measure.length < bar);
            self.number += usize::from(!pickup);
            measure.label = self.number.to_string();
            self.full.push(measure);
        }
        if let Some(last) = self.full.last_mut() {
            last.double_after |= line.double;
            last.repeat.times = last.repeat.times.or(line.times);
            let ends = line.times.is_some() || line.double || line.ending.is_some();
            if self.in_ending && ends && self.measure.repeat.ending.is_none() {
                last.repeat.ending_over = true;
                self.in_ending = false;
            }
        }
        if line.times.is_some() || line.begins {
            self.open = line.begins;
        }
        // A repeat that begins nowhere begins at the last double bar.
        let from_here = line.double && !self.open && line.ending.is_none() && !self.in_ending;
        self.measure.repeat.begins |= line.begins || from_here;
        if line.ending.is_some() {
            self.measure.repeat.ending.clone_from(&line.ending);
            self.in_ending = true;
        }
    }

    /// All bars.
    ///
    /// # Errors
    /// If there are more than any warm-up has.
    pub fn finish(mut self, losses: &mut [Loss]) -> Result<Vec<Measure>, Problem> {
        self.end_bar(&Line::default());
        if self.full.len() > MOST_MEASURES {
            return Err(Problem::error(format!(
                "it has more than {MOST_MEASURES} bars, which no warm-up needs"
            )));
        }
        if let Some(last) = self.full.last_mut() {
            last.repeat.ending_over |= self.in_ending;
            // What stands after the last bar line closes the last bar.
            let after = &self.measure.repeat;
            last.repeat.da_capo |= after.da_capo;
            last.repeat.dal_segno |= after.dal_segno;
            last.repeat.fine |= after.fine;
        }
        let most = self.full.len().saturating_sub(1);
        for loss in losses {
            loss.measure = loss.measure.map(|index| index.min(most));
        }
        Ok(self.full)
    }
}
