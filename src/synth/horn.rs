//! The guide tone: a brass-like voice that reads single cycles at an exact pitch.

use fundsp::prelude64::{AudioNode, BufferMut, BufferRef, U0, U1};

use super::block::CONTROL_FRAMES;
use super::contour::{Contour, OCTAVES_PER_CENT, Point};
use super::drift::Seeds;
use super::engine::{Engine, Life};
use super::levels;
use super::spectrum::from_db;
use super::tables::{AT_ONCE, Bank, Cycle, POINTS, increment, read, read_all};
use crate::brass::Family;
use crate::timeline::{Onset, Tone};

/// Frames from one point of a tone's course to the next while something quick happens.
const QUICK_FRAMES: u64 = 16;
/// RMS of a consonant at its height against the note, dB: recorded ones lie about −40.
const TONGUE_DB: f64 = -38.0;
const KU_DB: f64 = -43.0;
/// A consonant's rise, the time constant of its decay, and its whole length, seconds.
const CONSONANT_RISE: f64 = 0.001;
const CONSONANT_DECAY: f64 = 0.004;
const CONSONANT_SECONDS: f64 = 0.03;

/// The guide's voice in a unit: its tones, one after another.
#[derive(Clone)]
pub struct Horn<'a> {
    engine: &'a Engine,
    tones: &'a [Tone],
    frame: u64,
    voice: Option<Voice<'a>>,
    blend: Blend,
}

impl<'a> Horn<'a> {
    /// From the first frame of a unit.
    pub fn new(engine: &'a Engine, tones: &'a [Tone]) -> Self {
        Self {
            engine,
            tones,
            frame: 0,
            voice: None,
            blend: Blend::new(),
        }
    }

    /// The frame at or after the present one from which it may sound.
    pub fn next_sound(&self) -> Option<u64> {
        match (&self.voice, self.tones.first()) {
            (Some(_), _) => Some(self.frame),
            (None, next) => next.map(|t| t.frame.max(self.frame)),
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
            if self.voice.is_none() {
                let Some((tone, later)) = self.tones.split_first() else {
                    break;
                };
                if tone.frame >= end {
                    break;
                }
                self.tones = later;
                at = at.max(tone.frame);
                if tone.steps.is_empty() || tone.end <= at {
                    // The timeline's tones have steps and do not overlap; others are passed over.
                    continue;
                }
                self.blend.forget();
                self.voice = Some(Voice::new(self.engine, tone, at));
            }
            let Some(voice) = &mut self.voice else { break };
            let stop = end.min(voice.end);
            voice.fill(
                &mut out[(at - self.frame) as usize..(stop - self.frame) as usize],
                at,
                &mut self.blend,
            );
            at = stop;
            if at == voice.end {
                self.voice = None;
            }
        }
        self.frame = end;
    }
}

impl AudioNode for Horn<'_> {
    const ID: u64 = 0x6c70_0003;
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

/// A tone under way.
#[derive(Clone)]
struct Voice<'a> {
    engine: &'a Engine,
    family: Family,
    bank: &'a Bank,
    contour: Contour,
    start: u64,
    end: u64,
    phase: u32,
    /// The point reached, and what follows it with a delay or in bounded steps.
    here: Point,
    increment: f64,
    brightness: f64,
    layer: f64,
    place: f64,
    noise_at: u32,
    consonant: Option<f64>,
}

impl<'a> Voice<'a> {
    fn new(engine: &'a Engine, tone: &Tone, at: u64) -> Self {
        let bank = engine.bank(tone);
        let mut seeds = Seeds::new(tone.seed);
        let noise_at = seeds.bits() as u32;
        let mut contour = Contour::new(tone, engine.rate(), engine.life, &mut seeds);
        let here = contour.at(at);
        let consonant_db = match (engine.life, tone.onset) {
            (Life::Off, _) | (_, Onset::Air) => None,
            (_, Onset::Tongue) => Some(TONGUE_DB),
            (_, Onset::Ku) => Some(KU_DB),
        };
        let level_db = tone.levels.first().map_or(0.0, |l| l.db);
        Self {
            engine,
            family: tone.family,
            bank,
            contour,
            start: tone.frame,
            end: tone.end,
            phase: 0,
            here,
            increment: tone_increment(here, engine.rate()),
            brightness: here.brightness,
            layer: bank.layer(here.brightness),
            place: bank.place(here.log2_hz),
            noise_at,
            consonant: consonant_db.map(|db| levels::FORTE_RMS * from_db(db + level_db)),
        }
    }

