//! Units of the timeline built by hand, and what the voices make of them.

use leadpipe::brass::Family;
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{
    Approach, Content, LevelPoint, LineSound, Onset, Source, Step, Tone, Unit, rise_seconds,
};

pub const RATES: [u32; 2] = [44_100, 48_000];
/// The guide's compass, sounding: E3 to C6.
pub const GUIDE: std::ops::RangeInclusive<u8> = 52..=84;
/// dB against forte of pp, p, mp, mf, f, ff.
pub const MARKS: [f64; 6] = [-18.0, -13.0, -9.0, -5.0, 0.0, 4.0];
/// −80 dBFS.
pub const SILENCE: f64 = 1e-4;

pub struct Voices {
    pub guide: Vec<f32>,
    pub drone: Vec<f32>,
    pub click: Vec<f32>,
}

impl Voices {
    pub fn mix(&self) -> Vec<f32> {
        (0..self.guide.len())
            .map(|i| self.guide[i] + self.drone[i] + self.click[i])
            .collect()
    }
}

pub fn perform(engine: &Engine, unit: &Unit) -> Voices {
    let mut voices = Voices {
        guide: vec![],
        drone: vec![],
        click: vec![],
    };
    let mut performance = engine.perform(unit);
    let mut block = Block::SILENT;
    loop {
        let n = performance.next_block(&mut block);
        if n == 0 {
            break;
        }
        for (voice, part) in [
            (&mut voices.guide, &block.guide),
            (&mut voices.drone, &block.drone),
            (&mut voices.click, &block.click),
        ] {
            assert!(part[n..].iter().all(|x| *x == 0.0));
            assert!(block.sounding || part.iter().all(|x| *x == 0.0));
            voice.extend_from_slice(&part[..n]);
        }
    }
    assert_eq!(voices.guide.len() as u64, unit.frames);
    voices
}

pub fn unit(frames: u64, line: LineSound) -> Unit {
    Unit {
        first_frame: 0,
        frames,
        content: Content::Line(line),
    }
}

pub fn guide(engine: &Engine, tones: Vec<Tone>) -> Vec<f32> {
    let end = tones.iter().map(|t| t.end).max().unwrap_or(0) + 5_000;
    perform(
        engine,
        &unit(
            end,
            LineSound {
                tones,
                ..LineSound::default()
            },
        ),
    )
    .guide
}

/// One note, tongued.
pub fn tone(frame: u64, end: u64, hz: f64, db: f64) -> Tone {
    Tone {
        frame,
        end,
        rise: rise(hz, db, Onset::Tongue),
        onset: Onset::Tongue,
        accented: false,
        release: 3_000,
        source: Source::Horn,
        family: Family::Trumpet,
        steps: vec![Step {
            frame,
            hz,
            approach: Approach::Start,
        }],
        levels: vec![LevelPoint { frame, db }],
        seed: frame ^ 0x5eed,
    }
}

/// Frames of a rise at the faster of the two rates.
fn rise(hz: f64, db: f64, onset: Onset) -> u64 {
    (48_000.0 * rise_seconds(Family::Trumpet, hz, db, onset)) as u64
}

/// The same note started in another way.
pub fn started(mut tone: Tone, onset: Onset) -> Tone {
    tone.onset = onset;
    tone.rise = rise(tone.steps[0].hz, tone.levels[0].db, onset);
    tone
}

pub fn then(mut tone: Tone, frame: u64, hz: f64, approach: Approach) -> Tone {
    tone.steps.push(Step {
        frame,
        hz,
        approach,
    });
    tone
}

pub fn loudness(x: &[f32], rate: u32) -> f64 {
    let mut meter = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
    meter.add_frames_f32(x).expect("frames");
    meter.loudness_global().expect("loudness")
}
