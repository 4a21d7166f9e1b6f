//! The drone: a held tone to tune to, periodic and without seams.

use std::f64::consts::FRAC_PI_2;

use fundsp::prelude64::{AudioNode, BufferMut, BufferRef, U0, U1};

use super::block::BLOCK;
use super::engine::Engine;
use super::tables::{AT_ONCE, Cycle, increment, read, read_all};
use crate::timeline::Held;

/// The drone comes in over this long, seconds.
const FADE_IN_SECONDS: f64 = 0.08;
/// It moves from one pitch to the next over this long, seconds: the new one grows while the old fades.
const MOVE_SECONDS: f64 = 0.1;
/// Where nothing follows and no fade is asked for, it still ends without a click, seconds.
const LEAST_FADE_SECONDS: f64 = 0.02;

/// The drone's voice in a unit.
#[derive(Clone)]
pub struct DroneVoice<'a> {
    engine: &'a Engine,
    held: &'a [Held],
    frame: u64,
    /// What is held, and what it is moving from.
    now: Option<Stretch>,
    before: Option<Chord>,
}

/// One stretch being held.
#[derive(Clone)]
struct Stretch {
    chord: Chord,
    /// Where it grows from nothing, and over how many frames; 0 where the same goes on.
    from: u64,
    rise: f64,
    /// Where it ends, and over how many frames it fades before; 0 where another follows.
    end: u64,
    fade: f64,
    /// Its pitches, to know whether the next are the same.
    hz: Vec<f64>,
}

/// One or more pitches sounding together.
#[derive(Clone)]
struct Chord {
    notes: Vec<Note>,
    gain: f32,
}

#[derive(Clone, Copy)]
struct Note {
    cycle: usize,
    phase: u32,
    increment: u32,
}

impl<'a> DroneVoice<'a> {
    /// From the first frame of a unit.
    pub fn new(engine: &'a Engine, held: &'a [Held]) -> Self {
        Self {
            engine,
            held,
            frame: 0,
            now: None,
            before: None,
        }
    }

    /// The frame at or after the present one from which it may sound.
    pub fn next_sound(&self) -> Option<u64> {
        match (&self.now, self.held.first()) {
            (Some(_), _) => Some(self.frame),
            (None, next) => next.map(|h| h.frame.max(self.frame)),
        }
    }

    /// Goes on to `frame` without sounding.
    pub fn skip_to(&mut self, frame: u64) {
        self.frame = frame;
    }

    fn fill(&mut self, out: &mut [f32]) {
        out.fill(0.0);
        let end = self.frame + out.len() as u64;
        let mut at = self.frame;
        while at < end {
            if let Some((next, later)) = self.held.split_first()
                && next.frame <= at
            {
                self.held = later;
                self.begin(next, at);
                continue;
            }
            let next = self.held.first().map_or(u64::MAX, |h| h.frame);
            let Some(now) = &mut self.now else {
                at = next.min(end);
                continue;
            };
            let stop = end.min(next).min(now.end);
            let out = &mut out[(at - self.frame) as usize..(stop - self.frame) as usize];
            let (up, up_after) = (now.up(at), now.up(stop));
            let (down, down_after) = (now.down(at), now.down(stop));
            now.chord
                .add(self.engine, out, up * down, up_after * down_after);
            if let Some(before) = &mut self.before {
                before.add(
                    self.engine,
                    out,
                    (1.0 - up) * down,
                    (1.0 - up_after) * down_after,
                );
            }
            if up_after >= 1.0 {
                self.before = None;
            }
            if stop == now.end && next > stop {
                self.now = None;
                self.before = None;
            }
            at = stop;
        }
        self.frame = end;
    }

