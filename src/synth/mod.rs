//! How a unit of the timeline sounds.
//!
//! Three voices fill blocks of 64 frames: the guide ([`horn`], and [`breath`] on air lines), the
//! [`drone`], and the [`click`] with its [`signs`]. Each is a [fundsp] node of its own that reads tables
//! and prepared sounds made once an [`Engine`]; their [`levels`] are set by construction.
//!
//! A performance begins afresh at its unit's first frame and knows nothing of what came before, so the
//! same unit always gives the same bits.

pub mod breath;
pub mod click;
mod contour;
mod drift;
pub mod drone;
mod graph;
pub mod horn;
pub mod levels;
pub mod mix;
pub mod signs;
pub mod spectrum;
pub mod steps;
pub mod tables;
pub mod volume;

use std::fmt;

use fundsp::prelude64::{AudioNode, BufferArray, BufferRef, U1};

use self::{
    breath::{Breath, Breathing},
    click::{Clicking, Clicks},
    drone::Drone,
    horn::Horn,
    spectrum::Timbre,
    tables::{Bank, rms},
};
use crate::timeline::{Content, Unit};

pub use click::{CLICK_PEAK_FRAMES, CLICK_SECONDS};
pub use mix::Balance;
pub use signs::SIGN_SECONDS;

/// Frames in a block.
pub const BLOCK: usize = 64;

/// Frames from one point of a tone's course to the next while nothing quick happens.
const CONTROL_FRAMES: u64 = BLOCK as u64;

/// Whether the guide lives: drift, noise and consonants. Without them it is bare and exactly periodic,
/// which is for measuring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Life {
    /// As it should sound.
    On,
    /// For measuring.
    Off,
}

/// What all takes of one sample rate share: tables and calibrated sounds. Made once a batch.
#[derive(Debug)]
pub struct Engine {
    sample_rate: u32,
    life: Life,
    horn: Bank,
    mouthpiece: Bank,
    drone: Bank,
    breath: Breath,
    clicks: Clicks,
    /// How much of the way brightness goes in 16 and in 64 frames.
    following: [f64; 2],
}

impl Engine {
    /// An engine for `sample_rate` frames a second: 44,100 or more, so that no partial folds back.
    pub fn new(sample_rate: u32) -> Self {
        Self::with(sample_rate, Life::On)
    }

    /// An engine whose guide lives or does not.
    pub fn with(sample_rate: u32, life: Life) -> Self {
        let rate = f64::from(sample_rate);
        // Darker than any held dynamic, for attacks and releases, and brighter, for accents.
        let layers: Vec<f64> = (-2..8).map(|i| Bank::LAYER_STEP * f64::from(i)).collect();
        // From D3, a whole tone below the lowest guide note, to D6.
        let guide = |timbre| Bank::build(timbre, 50, 19, &layers, |_, a| 1.0 / rms(a));
        Self {
            sample_rate,
            life,
            horn: guide(Timbre::Horn),
            mouthpiece: guide(Timbre::Mouthpiece),
            // From E2 to E6.
            drone: Bank::build(Timbre::Drone, 40, 25, &[1.0], |f0, a| {
                spectrum::from_db(levels::DRONE_LUFS - levels::tone_lufs(f0, a))
            }),
            breath: Breath::new(rate),
            clicks: Clicks::new(rate),
            following: [16, 64].map(|frames| horn::following(frames, rate)),
        }
    }

    /// Frames a second.
    pub fn sample_rate(&self) -> u32 {
        self.sample_rate
    }

    /// Bytes of all its tables.
    pub fn table_bytes(&self) -> usize {
        self.horn.bytes() + self.mouthpiece.bytes() + self.drone.bytes()
    }

    fn rate(&self) -> f64 {
        f64::from(self.sample_rate)
    }

    fn following(&self, frames: u64) -> f64 {
        match frames {
            16 => self.following[0],
            64 => self.following[1],
            _ => horn::following(frames, self.rate()),
        }
    }

