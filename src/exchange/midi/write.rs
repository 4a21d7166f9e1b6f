//! Score → Standard MIDI File, format 1: the tempo map with the lines as markers, then guide, click and drone,
//! each on a track of its own.

use super::moments::{self, LineTicks, Moments, ticks};
use super::{CLICK, DRONE, GUIDE, SIGNATURE, TICKS};
use crate::music::key::{Key, Mode};
use crate::music::{Meter, Seconds, Whole};
use crate::routine::{ClickMode, Guide, Line, On, Style};
use crate::score::{Joined, Pass, Played, Score, ScoreLine, ScoreNote};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{Format, Header, MetaMessage, MidiMessage, Smf, Timing, TrackEvent, TrackEventKind};
use num_traits::{ToPrimitive, Zero};

/// Channel numbers, from 0.
const OF_GUIDE: u8 = 0;
const OF_DRONE: u8 = 1;
const OF_AIR: u8 = 2;
/// General MIDI's percussion channel.
const OF_CLICK: u8 = 9;

/// General MIDI programs, from 0: drawbar organ, breath noise.
const ORGAN: u8 = 16;
const BREATH: u8 = 121;

/// General MIDI percussion keys: high and low wood block.
const ACCENTED: u8 = 76;
const PLAIN: u8 = 77;

/// A tongued note is shortened by this length, in whole notes, and at most by a quarter of its own length.
const GAP: Whole = Whole::new_raw(1, 64);

/// An event at a tick. At the same tick, notes end before others begin.
struct At<'e> {
    tick: u64,
    kind: TrackEventKind<'e>,
}

/// The bytes of a MIDI file that plays the score.
pub fn write(score: &Score<'_>) -> Vec<u8> {
    let moments = moments::of(score);
    let tracks = [
        map(score, &moments),
        guide(score, &moments),
        click(score, &moments),
        drone(score, &moments),
    ];
    let smf = Smf {
        header: Header::new(Format::Parallel, Timing::Metrical(u15::new(TICKS))),
        tracks: tracks.into_iter().map(track).collect(),
    };
    let mut bytes = vec![];
    smf.write(&mut bytes)
        .expect("bytes can be appended to a vector");
    bytes
}

/// Events in order, each with the ticks since the previous one.
fn track(mut events: Vec<At<'_>>) -> Vec<TrackEvent<'_>> {
    let is_end = |kind: &TrackEventKind<'_>| {
        matches!(
            kind,
            TrackEventKind::Midi {
                message: MidiMessage::NoteOff { .. },
                ..
            }
        )
    };
    events.sort_by_key(|e| (e.tick, !is_end(&e.kind)));
    let mut now = 0;
    let mut track = vec![];
    for At { tick, kind } in events {
        // Four hours at 300 clicks a minute take a quarter of 28 bits.
        let delta = u28::new((tick - now) as u32);
        now = tick;
        track.push(TrackEvent { delta, kind });
    }
    track.push(TrackEvent {
        delta: u28::new(0),
        kind: TrackEventKind::Meta(MetaMessage::EndOfTrack),
    });
    track
}

