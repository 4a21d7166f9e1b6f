//! Breath: the noise in a tone, the consonant at its start, and the breathing of air lines.

use fundsp::prelude64::{
    An, AudioNode, BufferArray, BufferMut, BufferRef, FixedSvf, HighpassMode, LowpassMode, Noise,
    Pipe, U0, U1, highpass_hz, lowpass_hz, white,
};

use super::block::BLOCK;
use super::families::HornTone;
use super::{graph, levels};
use crate::brass::Family;
use crate::timeline::Swell;
use std::sync::OnceLock;

/// White noise through two filters of second order.
type Band = Pipe<Pipe<Noise, FixedSvf<f64, HighpassMode<f64>>>, FixedSvf<f64, LowpassMode<f64>>>;

const BUTTERWORTH: f32 = std::f32::consts::FRAC_1_SQRT_2;

/// Seconds of the stretch of noise that tones draw from, each from a place of its own.
const LOOP_FRAMES: usize = 1 << 17;
const CONSONANT_FRAMES: usize = 1 << 14;
/// A consonant's noise, Hz.
const CONSONANT_BAND_HZ: (f32, f32) = (2_000.0, 7_000.0);

fn band(seed: u64, (low, high): (f32, f32)) -> An<Band> {
    white().seed(seed) >> highpass_hz(low, BUTTERWORTH) >> lowpass_hz(high, BUTTERWORTH)
}

/// Noise made once a batch. Its RMS is 1.
#[derive(Debug)]
pub struct Breath {
    sample_rate: f64,
    /// Each family's, in the order of [`Family::ALL`], made when it is asked for.
    tones: [OnceLock<Vec<f32>>; Family::ALL.len()],
    consonant: Vec<f32>,
}

impl Breath {
    /// Plays the noise out.
    pub fn new(sample_rate: f64) -> Self {
        Self {
            sample_rate,
            tones: Default::default(),
            consonant: endless(band(12, CONSONANT_BAND_HZ), sample_rate, CONSONANT_FRAMES),
        }
    }

    /// Adds the noise of a family's tone from place `at` on, with a gain that moves evenly from `from` to `to`.
    pub fn add(&self, family: Family, out: &mut [f32], at: u32, from: f32, to: f32) {
        add(self.tone(family), out, at, from, to);
    }

    fn tone(&self, family: Family) -> &[f32] {
        self.tones[family as usize].get_or_init(|| {
            let (low, high) = HornTone::of(family).noise_band_hz;
            let band = band(11, (low as f32, high as f32));
            endless(band, self.sample_rate, LOOP_FRAMES)
        })
    }

    /// Adds a consonant's noise likewise.
    pub fn add_consonant(&self, out: &mut [f32], at: u32, from: f32, to: f32) {
        add(&self.consonant, out, at, from, to);
    }
}

fn add(noise: &[f32], mut out: &mut [f32], at: u32, from: f32, to: f32) {
    let step = (to - from) / out.len() as f32;
    let mut gain = from;
    let mut place = at as usize % noise.len();
    while !out.is_empty() {
        let n = out.len().min(noise.len() - place);
        let (now, later) = out.split_at_mut(n);
        for (i, (o, x)) in now.iter_mut().zip(&noise[place..]).enumerate() {
            *o += x * (gain + step * i as i32 as f32);
        }
        gain += step * n as f32;
        place = 0;
        out = later;
    }
}

/// A stretch of noise whose end leads back into its beginning, of RMS 1.
fn endless(band: An<Band>, sample_rate: f64, frames: usize) -> Vec<f32> {
    let join = frames / 16;
    // The filters settle before the stretch begins.
    let settle = 1024;
    let mut played = graph::play(band, sample_rate, settle + frames + join);
    played.drain(..settle);
    for i in 0..join {
        let x = (i as f64 + 0.5) / join as f64;
        let (sin, cos) = libm::sincos(0.5 * std::f64::consts::PI * x);
        played[i] = (sin * f64::from(played[i]) + cos * f64::from(played[frames + i])) as f32;
    }
    played.truncate(frames);
    let power: f64 = played.iter().map(|&x| f64::from(x) * f64::from(x)).sum();
    let scale = (frames as f64 / power).sqrt() as f32;
    played.iter_mut().for_each(|x| *x *= scale);
    played
}

/// The breaths of an air line, one after another.
#[derive(Clone)]
pub struct Breathing<'a> {
    swells: &'a [Swell],
    sample_rate: f64,
    frame: u64,
    now: Option<Breathed>,
}

/// One breath under way.
#[derive(Clone)]
struct Breathed {
    swell: Swell,
    noise: An<Band>,
    buffer: BufferArray<U1>,
    /// Frames of the buffer that have been used.
    used: usize,
    gain: f32,
}

impl<'a> Breathing<'a> {
    /// From the first frame of a unit.
    pub fn new(swells: &'a [Swell], sample_rate: f64) -> Self {
        Self {
            swells,
            sample_rate,
            frame: 0,
            now: None,
        }
    }