    /// Starts a unit from its first frame.
    pub fn perform<'a>(&'a self, unit: &'a Unit) -> Performance<'a> {
        let (tones, held, swells) = match &unit.content {
            Content::Line(line) => (&line.tones[..], &line.drone[..], &line.swells[..]),
            Content::Rest(_) => (&[][..], &[][..], &[][..]),
        };
        Performance {
            unit,
            frame: 0,
            horn: Horn::new(self, tones),
            breathing: Breathing::new(swells, self.rate()),
            drone: Drone::new(self, held),
            clicking: Clicking::new(&self.clicks, unit),
            buffer: BufferArray::new(),
        }
    }
}

/// A unit being performed, block by block.
#[derive(Clone)]
pub struct Performance<'a> {
    unit: &'a Unit,
    frame: u64,
    horn: Horn<'a>,
    breathing: Breathing<'a>,
    drone: Drone<'a>,
    clicking: Clicking<'a>,
    buffer: BufferArray<U1>,
}

impl fmt::Debug for Performance<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Performance")
            .field("frame", &self.frame)
            .field("frames", &self.unit.frames)
            .finish_non_exhaustive()
    }
}

/// Up to 64 frames of the three voices. Their sum is the track ([`Block::mix`]).
#[derive(Clone, Debug)]
pub struct Block {
    /// Guide tone.
    pub guide: [f32; BLOCK],
    /// Drone.
    pub drone: [f32; BLOCK],
    /// Clicks and signs.
    pub click: [f32; BLOCK],
    /// False where all three are silent: nothing but zeros.
    pub sounding: bool,
}

impl Block {
    /// Silence.
    pub const SILENT: Block = Block {
        guide: [0.0; BLOCK],
        drone: [0.0; BLOCK],
        click: [0.0; BLOCK],
        sounding: false,
    };
}

impl Performance<'_> {
    /// Fills `block` with the next frames of the unit and returns how many there are: 64, fewer at its
    /// end, 0 when it is over. Frames beyond are silence.
    pub fn next_block(&mut self, block: &mut Block) -> usize {
        if block.sounding {
            *block = Block::SILENT;
        }
        let frames = (self.unit.frames - self.frame).min(BLOCK as u64);
        let end = self.frame + frames;
        let n = frames as usize;
        let sounds = |next: Option<u64>| next.is_some_and(|frame| frame < end);
        if sounds(self.horn.next_sound()) {
            play(&mut self.horn, &mut self.buffer, &mut block.guide[..n]);
            block.sounding = true;
        } else {
            self.horn.skip_to(end);
        }
        if sounds(self.breathing.next_sound()) {
            let mut air = [0.0; BLOCK];
            play(&mut self.breathing, &mut self.buffer, &mut air[..n]);
            block.guide.iter_mut().zip(air).for_each(|(g, a)| *g += a);
            block.sounding = true;
        } else {
            self.breathing.skip_to(end);
        }
        if sounds(self.drone.next_sound()) {
            play(&mut self.drone, &mut self.buffer, &mut block.drone[..n]);
            block.sounding = true;
        } else {
            self.drone.skip_to(end);
        }
        if sounds(self.clicking.next_sound()) {
            self.clicking.add(&mut block.click[..n]);
            block.sounding = true;
        } else {
            self.clicking.skip_to(end);
        }
        self.frame = end;
        n
    }

    /// Passes over the silence ahead, whole blocks of it or all up to the unit's end, and returns its
    /// frames: 0 where the next block sounds. The blocks after it are the same as if it had been asked for.
    pub fn skip_silence(&mut self) -> u64 {
        let next = [
            self.horn.next_sound(),
            self.breathing.next_sound(),
            self.drone.next_sound(),
            self.clicking.next_sound(),
        ];
        let block = BLOCK as u64;
        let to = match next.into_iter().flatten().min() {
            Some(frame) if frame < self.unit.frames => frame / block * block,
            _ => self.unit.frames,
        };
        let silent = to.saturating_sub(self.frame);
        if silent > 0 {
            self.horn.skip_to(to);
            self.breathing.skip_to(to);
            self.drone.skip_to(to);
            self.clicking.skip_to(to);
            self.frame = to;
        }
        silent
    }
}

fn play(voice: &mut impl AudioNode, buffer: &mut BufferArray<U1>, out: &mut [f32]) {
    voice.process(out.len(), &BufferRef::empty(), &mut buffer.buffer_mut());
    out.copy_from_slice(&buffer.channel_f32(0)[..out.len()]);
}