    /// Takes up `held` at frame `at`.
    fn begin(&mut self, held: &Held, at: u64) {
        if held.end <= at || held.hz.is_empty() {
            return;
        }
        let rate = self.engine.rate();
        let length = (held.end - at) as f64;
        let followed = self.held.first().is_some_and(|next| next.frame <= held.end);
        let fade = if followed {
            held.fade as f64
        } else {
            (held.fade as f64).max(LEAST_FADE_SECONDS * rate)
        }
        .min(length);
        let (from, rise, chord) = match self.now.take() {
            Some(now) if now.hz == held.hz => (now.from, now.rise, now.chord),
            Some(now) => {
                self.before = Some(now.chord);
                (
                    at,
                    (MOVE_SECONDS * rate).min(length),
                    Chord::new(self.engine, &held.hz),
                )
            }
            None => {
                self.before = None;
                (
                    at,
                    (FADE_IN_SECONDS * rate).min(length),
                    Chord::new(self.engine, &held.hz),
                )
            }
        };
        self.now = Some(Stretch {
            chord,
            from,
            rise,
            end: held.end,
            fade,
            hz: held.hz.clone(),
        });
    }
}

impl Stretch {
    /// How far it has come in, 0 to 1.
    fn up(&self, frame: u64) -> f32 {
        quarter((frame - self.from) as f64, self.rise)
    }

    /// What its fade leaves, 1 to 0.
    fn down(&self, frame: u64) -> f32 {
        quarter((self.end - frame) as f64, self.fade)
    }
}

/// sin² over `length` frames, 1 beyond.
fn quarter(frames: f64, length: f64) -> f32 {
    if frames >= length {
        return 1.0;
    }
    let sin = libm::sin(FRAC_PI_2 * frames / length);
    (sin * sin) as f32
}

impl Chord {
    fn new(engine: &Engine, hz: &[f64]) -> Self {
        let notes = hz
            .iter()
            .map(|&hz| {
                // The nearest anchor: a half step's difference in colour is not heard.
                let place = engine.drone.place(libm::log2(hz));
                Note {
                    cycle: libm::round(place) as usize,
                    phase: 0,
                    increment: libm::round(increment(hz, engine.rate())) as u32,
                }
            })
            .collect();
        Self {
            notes,
            gain: 1.0 / (hz.len() as f32).sqrt(),
        }
    }

    fn add(&mut self, engine: &Engine, out: &mut [f32], from: f32, to: f32) {
        debug_assert!(out.len() <= BLOCK);
        let step = (to - from) * self.gain / out.len() as f32;
        for note in &mut self.notes {
            let cycle: &Cycle = engine.drone.cycle(note.cycle, 0);
            let mut gain = from * self.gain;
            if step == 0.0 {
                note.hold(cycle, out, gain);
                continue;
            }
            for o in out.iter_mut() {
                *o += read(cycle, note.phase) * gain;
                gain += step;
                note.phase = note.phase.wrapping_add(note.increment);
            }
        }
    }
}

impl Note {
    /// Adds it at one gain.
    fn hold(&mut self, cycle: &Cycle, out: &mut [f32], gain: f32) {
        let (all, rest) = out.as_chunks_mut::<AT_ONCE>();
        for o in all {
            let mut phases = [0; AT_ONCE];
            for phase in &mut phases {
                *phase = self.phase;
                self.phase = self.phase.wrapping_add(self.increment);
            }
            let read = read_all(cycle, &phases);
            for i in 0..AT_ONCE {
                o[i] += read[i] * gain;
            }
        }
        for o in rest {
            *o += read(cycle, self.phase) * gain;
            self.phase = self.phase.wrapping_add(self.increment);
        }
    }
}

impl AudioNode for DroneVoice<'_> {
    const ID: u64 = 0x6c70_0004;
    type Inputs = U0;
    type Outputs = U1;

    fn tick(&mut self, _: &fundsp::Frame<f32, U0>) -> fundsp::Frame<f32, U1> {
        let mut one = [0.0];
        self.fill(&mut one);
        one.into()
    }

    fn process(&mut self, size: usize, _: &BufferRef, output: &mut BufferMut) {
        self.fill(&mut output.channel_f32_mut(0)[..size]);
    }
}
