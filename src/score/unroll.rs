//! Unrolls a routine at a take.

use super::model::{Notice, NoticeKind, Pass, Score, ScoreLine, ScoreRest};
use super::pass::{self, Placement};
use super::take::Take;
use crate::brass::Instrument;
use crate::music::{Decimal, Meter, Seconds, SoundingPitch, Tempo, Whole, WrittenPitch};
use crate::routine::{Drone, EventKind, Guide, Line, On, RestLength, Routine, Walk};
use crate::words::{Words, tell};
use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{ToPrimitive, Zero};

/// Why a routine cannot be unrolled at a take.
#[derive(Clone, Debug, PartialEq)]
pub enum TakeFault {
    /// A tempo outside 20–300 clicks a minute.
    Tempo {
        /// Index of the line; `None` for the base tempo.
        line: Option<usize>,
        /// The tempo in clicks a minute.
        clicks: f64,
    },
    /// The track would be longer than [`LONGEST_TAKE`].
    TooLong {
        /// Its least length.
        seconds: f64,
    },
    /// No pass of any line fits the instrument in this key.
    NothingFits,
}

/// The longest track, in seconds: four hours.
pub const LONGEST_TAKE: i64 = 4 * 60 * 60;

/// Silence before the first click: wireless speakers swallow the first half second.
fn lead_in() -> BigRational {
    BigRational::new(1.into(), 2.into())
}

/// Fade after the last bar line of a line.
pub fn fade() -> Seconds {
    Seconds::new(3, 10)
}

/// Shortest silence between a line's last bar line and the next line's count-in.
fn shortest_silence() -> Seconds {
    Seconds::new(1, 2)
}

/// Unrolls a routine at one take.
///
/// # Errors
/// A tempo out of bounds, a track longer than four hours, or a key in which nothing can be played.
pub fn unroll<'r>(routine: &'r Routine, take: &Take) -> Result<Score<'r>, TakeFault> {
    take.tempo.base(routine).map_err(|e| TakeFault::Tempo {
        line: None,
        clicks: e.0,
    })?;
    let mut unroller = Unroller {
        routine,
        take,
        lines: Vec::new(),
        notices: Vec::new(),
        start: lead_in(),
        owed: BigRational::zero(),
    };
    for index in 0..routine.lines.len() {
        unroller.line(index)?;
    }
    let Some(last) = unroller.lines.last() else {
        return Err(TakeFault::NothingFits);
    };
    let seconds = &last.start + big(last.total_seconds() + fade());
    Ok(Score {
        routine,
        take: *take,
        lines: unroller.lines,
        notices: unroller.notices,
        seconds,
    })
}

/// The same ratio without a limit on its size.
pub(crate) fn big(seconds: Seconds) -> BigRational {
    BigRational::new(
        BigInt::from(*seconds.numer()),
        BigInt::from(*seconds.denom()),
    )
}

struct Unroller<'r, 't> {
    routine: &'r Routine,
    take: &'t Take,
    lines: Vec<ScoreLine>,
    notices: Vec<Notice>,
    /// Where the next count-in starts if no rest comes before it.
    start: BigRational,
    /// How long the pupil has played since the last rest that was longer than zero.
    owed: BigRational,
}

impl Unroller<'_, '_> {
    fn line(&mut self, index: usize) -> Result<(), TakeFault> {
        let routine = self.routine;
        let line = &routine.lines[index];
        let places = self.places(index);
        if places.is_empty() {
            return Ok(());
        }
        for (rung, tempo) in line.tempos_in(routine).into_iter().enumerate() {
            let tempo =
                tempo
                    .scaled(self.take.tempo.factor(routine))
                    .map_err(|e| TakeFault::Tempo {
                        line: Some(index),
                        clicks: e.0,
                    })?;
            self.at_tempo(index, &places, (rung, tempo))?;
        }
        Ok(())
    }

    /// Adds a line at one of its tempos.
    fn at_tempo(
        &mut self,
        index: usize,
        places: &[Placement],
        (rung, tempo): (usize, Tempo),
    ) -> Result<(), TakeFault> {
        let routine = self.routine;
        let line = &routine.lines[index];
        let meter = line.meter_in(routine);
        let count_in_bars = line.count_in.unwrap_or(meter.usual_count_in());
        let count_in = meter.bar() * Whole::from_integer(i64::from(count_in_bars));
        self.rest_before(index, tempo.seconds(count_in, meter));
        let guide = match (self.take.guide, line.guide) {
            (Guide::Off, _) => Guide::Off,
            (of_take, of_line) => of_line.unwrap_or(of_take),
        };
        let mut score_line = ScoreLine {
            index,
            on: line.on,
            rung,
            tempo,
            meter,
            guide,
            count_in,
            passes: Vec::new(),
            length: Whole::zero(),
            played: Seconds::zero(),
            start: self.start.clone(),
            rest: None,
        };
        self.passes(line, places, &mut score_line)?;
        self.lines.push(score_line);
        Ok(())
    }

