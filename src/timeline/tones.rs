//! Turns the notes of a pass into unbroken tones of the guide.
//!
//! This decides when a tone starts and ends, and how one note leads to the next. Most of the times are choices
//! within what is published (decisions/2026-11-25-gaps-and-glides.md).

use super::frames::nearest;
use super::hertz::Hertz;
use super::model::{Approach, LevelPoint, Onset, Source, Step, Tone};
use super::rise::{before_the_beat, rise_seconds};
use crate::brass::partials;
use crate::brass::slide::{self, SlideSlur};
use crate::music::{Dynamic, Seconds, Whole};
use crate::routine::{Attack, Line, On, SlideLegato, Style};
use crate::score::{Joined, Pass, Played, Score, ScoreLine, ScoreNote};
use num_rational::Ratio;

/// Silence of the air between two tongued notes, release included: a quarter of the note, within
/// these bounds in milliseconds.
const GAP_MS: (i128, i128) = (22, 40);
/// The same for notes marked legato: the lightest touch of the tongue.
const LEGATO_GAP_MS: (i128, i128) = (18, 24);
/// Either is at least so many periods of the note long, or a low note would not be heard to stop.
const GAP_PERIODS: f64 = 2.0;
/// Release where the air itself ends, at a rest or a breath.
pub(super) const PHRASE_RELEASE_MS: i128 = 70;
/// Release of a staccato note.
const STACCATO_RELEASE_MS: i128 = 35;
/// A stroke of the valves, from the old pitch to the new.
const VALVE_GLIDE_MS: i128 = 12;
const VALVE_DIP_DB: f64 = 2.5;
/// No change of pitch is quicker than this many periods of the lower note: lips that swing slowly settle slowly.
const VALVE_PERIODS: f64 = 1.5;
const LIP_PERIODS: f64 = 3.0;
/// A soft tongue inside a slur on a slide, under which the slide moves: no gap, but a dip that hides what would smear.
/// Deeper than a valve's and shallower than the 20 dB of a tongued note; a choice.
const SOFT_TONGUE_MS: i128 = 16;
const SOFT_TONGUE_DIP_DB: f64 = 9.0;
/// A lipped bend, each way.
const BEND_MS: (i128, i128) = (150, 300);

/// A push of the air: the time until its peak, and until its end.
const PUSH_MS: (i128, i128) = (15, 120);
/// How much louder the peak is: as much as a tongued accent.
const PUSH_DB: f64 = 2.0;

/// A pass and everything around it.
pub struct Context<'s, 'r> {
    /// The score.
    pub score: &'s Score<'r>,
    /// The line of the score.
    pub line: &'s ScoreLine,
    /// The line as written.
    pub written: &'s Line,
    /// The pass.
    pub pass: &'s Pass,
    /// The line's hash from [`content`].
    pub content: u64,
    /// Number of the pass in its line, from 0.
    pub number: usize,
    /// Frames a second.
    pub rate: u32,
}

impl Context<'_, '_> {
    /// The frame of the line at which a moment of the pass falls.
    pub fn frame(&self, moment: Whole) -> u64 {
        nearest(self.seconds(moment), self.rate)
    }

    /// Seconds from the line's first frame to a moment of the pass.
    fn seconds(&self, moment: Whole) -> Seconds {
        self.line
            .seconds(self.line.count_in + self.pass.start + moment)
    }

    fn frames(&self, ms: i128) -> u64 {
        nearest(Seconds::new(ms, 1000), self.rate)
    }

    /// So many periods of a note in frames.
    fn periods(&self, count: f64, note: &ScoreNote) -> u64 {
        match note.played {
            Played::Pitch { sounding, .. } => {
                let hz = 440.0 * libm::exp2(f64::from(sounding.number() - 69) / 12.0);
                (count * f64::from(self.rate) / hz) as u64
            }
            Played::In | Played::Out => 0,
        }
    }

    /// Seed of noise and drift: from what the line says, the pass and the note, so that a line sounds
    /// the same wherever it stands in a routine.
    pub fn seed(&self, event: usize) -> u64 {
        let numbers = [self.number as u64, event as u64];
        hash(self.content, numbers.into_iter().flat_map(u64::to_le_bytes))
    }
}