fn meta(tick: u64, message: MetaMessage<'_>) -> At<'_> {
    At {
        tick,
        kind: TrackEventKind::Meta(message),
    }
}

fn map<'s>(score: &'s Score<'_>, moments: &Moments) -> Vec<At<'s>> {
    let routine = score.routine;
    let mut events = vec![
        meta(0, MetaMessage::TrackName(routine.title.as_bytes())),
        meta(0, MetaMessage::Text(SIGNATURE.as_bytes())),
    ];
    for (tick, meter) in &moments.meters {
        events.push(meta(*tick, signature(*meter)));
    }
    events.extend(keys(score, moments));
    for tempo in &moments.tempos {
        events.push(meta(tempo.tick, MetaMessage::Tempo(u24::new(tempo.micros))));
    }
    for (line, place) in score.lines.iter().zip(&moments.places) {
        let name = &routine.lines[line.index].name;
        events.push(meta(place.start, MetaMessage::Marker(name.as_bytes())));
    }
    events
}

/// The key signatures, as the notes sound: at the beginning of each line and of each pass that changes it.
fn keys(score: &Score<'_>, moments: &Moments) -> Vec<At<'static>> {
    let mut now: Option<Key> = None;
    let mut events = vec![];
    for (line, _, place) in lines(score, moments) {
        for (index, pass) in line.passes.iter().enumerate() {
            let Some(key) = pass.key else { continue };
            let sounding = key.moved(score.instrument().transposition);
            if now == Some(sounding) {
                continue;
            }
            now = Some(sounding);
            let tick = match index {
                0 => place.start,
                _ => place.start + ticks(line.count_in + pass.start),
            };
            let minor = sounding.mode() == Mode::Minor;
            let message = MetaMessage::KeySignature(sounding.fifths() as i8, minor);
            events.push(meta(tick, message));
        }
    }
    events
}

fn signature(meter: Meter) -> MetaMessage<'static> {
    /// In quarter notes, as the standard counts.
    const CLOCKS: Whole = Whole::new_raw(96, 1);
    let power = meter.unit().trailing_zeros() as u8;
    let clocks = (meter.click() * CLOCKS).to_integer() as u8;
    MetaMessage::TimeSignature(meter.beats(), power, clocks, 8)
}

/// The events that open a track: its name and its program.
fn opening(name: &'static str, sounds: &[(u8, u8)]) -> Vec<At<'static>> {
    let mut events = vec![meta(0, MetaMessage::TrackName(name.as_bytes()))];
    for (channel, program) in sounds {
        let program = u7::new(*program);
        events.push(message(0, *channel, MidiMessage::ProgramChange { program }));
    }
    events
}

fn message(tick: u64, channel: u8, message: MidiMessage) -> At<'static> {
    At {
        tick,
        kind: TrackEventKind::Midi {
            channel: u4::new(channel),
            message,
        },
    }
}

fn note(from: u64, to: u64, channel: u8, key: i32, velocity: u8, events: &mut Vec<At<'_>>) {
    let key = u7::new(key.clamp(0, 127) as u8);
    let vel = u7::new(velocity);
    events.push(message(from, channel, MidiMessage::NoteOn { key, vel }));
    let vel = u7::new(64);
    let end = to.max(from + 1);
    events.push(message(end, channel, MidiMessage::NoteOff { key, vel }));
}

/// Lines with their ticks and their notation.
fn lines<'s>(
    score: &'s Score<'_>,
    moments: &'s Moments,
) -> impl Iterator<Item = (&'s ScoreLine, &'s Line, &'s LineTicks)> {
    let lines = score.lines.iter().zip(&moments.places);
    lines.map(|(line, place)| (line, &score.routine.lines[line.index], place))
}