    /// The frame at or after the present one from which it may sound.
    pub fn next_sound(&self) -> Option<u64> {
        match (&self.now, self.swells.first()) {
            (Some(_), _) => Some(self.frame),
            (None, next) => next.map(|s| s.frame.max(self.frame)),
        }
    }

    /// Goes on to `frame` without sounding.
    pub fn skip_to(&mut self, frame: u64) {
        self.frame = frame;
    }

    fn fill(&mut self, out: &mut [f32]) {
        out.fill(0.0);
        let end = self.frame + out.len() as u64;
        let mut at = 0;
        loop {
            if self.now.is_none() {
                let Some((&swell, later)) = self.swells.split_first() else {
                    break;
                };
                if swell.frame >= end {
                    break;
                }
                self.swells = later;
                if swell.end <= swell.frame.max(self.frame) {
                    continue;
                }
                at = at.max(swell.frame.saturating_sub(self.frame) as usize);
                self.now = Some(Breathed::new(swell, self.sample_rate));
            }
            let Some(breath) = &mut self.now else { break };
            let stop = out.len().min((breath.swell.end - self.frame) as usize);
            breath.add(&mut out[at..stop], self.frame + at as u64);
            at = stop;
            if self.frame + at as u64 >= breath.swell.end {
                self.now = None;
            }
            if at == out.len() {
                break;
            }
        }
        self.frame = end;
    }
}

impl Breathed {
    fn new(swell: Swell, sample_rate: f64) -> Self {
        // Breathing in hisses at the lips; breathing out is darker and wider.
        let hz = if swell.inward {
            (1_100.0, 3_800.0)
        } else {
            (260.0, 1_300.0)
        };
        let mut noise = band(swell.seed, hz);
        noise.set_sample_rate(sample_rate);
        noise.reset();
        // White noise between -1 and 1 has an RMS of 1/sqrt 3, and a band of it its share of the whole;
        // a filter pair of second order passes about 1.2 times the width between its corners.
        let share = 1.2 * f64::from(hz.1 - hz.0) / (sample_rate / 2.0);
        Self {
            swell,
            noise,
            buffer: BufferArray::new(),
            used: BLOCK,
            gain: (levels::SWELL_RMS * (3.0 / share).sqrt()) as f32,
        }
    }

    /// Height of the swell from 0 to 1: it grows and fades without a corner.
    fn height(&self, frame: u64) -> f32 {
        let (length, x) = (
            (self.swell.end - self.swell.frame) as f64,
            frame.saturating_sub(self.swell.frame) as f64,
        );
        let top = if self.swell.inward { 0.6 } else { 0.4 };
        let x = (x / length).min(1.0);
        let quarter = if x < top {
            x / top
        } else {
            (1.0 - x) / (1.0 - top)
        };
        let sin = libm::sin(0.5 * std::f64::consts::PI * quarter);
        (sin * sin) as f32
    }

    fn add(&mut self, mut out: &mut [f32], mut frame: u64) {
        while !out.is_empty() {
            if self.used == BLOCK {
                self.noise
                    .process(BLOCK, &BufferRef::empty(), &mut self.buffer.buffer_mut());
                self.used = 0;
            }
            let n = out.len().min(BLOCK - self.used);
            let (now, later) = out.split_at_mut(n);
            let from = self.height(frame) * self.gain;
            let step = (self.height(frame + n as u64) * self.gain - from) / n as f32;
            let noise = &self.buffer.channel_f32(0)[self.used..];
            for (i, (o, x)) in now.iter_mut().zip(noise).enumerate() {
                *o += x * (from + step * i as i32 as f32);
            }
            self.used += n;
            frame += n as u64;
            out = later;
        }
    }
}

impl AudioNode for Breathing<'_> {
    const ID: u64 = 0x6c70_0002;
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_of_unit_rms_and_joins_its_own_end() {
        let breath = Breath::new(48_000.0);
        let noise = breath.tone(Family::Trumpet);
        let power: f64 = noise.iter().map(|&x| f64::from(x) * f64::from(x)).sum();
        assert!((power / noise.len() as f64 - 1.0).abs() < 1e-5);
        let largest = noise
            .windows(2)
            .map(|w| (w[1] - w[0]).abs())
            .fold(0.0, f32::max);
        assert!((noise[0] - noise[noise.len() - 1]).abs() < largest);
        // A stretch over the join is the same as its two parts.
        let (mut whole, mut parts) = ([0.0; 64], [0.0; 64]);
        let at = LOOP_FRAMES as u32 - 20;
        breath.add(Family::Trumpet, &mut whole, at, 1.0, 1.0);
        breath.add(Family::Trumpet, &mut parts[..20], at, 1.0, 1.0);
        breath.add(Family::Trumpet, &mut parts[20..], 0, 1.0, 1.0);
        assert_eq!(whole, parts);
    }
}