/// A hash of the line's content, with which its seeds begin.
pub fn content(line: &Line) -> u64 {
    hash(0xcbf2_9ce4_8422_2325, line.phrase.to_string().bytes())
}

/// FNV-1a with 64 bits, continued from `state`.
fn hash(state: u64, bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes.into_iter().fold(state, |state, byte| {
        (state ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// The tones of a pass in order.
pub fn of_pass(context: &Context<'_, '_>) -> Vec<Tone> {
    let notes = &context.pass.notes;
    let mut tones = Vec::new();
    let mut first = 0;
    while first < notes.len() {
        let mut last = first;
        while notes[last].leads_on && last + 1 < notes.len() {
            last += 1;
        }
        tones.extend(tone(context, first, last));
        first = last + 1;
    }
    tones
}

/// Ends each tone where the next begins: the first of a pass rises before its beat, up to which the last of the pass
/// before may sound.
pub fn part(tones: &mut [Tone]) {
    for i in 1..tones.len() {
        let next = tones[i].frame;
        tones[i - 1].end = tones[i - 1].end.min(next).max(tones[i - 1].frame + 1);
    }
}

/// How a tone that begins with `note` starts, and the frames of its rise.
fn start(context: &Context<'_, '_>, note: &ScoreNote) -> (Onset, u64) {
    let onset = match note.joined {
        Joined::Fresh(Attack::Air) => Onset::Air,
        Joined::Fresh(Attack::Ku) => Onset::Ku,
        _ => Onset::Tongue,
    };
    let Some(hz) = Hertz::of(context.score, context.pass).note(note) else {
        return (onset, 0);
    };
    let db = context.written.melody.level_db(note.start);
    let rise =
        rise_seconds(context.score.instrument().family, hz, db, onset) * f64::from(context.rate);
    (onset, rise as u64)
}

/// The first frame of a tone that begins with `note`: the middle of its rise is on the beat.
fn first_frame(context: &Context<'_, '_>, note: &ScoreNote) -> u64 {
    let (onset, rise) = start(context, note);
    (context.frame(note.start)).saturating_sub(before_the_beat(rise, onset))
}

/// The tone of notes `first..=last`; `None` for breathing actions.
fn tone(context: &Context<'_, '_>, first: usize, last: usize) -> Option<Tone> {
    let notes = &context.pass.notes[first..=last];
    let opening = &notes[0];
    let Played::Pitch { .. } = opening.played else {
        return None;
    };
    let frame = first_frame(context, opening);
    let (onset, rise) = start(context, opening);
    let (end, release) = ending(context, last);
    let mut tone = Tone {
        frame,
        end: end.max(frame + 1),
        rise,
        onset,
        accented: opening.style == Some(Style::Accent),
        release,
        source: match context.line.on {
            On::Mouthpiece => Source::Mouthpiece,
            _ => Source::Horn,
        },
        family: context.score.instrument().family,
        steps: Vec::with_capacity(notes.len()),
        levels: Vec::new(),
        seed: context.seed(opening.event),
    };
    let tuned = Hertz::of(context.score, context.pass);
    for (i, note) in notes.iter().enumerate() {
        let Some(hz) = tuned.note(note) else {
            continue;
        };
        let approach = match i.checked_sub(1) {
            None => Approach::Start,
            Some(before) => approach(context, &notes[before], note),
        };
        tone.steps.push(Step {
            frame: context.frame(note.start),
            hz,
            approach,
        });
    }
    tone.levels = levels(context, opening.start, notes[notes.len() - 1].start, &tone);
    // The tongue cannot accent a note in the middle of a tone: the air does, with a push.
    for note in notes.iter().skip(1) {
        if note.style == Some(Style::Accent) {
            let frame = context.frame(note.start);
            tone.levels = pushed(
                &tone.levels,
                frame,
                context.frames(PUSH_MS.0),
                context.frames(PUSH_MS.1),
            );
        }
    }
    Some(tone)
}

/// The end of a tone whose last note is `last`, and the length of its release.
fn ending(context: &Context<'_, '_>, last: usize) -> (u64, u64) {
    let note = &context.pass.notes[last];
    let start = context.frame(note.start);
    let end = context.frame(note.start + note.length);
    let length = end - start;
    if note.style == Some(Style::Staccato) {
        let end = start + length / 2;
        return (end, context.frames(STACCATO_RELEASE_MS).min(length / 4));
    }
    if let Some(breath) = note.breath {
        let end = nearest(
            context.seconds(note.start + note.length) - breath,
            context.rate,
        );
        return (
            end,
            context.frames(PHRASE_RELEASE_MS).min((end - start) / 3),
        );
    }
    let next = context.pass.notes.get(last + 1);
    if let Some(next) = next.filter(|n| n.start == note.start + note.length) {
        let (least, most) = match note.style {
            Some(Style::Legato) => LEGATO_GAP_MS,
            _ => GAP_MS,
        };
        let slowest = context.periods(GAP_PERIODS, note);
        let gap = (length / 4)
            .clamp(context.frames(least), context.frames(most))
            .max(slowest)
            .min(length / 2);
        // Half of it the air dies away, half of it there is silence, until the next tone begins to rise.
        let end = first_frame(context, next).max(start + gap);
        return (end - gap / 2, gap - gap / 2);
    }
    (end, context.frames(PHRASE_RELEASE_MS).min(length / 3))
}

/// How `note` is reached from `before` within a tone.
fn approach(context: &Context<'_, '_>, before: &ScoreNote, note: &ScoreNote) -> Approach {
    let (
        Played::Pitch {
            sounding: from,
            tube: from_tube,
            ..
        },
        Played::Pitch {
            sounding: to,
            tube: to_tube,
            ..
        },
    ) = (before.played, note.played)
    else {
        return Approach::Start;
    };
    let shorter = context.frame(before.start + before.length) - context.frame(before.start);
    let shorter = shorter.min(context.frame(note.start + note.length) - context.frame(note.start));
    let half_steps = to.number() - from.number();
    let slow = |count| {
        let lower = if half_steps < 0 { note } else { before };
        context.periods(count, lower)
    };
    let bent = note.joined == Joined::Bent;
    let slide = slide_slur(context, before, note);
    let back = from_tube == to_tube || slide == Some(SlideSlur::SoftTongue);
    if bent || before.joined == Joined::Bent && back {
        let (least, most) = (context.frames(BEND_MS.0), context.frames(BEND_MS.1));
        return Approach::Bend {
            glide: (shorter / 2).clamp(least, most).min(shorter),
            cents_off: cents_off_slot(context, note),
        };
    }
    if slide == Some(SlideSlur::SoftTongue) {
        return Approach::Valves {
            glide: context.frames(SOFT_TONGUE_MS).min(shorter / 2).max(1),
            dip_db: SOFT_TONGUE_DIP_DB,
        };
    }
    if from_tube == to_tube || from_tube.is_none() {
        let leap = half_steps.unsigned_abs();
        // 26 ms and 3.7 ms a half step, at most 70, a tenth longer upwards; in microseconds.
        let micros = (26_000 + 3_700 * i128::from(leap)).clamp(30_000, 70_000);
        let micros = if half_steps > 0 {
            micros * 11 / 10
        } else {
            micros
        };
        let glide = nearest(Seconds::new(micros, 1_000_000), context.rate);
        return Approach::Lips {
            glide: glide.max(slow(LIP_PERIODS)).min(shorter / 2).max(1),
            dip_db: (2.0 + 0.5 * f64::from(leap)).min(8.0),
        };
    }
    Approach::Valves {
        glide: (context.frames(VALVE_GLIDE_MS).max(slow(VALVE_PERIODS)))
            .min(shorter / 2)
            .max(1),
        dip_db: VALVE_DIP_DB,
    }
}

/// How a slur is played on a slide; `None` on valves.
fn slide_slur(
    context: &Context<'_, '_>,
    before: &ScoreNote,
    note: &ScoreNote,
) -> Option<SlideSlur> {
    let instrument = context.score.instrument();
    let slot = |note: &ScoreNote| match note.played {
        Played::Pitch { tube, partial, .. } => tube.zip(partial),
        Played::In | Played::Out => None,
    };
    let (from, to) = slot(before).zip(slot(note))?;
    if !instrument.has_slide() {
        return None;
    }
    let always = context.written.legato_in(context.score.routine) == SlideLegato::Always;
    Some(match slide::slur(instrument, from, to) {
        SlideSlur::Natural if always => SlideSlur::SoftTongue,
        other => other,
    })
}

/// Cents from a note to the partial it is lipped from.
fn cents_off_slot(context: &Context<'_, '_>, note: &ScoreNote) -> f64 {
    match note.played {
        Played::Pitch {
            written,
            tube: Some(tube),
            partial: Some(partial),
            ..
        } => {
            let slot = partials::written(context.score.instrument(), tube, partial);
            100.0 * f64::from((slot.number() - written.number()).abs())
        }
        Played::Pitch { .. } if note.joined == Joined::Bent => 100.0,
        _ => 0.0,
    }
}

/// Loudness over a tone whose first note starts at `from` and whose last starts at `last`.
fn levels(context: &Context<'_, '_>, from: Whole, last: Whole, tone: &Tone) -> Vec<LevelPoint> {
    let melody = &context.written.melody;
    let mut points = vec![LevelPoint {
        frame: tone.frame,
        db: melody.level_db(from),
    }];
    let mut point = |moment: Whole, db: f64| {
        let frame = context.frame(moment).clamp(tone.frame, tone.end);
        points.push(LevelPoint { frame, db });
    };
    let notes = &context.pass.notes;
    let last_note = notes.get(notes.partition_point(|note| note.start < last));
    let last_note = last_note.filter(|note| note.start == last);
    let until = last_note.map_or(last, |n| n.start + n.length);
    // What was over before the tone does not sound in it: a pass may have many changes.
    let over = melody.loudness.partition_point(|change| change.at <= from);
    let (over, changes) = melody.loudness.split_at(over);
    let held = over.last().map_or(Dynamic::Mf, |change| change.to);
    let mut held = held.level_db();
    for change in changes {
        if change.since.unwrap_or(change.at) >= until {
            break;
        }
        let to = change.to.level_db();
        match change.since {
            Some(since) => {
                // A hairpin: straight in dB from where it starts to where it leads.
                let (begin, end) = (since.max(from), change.at.min(until));
                if begin < end {
                    for moment in [begin, end] {
                        let part = (moment - since) / (change.at - since);
                        let part = ratio_f64(part);
                        point(moment, held + part * (to - held));
                    }
                }
            }
            None if change.at > from && change.at < until => {
                point(change.at, held);
                point(change.at, to);
            }
            None => {}
        }
        held = to;
    }
    points
}

/// The loudness of `levels`, louder for a moment from `frame` on.
fn pushed(levels: &[LevelPoint], frame: u64, height: u64, length: u64) -> Vec<LevelPoint> {
    let more = |at: u64| {
        let since = at.saturating_sub(frame);
        let part = if since <= height {
            since as f64 / height.max(1) as f64
        } else {
            length.saturating_sub(since) as f64 / (length - height).max(1) as f64
        };
        if at < frame { 0.0 } else { PUSH_DB * part }
    };
    let mut points: Vec<LevelPoint> = levels
        .iter()
        .map(|point| LevelPoint {
            frame: point.frame,
            db: point.db + more(point.frame),
        })
        .collect();
    // A short tone ends before its push does.
    for at in [frame, frame + height, frame + length] {
        let db = level_at(levels, at) + more(at);
        let place = points.partition_point(|point| point.frame <= at);
        points.insert(place, LevelPoint { frame: at, db });
    }
    points
}

/// Loudness at a frame: straight lines in dB from point to point, the last one of those at one frame
/// counting.
fn level_at(levels: &[LevelPoint], frame: u64) -> f64 {
    let after = levels.partition_point(|point| point.frame <= frame);
    let Some(from) = after.checked_sub(1).map(|i| levels[i]) else {
        return levels.first().map_or(0.0, |point| point.db);
    };
    match levels.get(after) {
        None => from.db,
        Some(to) => {
            let part = (frame - from.frame) as f64 / (to.frame - from.frame) as f64;
            from.db + part * (to.db - from.db)
        }
    }
}

fn ratio_f64(r: Ratio<i64>) -> f64 {
    *r.numer() as f64 / *r.denom() as f64
}