    /// Fills frames from `from` on, none beyond the tone's end.
    fn fill(&mut self, out: &mut [f32], from: u64, blend: &mut Blend) {
        let end = from + out.len() as u64;
        let mut at = from;
        let mut rest = out;
        while at < end {
            let grid = if self.contour.busy(at, (at + CONTROL_FRAMES).min(self.end)) {
                QUICK_FRAMES
            } else {
                CONTROL_FRAMES
            };
            let stop = ((at / grid + 1) * grid).min(end);
            let (now, later) = rest.split_at_mut((stop - at) as usize);
            self.stretch(now, at, stop, blend);
            at = stop;
            rest = later;
        }
    }

    /// A stretch over which everything moves evenly.
    fn stretch(&mut self, out: &mut [f32], from: u64, to: u64, blend: &mut Blend) {
        let frames = to - from;
        let there = self.contour.at(to);
        let increment = tone_increment(there, self.engine.rate());
        self.brightness += (there.brightness - self.brightness) * self.engine.following(frames);

        // Layers and anchors are crossed one at a time, so that a stretch needs no more than two of
        // each; what is left of a larger step follows in the next stretch.
        let (layer, layer_from, layer_to) = within(
            self.layer,
            self.bank.layer(self.brightness),
            self.bank.top_layer() - 1,
        );
        let (anchor, place_from, place_to) = within(
            self.place,
            self.bank.place(there.log2_hz),
            self.bank.anchor_below(f64::MAX),
        );
        let mut run = Run {
            phase: self.phase,
            increment: self.increment as u32,
            increment_step: ((increment - self.increment) / frames as f64) as i32,
            gain: Ramp::new(self.here.gain, there.gain, frames),
            layer: Ramp::new(layer_from, layer_to, frames),
        };
        if place_from == place_to {
            let (low, high) = blend.cycles(self.bank, anchor, place_from as f32, layer);
            run.held(out, low, high);
        } else {
            let place = Ramp::new(place_from, place_to, frames);
            let cycle = |a, l| self.bank.cycle(anchor + a, layer + l);
            run.gliding(
                out,
                [cycle(0, 0), cycle(0, 1), cycle(1, 0), cycle(1, 1)],
                place,
            );
        }
        self.phase = run.phase;
        self.increment = increment;
        self.layer = layer as f64 + layer_to;
        self.place = anchor as f64 + place_to;

        if there.noise > 0.0 || self.here.noise > 0.0 {
            let at = self.noise_at.wrapping_add((from - self.start) as u32);
            let (from, to) = (self.here.noise as f32, there.noise as f32);
            self.engine.breath.add(self.family, out, at, from, to);
        }
        self.consonant(out, from, to);
        self.here = there;
    }

    fn consonant(&mut self, out: &mut [f32], from: u64, to: u64) {
        let Some(gain) = self.consonant else { return };
        let seconds = |frame: u64| (frame - self.start) as f64 / self.engine.rate();
        let height = |t: f64| {
            if t < CONSONANT_RISE {
                t / CONSONANT_RISE
            } else {
                libm::exp(-(t - CONSONANT_RISE) / CONSONANT_DECAY)
            }
        };
        let at = self.noise_at.wrapping_add((from - self.start) as u32);
        let (t0, t1) = (seconds(from), seconds(to));
        self.engine.breath.add_consonant(
            out,
            at,
            (gain * height(t0)) as f32,
            (gain * height(t1)) as f32,
        );
        if t1 > CONSONANT_SECONDS {
            self.consonant = None;
        }
    }
}

fn tone_increment(point: Point, rate: f64) -> f64 {
    increment(
        libm::exp2(point.log2_hz + point.cents * OCTAVES_PER_CENT),
        rate,
    )
}

/// The pair of neighbours, no higher than `highest` and the one above it, between which a step from
/// `from` towards `to` can be made: the lower one, and both ends as places between the two.
fn within(from: f64, to: f64, highest: usize) -> (usize, f64, f64) {
    let mut below = (from as usize).min(highest);
    if to < from && from == below as f64 && below > 0 {
        below -= 1;
    }
    let place = |x: f64| (x - below as f64).clamp(0.0, 1.0);
    (below, place(from), place(to))
}

/// A value that moves evenly from frame to frame.
#[derive(Clone, Copy)]
struct Ramp {
    value: f32,
    step: f32,
}

impl Ramp {
    fn new(from: f64, to: f64, frames: u64) -> Self {
        Self {
            value: from as f32,
            step: ((to - from) / frames as f64) as f32,
        }
    }
}

/// The inner loops.
struct Run {
    phase: u32,
    increment: u32,
    increment_step: i32,
    gain: Ramp,
    layer: Ramp,
}

