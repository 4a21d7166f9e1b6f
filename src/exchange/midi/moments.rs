//! Positions of a score's lines in ticks, and the tempos that make them start at the right time.

use super::TICKS;
use crate::music::{Meter, Tempo, Whole};
use crate::score::{Score, ScoreLine};
use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
use num_traits::{ToPrimitive, Zero};

/// A tempo that holds from a tick on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct TempoAt {
    pub tick: u64,
    /// Microseconds per quarter.
    pub micros: u32,
}

/// The ticks of a line.
pub(super) struct LineTicks {
    /// Tick of its count-in's first click.
    pub start: u64,
    /// Tick of its last bar line.
    pub end: u64,
}

/// The ticks of all lines, and the tempos between and in them.
pub(super) struct Moments {
    pub places: Vec<LineTicks>,
    pub tempos: Vec<TempoAt>,
    /// A meter that holds from a tick on.
    pub meters: Vec<(u64, Meter)>,
}

/// The largest tempo that an event can hold, in microseconds per quarter (24 bits).
const SLOWEST: u64 = (1 << 24) - 1;

/// Ticks of a length.
pub(super) fn ticks(length: Whole) -> u64 {
    let whole = 4 * i64::from(TICKS);
    let ticks = (length * Whole::from_integer(whole)).round();
    u64::try_from(ticks.to_integer()).unwrap_or(0)
}

/// Microseconds per quarter of a tempo, rounded.
fn micros(tempo: Tempo, meter: Meter) -> u32 {
    let quarter = tempo.seconds(Whole::new(1, 4), meter);
    let micros = (quarter * Ratio::from_integer(1_000_000)).round();
    // From 20 clicks of a dotted quarter to 300 of an eighth: far within 24 bits.
    micros.to_integer().to_u32().unwrap_or(500_000)
}

/// Places the lines. The silence between two lines is a whole number of bars, at a tempo that gives it its
/// exact duration. So every line begins on a bar line, and at its exact time to within half a microsecond per
/// quarter: the rounding error of a line's tempo is corrected in the silence after it.
pub(super) fn of(score: &Score<'_>) -> Moments {
    let mut moments = Moments {
        places: vec![],
        tempos: vec![],
        meters: vec![],
    };
    let mut tick = 0;
    // Millionths of a second so far, times the ticks of a quarter: a whole number.
    let mut now = BigInt::zero();
    let mut before: Option<&ScoreLine> = None;
    for line in &score.lines {
        let last = before.unwrap_or(line);
        let scale = BigInt::from(1_000_000 * i64::from(TICKS));
        let due = &line.start * BigRational::from_integer(scale);
        let silence = due - BigRational::from_integer(now.clone());
        let bar = ticks(last.meter.bar());
        let at_tempo = u64::from(micros(last.tempo, last.meter)) * bar;
        let bars = (&silence / BigRational::from_integer(at_tempo.into())).round();
        let bars = bars.to_integer().to_u64().unwrap_or(1).max(1);
        let each = (silence / BigRational::from_integer((bars * bar).into())).round();
        let each = each.to_integer().to_u64().unwrap_or(1).clamp(1, SLOWEST);
        moments.meter(tick, last.meter);
        moments.tempo(tick, each as u32);
        now += BigInt::from(each) * BigInt::from(bars * bar);
        tick += bars * bar;
        let length = ticks(line.count_in + line.length);
        let at = micros(line.tempo, line.meter);
        moments.meter(tick, line.meter);
        moments.tempo(tick, at);
        moments.places.push(LineTicks {
            start: tick,
            end: tick + length,
        });
        now += BigInt::from(at) * BigInt::from(length);
        tick += length;
        before = Some(line);
    }
    moments
}

impl Moments {
    fn tempo(&mut self, tick: u64, micros: u32) {
        if self.tempos.last().is_none_or(|t| t.micros != micros) {
            self.tempos.push(TempoAt { tick, micros });
        }
    }

    fn meter(&mut self, tick: u64, meter: Meter) {
        if self.meters.last().is_none_or(|(_, m)| *m != meter) {
            self.meters.push((tick, meter));
        }
    }
}