    /// Says that a line stays in its key.
    fn key_kept(&mut self, index: usize, line: &Line) {
        self.notices.push(Notice {
            line: index,
            kind: NoticeKind::KeyKept,
            span: line.span,
            message: tell::stays_in_its_key(&line.name),
        });
    }

    /// The entries of the walk that fit the instrument, and how each moves the line.
    fn places(&mut self, index: usize) -> Vec<Placement> {
        let line = &self.routine.lines[index];
        let instrument = self.routine.instrument;
        let key = self.take.key;
        let stays = key != 0 && line.on == On::Horn && line.has_fingerings();
        if stays {
            self.key_kept(index, line);
        }
        let shift = if stays || !line.on.has_pitches() {
            0
        } else {
            key
        };
        let mut fitting = Vec::new();
        let mut left_out = Vec::new();
        for (walk_index, mut place) in moved(&line.walk, shift).into_iter().enumerate() {
            place.spelling = pass::spelling(self.routine, line, place.moves_by(instrument));
            let mut pitches = line.melody.events.iter().filter_map(|e| match e.kind {
                EventKind::Note(pitch) => Some(place.spelling.pitch(pitch)),
                _ => None,
            });
            match pitches.find(|p| !instrument.can_reach(*p)) {
                None => fitting.push(Placement {
                    walk_index,
                    ..place
                }),
                Some(outside) => left_out.push((walk_index, place, outside)),
            }
        }
        if fitting.is_empty()
            && let Some(&(_, _, outside)) = left_out.first()
        {
            // One notice for the whole line, not one for each of its passes.
            self.notices.push(Notice {
                line: index,
                kind: NoticeKind::LineLeftOut,
                span: line.span,
                message: tell::line_left_out(&line.name, why(outside, instrument)),
            });
            return fitting;
        }
        for (walk_index, place, outside) in left_out {
            let span = line.walk_spans.get(walk_index).copied();
            self.notices.push(Notice {
                line: index,
                kind: NoticeKind::PassLeftOut { walk_index },
                span: span.unwrap_or(line.span),
                message: tell::pass_left_out(
                    &line.name,
                    Words::of(|language| place.in_words(language, instrument)),
                    why(outside, instrument),
                ),
            });
        }
        fitting
    }

    /// Adds the rest after the line before, and moves the start of this line past it.
    fn rest_before(&mut self, index: usize, count_in: Seconds) {
        let Some(before) = self.lines.last_mut() else {
            return;
        };
        let line = &self.routine.lines[before.index];
        debug_assert!(before.index <= index, "lines come in order");
        let (rest, kept) = if before.index == index {
            (line.between, line.between_part)
        } else {
            (line.rest, line.rest_part)
        };
        let asked = match rest {
            RestLength::Seconds(seconds) => seconds.ratio(),
            rest => before.seconds(length_of(rest, before.tempo, before.meter, &self.owed)),
        } * part(kept);
        let least = count_in + shortest_silence();
        let score_rest = ScoreRest {
            seconds: asked.max(least),
            asked: (asked < least).then_some(asked),
        };
        if rest.is_some() {
            self.owed = BigRational::zero();
        }
        // Each is converted by itself, so that no common fraction of two tempos outgrows 128 bits.
        self.start =
            &before.start + big(before.total_seconds()) + big(score_rest.seconds) - big(count_in);
        before.rest = Some(score_rest);
    }

    fn passes(
        &mut self,
        line: &Line,
        places: &[Placement],
        to: &mut ScoreLine,
    ) -> Result<(), TakeFault> {
        let bar = to.meter.bar();
        let length = (line.melody.length / bar).ceil() * bar;
        let turn = to.guide == Guide::Echo;
        let sounding = to.seconds(if turn { length + length } else { length });
        let count = places.len() * line.times as usize * line.articulations.len();
        let least = &to.start + big(sounding) * BigInt::from(count);
        // Checked before anything is allocated: a line played a hundred times may not fit in memory.
        self.bounded(&least)?;
        let pass_seconds = big(to.seconds(length));
        let mut now = Whole::zero();
        for place in places {
            for repetition in 1..=line.times {
                for articulation in &line.articulations {
                    let tonic = self.tonic(line, *place);
                    let mut pass = Pass {
                        half_steps: place.half_steps,
                        tube: place.tube,
                        walk_index: place.walk_index,
                        repetition,
                        articulation: *articulation,
                        start: now,
                        length,
                        turn,
                        between: Whole::zero(),
                        key: place.spelling.key(),
                        notes: pass::notes(
                            line,
                            to,
                            *place,
                            *articulation,
                            self.routine.instrument,
                        ),
                        tonic,
                        drone: self.drone(line, tonic),
                    };
                    self.owed += &pass_seconds;
                    if line.on != On::Rest {
                        to.played += to.seconds(length);
                    }
                    if to.passes.len() + 1 < count {
                        let between = length_of(line.between, to.tempo, to.meter, &self.owed)
                            * narrow(part(line.between_part));
                        pass.between = (between / bar).ceil() * bar;
                        if line.between.is_some() {
                            self.owed = BigRational::zero();
                        }
                    }
                    now = pass.end() + pass.between;
                    to.passes.push(pass);
                    self.bounded(&(&to.start + big(to.seconds(now))))?;
                }
            }
        }
        to.length = now;
        Ok(())
    }

