//! The click: heard through a horn, and exact to the frame.

use fundsp::prelude64::sine_hz;

use super::{graph, levels, signs};
use crate::timeline::{Click, Content, Sign, Unit};

/// Length of a click, seconds.
pub const CLICK_SECONDS: f64 = 0.03;
/// Frames from a click's first, which always sounds, to its largest: an onset finder may rely on both.
pub const CLICK_PEAK_FRAMES: usize = 24;
/// Where something would run past the end of its unit it is faded out over so many frames.
const CUT_FRAMES: u64 = 96;

/// Clicks and signs, made once a batch.
#[derive(Debug)]
pub struct Clicks {
    plain: Vec<f32>,
    accented: Vec<f32>,
    horn_down: Vec<f32>,
    horn_up: Vec<f32>,
}

impl Clicks {
    /// Plays them out at `sample_rate`.
    pub fn new(sample_rate: f64) -> Self {
        Self {
            plain: click(sample_rate, 2_500.0, levels::CLICK_PEAK),
            accented: click(sample_rate, 3_300.0, levels::ACCENTED_PEAK),
            horn_down: signs::play(Sign::HornDown, sample_rate),
            horn_up: signs::play(Sign::HornUp, sample_rate),
        }
    }

    fn of(&self, struck: Struck) -> &[f32] {
        match struck {
            Struck::Click { accented: false } => &self.plain,
            Struck::Click { accented: true } => &self.accented,
            Struck::Sign(Sign::HornDown) => &self.horn_down,
            Struck::Sign(Sign::HornUp) => &self.horn_up,
        }
    }
}

/// Where a trumpet leaves room for the click, Hz: its partials there lie far below those at 3 kHz.
const BRIGHT_HZ: [f32; 2] = [6_600.0, 7_194.0];
/// Their share of the height. They ring longer instead, which costs no height.
const BRIGHT_SHARE: f32 = 0.28;
/// A phase at which the first swings of both bands add up, so that the largest comes soon.
const BRIGHT_PHASE: f32 = 0.15;

/// Two bands. Two partials like those of a struck piece of hard wood lie between 2 and 5 kHz, where the ear is
/// most sensitive (ISO 226); they are heard beside the guide, and by ears that hear little above. Two more lie
/// where they are heard through the player's own trumpet (`tests/sound/click.rs`). It begins at half its height
/// in its very first frame.
fn click(sample_rate: f64, hz: f32, peak: f64) -> Vec<f32> {
    let shape = |ring: fn(f64) -> f64| {
        graph::curve(move |t: f64| {
            let rise = (0.5 + t / 0.000_2).min(1.0);
            let last = ((CLICK_SECONDS - t) / 0.01).clamp(0.0, 1.0);
            rise * ring(t) * last * last * (3.0 - 2.0 * last)
        })
    };
    let wood = sine_hz(hz).phase(0.25) * 0.7 + sine_hz(hz * 1.47).phase(0.25) * 0.3;
    let wood = wood * shape(|t| 0.6 * libm::exp(-t / 0.0012) + 0.4 * libm::exp(-t / 0.008));
    let [low, high] = BRIGHT_HZ.map(|hz| sine_hz(hz).phase(BRIGHT_PHASE) * 0.5);
    let bright = (low + high) * shape(|t| libm::exp(-t / 0.01));
    let frames = (CLICK_SECONDS * sample_rate) as usize;
    levels::scaled(
        graph::play(
            wood * (1.0 - BRIGHT_SHARE) + bright * BRIGHT_SHARE,
            sample_rate,
            frames,
        ),
        peak,
    )
}

#[derive(Clone, Copy)]
enum Struck {
    Click { accented: bool },
    Sign(Sign),
}

/// The click's voice in a unit: prepared sounds laid down at their frames.
#[derive(Clone, Debug)]
pub struct Clicking<'a> {
    clicks: &'a Clicks,
    unit: &'a Unit,
    frame: u64,
    /// The first of the unit's list that may still sound.
    first: usize,
}

impl<'a> Clicking<'a> {
    /// From the first frame of a unit.
    pub fn new(clicks: &'a Clicks, unit: &'a Unit) -> Self {
        Self {
            clicks,
            unit,
            frame: 0,
            first: 0,
        }
    }

    fn struck(&self, i: usize) -> Option<(u64, Struck)> {
        match &self.unit.content {
            Content::Line(line) => line
                .clicks
                .get(i)
                .map(|&Click { frame, accented }| (frame, Struck::Click { accented })),
            Content::Rest(rest) => rest
                .signs
                .get(i)
                .map(|&(frame, sign)| (frame, Struck::Sign(sign))),
        }
    }

    /// The frame at or after the present one from which it may sound.
    pub fn next_sound(&self) -> Option<u64> {
        self.struck(self.first)
            .map(|(frame, _)| frame.max(self.frame))
    }

    /// Goes on to `frame` without sounding.
    pub fn skip_to(&mut self, frame: u64) {
        self.frame = frame;
    }

    /// Adds the next frames to `out`.
    pub fn add(&mut self, out: &mut [f32]) {
        let end = self.frame + out.len() as u64;
        let mut i = self.first;
        while let Some((start, struck)) = self.struck(i).filter(|&(start, _)| start < end) {
            let sound = self.clicks.of(struck);
            let stop = start + sound.len() as u64;
            let from = start.max(self.frame);
            if from < stop.min(end) {
                let sound = &sound[(from - start) as usize..];
                let out = &mut out[(from - self.frame) as usize..];
                if stop <= self.unit.frames {
                    out.iter_mut().zip(sound).for_each(|(o, x)| *o += x);
                } else {
                    // It would run past its unit: fade it out before.
                    for (frame, (o, x)) in (from..self.unit.frames).zip(out.iter_mut().zip(sound)) {
                        let left = (self.unit.frames - frame).min(CUT_FRAMES);
                        *o += x * (left as f32 / CUT_FRAMES as f32);
                    }
                }
            }
            if stop <= end && i == self.first {
                self.first += 1;
            }
            i += 1;
        }
        self.frame = end;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_click_sounds_at_once_and_peaks_soon() {
        for rate in [44_100.0, 48_000.0] {
            let clicks = Clicks::new(rate);
            for (sound, peak) in [
                (&clicks.plain, levels::CLICK_PEAK as f32),
                (&clicks.accented, levels::ACCENTED_PEAK as f32),
            ] {
                assert!(sound.len() as f64 <= 0.04 * rate);
                assert!(sound[0].abs() > 0.3 * peak);
                let (at, largest) = sound
                    .iter()
                    .map(|x| x.abs())
                    .enumerate()
                    .fold((0, 0.0), |m, x| if x.1 > m.1 { x } else { m });
                assert!(at < CLICK_PEAK_FRAMES, "{at}");
                assert!((largest - peak).abs() < 1e-6);
                assert!(sound[sound.len() - 1].abs() < 1e-5);
            }
        }
    }
}