fn guide(score: &Score<'_>, moments: &Moments) -> Vec<At<'static>> {
    // The standard counts from 1, a file from 0.
    let horn = score.instrument().midi_program - 1;
    let breathes = score.lines.iter().any(|line| line.on == On::Air);
    let sounds: &[(u8, u8)] = if breathes {
        &[(OF_GUIDE, horn), (OF_AIR, BREATH)]
    } else {
        &[(OF_GUIDE, horn)]
    };
    let mut events = opening(GUIDE, sounds);
    for (line, written, place) in lines(score, moments) {
        if line.guide == Guide::Off {
            continue;
        }
        for pass in &line.passes {
            let at = |moment: Whole| place.start + ticks(line.count_in + pass.start + moment);
            for (index, of) in pass.notes.iter().enumerate() {
                let from = at(of.start);
                let to = from + sounding_ticks(pass, index, line);
                let level = written.melody.level_db(of.start);
                match of.played {
                    Played::Pitch { sounding, .. } => {
                        let loud = velocity(level);
                        note(from, to, OF_GUIDE, sounding.number(), loud, &mut events);
                    }
                    // Breathing in sounds higher than breathing out.
                    Played::In => note(from, to, OF_AIR, 72, velocity(level), &mut events),
                    Played::Out => note(from, to, OF_AIR, 60, velocity(level), &mut events),
                }
            }
        }
    }
    events
}

/// How long a note sounds: to its end if it is slurred to the next or nothing follows; shorter for a tongued
/// note, a breath or a dot.
fn sounding_ticks(pass: &Pass, index: usize, line: &ScoreLine) -> u64 {
    let note = &pass.notes[index];
    let length = note.length;
    if let Some(breath) = note.breath {
        return ticks(length).saturating_sub(ticks_of_seconds(breath, line));
    }
    if note.style == Some(Style::Staccato) && !note.leads_on {
        return ticks(length / Whole::from_integer(2));
    }
    let next = pass.notes.get(index + 1);
    let tongued = |next: &ScoreNote| {
        next.start == note.start + length && matches!(next.joined, Joined::Fresh(_))
    };
    if next.is_some_and(tongued) {
        return ticks(length - GAP.min(length / Whole::from_integer(4)));
    }
    ticks(length)
}

/// The nearest tick.
fn ticks_of_seconds(seconds: Seconds, line: &ScoreLine) -> u64 {
    let quarter = line.seconds(Whole::new(1, 4));
    let ticks = (seconds / quarter * Seconds::from_integer(i128::from(TICKS))).round();
    ticks.to_integer().to_u64().unwrap_or(0)
}

/// The velocity of a level relative to forte, by General MIDI 2: 40 · log10(v / 127) dB.
fn velocity(level_db: f64) -> u8 {
    let loudest = crate::music::Dynamic::Ff.level_db();
    let velocity = 127.0 * libm::pow(10.0, (level_db - loudest) / 40.0);
    velocity.round().clamp(1.0, 127.0) as u8
}

fn click(score: &Score<'_>, moments: &Moments) -> Vec<At<'static>> {
    let mut events = opening(CLICK, &[]);
    for (line, written, place) in lines(score, moments) {
        let beat = line.meter.click();
        let a_bar = i64::from(line.meter.clicks_per_bar());
        let count = ((line.count_in + line.length) / beat).to_integer();
        for n in 0..count {
            let moment = beat * Whole::from_integer(n);
            if written.click == ClickMode::CountIn && !leads_in(line, moment) {
                continue;
            }
            let from = place.start + ticks(moment);
            let (key, loud) = if n % a_bar == 0 {
                (ACCENTED, 100)
            } else {
                (PLAIN, 80)
            };
            let to = from + u64::from(TICKS) / 8;
            note(from, to, OF_CLICK, i32::from(key), loud, &mut events);
        }
    }
    events
}

/// True in the count-in, and for the same length at the end of each rest between two passes. `moment` counts
/// from the first click of the count-in.
fn leads_in(line: &ScoreLine, moment: Whole) -> bool {
    let between = |pass: &Pass| {
        let next = line.count_in + pass.end() + pass.between;
        !pass.between.is_zero() && moment < next && moment >= next - pass.between.min(line.count_in)
    };
    moment < line.count_in || line.passes.iter().any(between)
}

fn drone(score: &Score<'_>, moments: &Moments) -> Vec<At<'static>> {
    const LOUD: u8 = 50;
    let mut events = opening(DRONE, &[(OF_DRONE, ORGAN)]);
    for (line, _, place) in lines(score, moments) {
        // It moves when a pass has ended.
        let mut held: Option<(u64, &Pass)> = None;
        let mut sound = |held: Option<(u64, &Pass)>, to: u64| {
            let Some((from, pass)) = held else { return };
            for pitch in &pass.drone {
                note(from, to, OF_DRONE, pitch.number(), LOUD, &mut events);
            }
        };
        let mut from = place.start;
        for pass in &line.passes {
            match held {
                Some((_, of)) if of.drone == pass.drone => {}
                _ => {
                    sound(held, from);
                    held = Some((from, pass));
                }
            }
            from = place.start + ticks(line.count_in + pass.end());
        }
        sound(held, place.end);
    }
    events
}