    fn bounded(&self, seconds: &BigRational) -> Result<(), TakeFault> {
        if *seconds > BigRational::from_integer(LONGEST_TAKE.into()) {
            let seconds = seconds.to_f64().unwrap_or(f64::INFINITY);
            return Err(TakeFault::TooLong { seconds });
        }
        Ok(())
    }

    /// The key note of a pass, as written.
    fn tonic(&self, line: &Line, place: Placement) -> Option<WrittenPitch> {
        if !line.on.has_pitches() {
            return None;
        }
        let first = || {
            line.melody.events.iter().find_map(|e| match e.kind {
                EventKind::Note(pitch) => Some(pitch),
                _ => None,
            })
        };
        let tonic = match (line.tonic, place.tube) {
            (Some(tonic), _) => Some(tonic),
            (None, Some(_)) => Some(self.routine.instrument.second_partial),
            (None, None) => first(),
        };
        tonic.map(|tonic| place.spelling.pitch(tonic))
    }

    fn drone(&self, line: &Line, tonic: Option<WrittenPitch>) -> Vec<SoundingPitch> {
        let tonic = tonic.map(|t| lowest_octave(self.routine.instrument.sounding(t)));
        match (line.drone, tonic) {
            (Drone::Pitch(pitch), _) => vec![SoundingPitch::from_number(pitch.number())],
            (Drone::Tonic, Some(tonic)) => vec![tonic],
            (Drone::TonicAndFifth, Some(tonic)) => vec![tonic, tonic.moved(7)],
            (Drone::Off, _) | (_, None) => Vec::new(),
        }
    }
}

/// Percent as a factor.
fn part(percent: Decimal) -> Seconds {
    percent.ratio() / Seconds::from_integer(100)
}

/// The same factor in 64 bits. A pencil's percentages are bounded and have at most three decimals, so it fits.
fn narrow(part: Seconds) -> Whole {
    Whole::new(*part.numer() as i64, *part.denom() as i64)
}

/// The pitch of that name in the lowest octave from concert B-flat 2 upwards.
fn lowest_octave(pitch: SoundingPitch) -> SoundingPitch {
    const B_FLAT_2: i32 = 46;
    SoundingPitch::from_number(B_FLAT_2 + (pitch.number() - B_FLAT_2).rem_euclid(12))
}

/// The entries of a walk, moved by so many half steps where it goes by them.
fn moved(walk: &Walk, shift: i32) -> Vec<Placement> {
    match walk {
        Walk::HalfSteps(moves) => moves
            .iter()
            .map(|n| Placement {
                half_steps: n + shift,
                ..Placement::default()
            })
            .collect(),
        Walk::Tubes(tubes) => tubes
            .iter()
            .map(|tube| Placement {
                tube: Some(*tube),
                ..Placement::default()
            })
            .collect(),
    }
}

/// Why what reaches this pitch is left out.
fn why(outside: WrittenPitch, instrument: &Instrument) -> Words {
    let side = if outside.number() < instrument.lowest.number() {
        tell::below_lowest(instrument.lowest)
    } else {
        tell::above_highest(instrument.highest)
    };
    tell::outside_compass(outside, &side, instrument.named_in_words())
}

/// The length of a rest in musical time of the line just played. It is rounded up to a bar line only if it is
/// given in seconds or depends on what was played. `owed` is the time played since the last rest.
fn length_of(rest: RestLength, tempo: Tempo, meter: Meter, owed: &BigRational) -> Whole {
    let bar = meter.bar();
    let times = |d: Decimal, unit: Whole| {
        let d = d.ratio();
        // Thousandths of at most an hour: numerator and denominator fit.
        unit * Whole::new(*d.numer() as i64, *d.denom() as i64)
    };
    let bars = |seconds: &BigRational| {
        let bars = (seconds / big(tempo.seconds(bar, meter)))
            .ceil()
            .to_integer();
        // A take is at most four hours, so the number of bars is small.
        bar * Whole::from_integer(bars.to_i64().unwrap_or(0))
    };
    match rest {
        RestLength::None => Whole::zero(),
        RestLength::Same => bars(owed),
        RestLength::Bars(n) => times(n, bar),
        RestLength::Beats(n) => times(n, meter.click()),
        RestLength::Seconds(n) => bars(&big(n.ratio())),
    }
}