impl Run {
    /// A held pitch: two layers.
    fn held(&mut self, out: &mut [f32], low: &Cycle, high: &Cycle) {
        let (mut gain, mut layer) = (self.gain.value, self.layer.value);
        let (all, rest) = out.as_chunks_mut::<AT_ONCE>();
        for o in all {
            let (mut gains, mut layers, mut phases) =
                ([0.0; AT_ONCE], [0.0; AT_ONCE], [0; AT_ONCE]);
            for i in 0..AT_ONCE {
                (gains[i], layers[i], phases[i]) = (gain, layer, self.phase);
                gain += self.gain.step;
                layer += self.layer.step;
                self.advance();
            }
            let (a, b) = (read_all(low, &phases), read_all(high, &phases));
            for i in 0..AT_ONCE {
                o[i] = (a[i] + layers[i] * (b[i] - a[i])) * gains[i];
            }
        }
        for o in rest {
            let a = read(low, self.phase);
            let b = read(high, self.phase);
            *o = (a + layer * (b - a)) * gain;
            gain += self.gain.step;
            layer += self.layer.step;
            self.advance();
        }
    }

    /// A moving pitch: two layers at each of two anchors.
    fn gliding(&mut self, out: &mut [f32], cycles: [&Cycle; 4], place: Ramp) {
        let (mut gain, mut layer, mut x) = (self.gain.value, self.layer.value, place.value);
        for o in out {
            let [a, b, c, d] = cycles.map(|cycle| read(cycle, self.phase));
            let (low, high) = (a + x * (c - a), b + x * (d - b));
            *o = (low + layer * (high - low)) * gain;
            gain += self.gain.step;
            layer += self.layer.step;
            x += place.step;
            self.advance();
        }
    }

    #[inline(always)]
    fn advance(&mut self) {
        self.phase = self.phase.wrapping_add(self.increment);
        self.increment = self.increment.wrapping_add_signed(self.increment_step);
    }
}

/// Two neighbouring layers at a held pitch, mixed from the anchors around it: half the work of a frame.
#[derive(Clone)]
struct Blend {
    held: Option<(usize, f32, usize)>,
    low: Box<Cycle>,
    high: Box<Cycle>,
}

impl Blend {
    fn new() -> Self {
        Self {
            held: None,
            low: Box::new([0.0; POINTS + 1]),
            high: Box::new([0.0; POINTS + 1]),
        }
    }

    /// Another tone may come from another bank.
    fn forget(&mut self) {
        self.held = None;
    }

    fn cycles(&mut self, bank: &Bank, anchor: usize, place: f32, layer: usize) -> (&Cycle, &Cycle) {
        let mix = |cycle: &mut Cycle, layer: usize| {
            let (below, above) = (bank.cycle(anchor, layer), bank.cycle(anchor + 1, layer));
            for ((o, a), b) in cycle.iter_mut().zip(below).zip(above) {
                *o = a + place * (b - a);
            }
        };
        match self.held {
            Some((a, p, l)) if a == anchor && p == place && l == layer => {}
            Some((a, p, l)) if a == anchor && p == place && l + 1 == layer => {
                std::mem::swap(&mut self.low, &mut self.high);
                mix(&mut self.high, layer + 1);
            }
            Some((a, p, l)) if a == anchor && p == place && l == layer + 1 => {
                std::mem::swap(&mut self.low, &mut self.high);
                mix(&mut self.low, layer);
            }
            _ => {
                mix(&mut self.low, layer);
                mix(&mut self.high, layer + 1);
            }
        }
        self.held = Some((anchor, place, layer));
        (&self.low, &self.high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_are_crossed_one_at_a_time() {
        assert_eq!(within(1.5, 1.75, 6), (1, 0.5, 0.75));
        assert_eq!(within(1.5, 2.5, 6), (1, 0.5, 1.0));
        assert_eq!(within(2.0, 2.5, 6), (2, 0.0, 0.5));
        assert_eq!(within(2.0, 1.5, 6), (1, 1.0, 0.5));
        assert_eq!(within(7.0, 7.0, 6), (6, 1.0, 1.0));
        assert_eq!(within(0.0, 0.0, 6), (0, 0.0, 0.0));
    }

    #[test]
    fn a_blend_is_what_a_glide_would_read() {
        let engine = Engine::new(48_000);
        let bank = engine.horn(Family::Trumpet);
        let mut blend = Blend::new();
        for layer in [0, 1, 2, 1, 0, 5] {
            let (low, high) = blend.cycles(bank, 3, 0.25, layer);
            for (cycle, l) in [(low, layer), (high, layer + 1)] {
                let (a, b) = (bank.cycle(3, l)[77], bank.cycle(4, l)[77]);
                assert_eq!(cycle[77], a + 0.25 * (b - a));
            }
        }
    }
}
