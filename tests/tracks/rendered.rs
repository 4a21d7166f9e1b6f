//! A routine's text rendered to WAV files, and the files read back.

use leadpipe::render::{Bits, FileKind, Labels, RenderSettings, Track, TrackPart, batch};
use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::timeline::compile::{self, compile};
use leadpipe::timeline::{Cue, Timeline};
use std::path::Path;
use std::sync::atomic::AtomicBool;

pub const RATE: u32 = 44_100;
/// −80 dBFS.
pub const SILENCE: f64 = 1e-4;

/// A head and lines, each line the rows under its `[[line]]`.
pub fn text(instrument: &str, tempo: &str, lines: &[String]) -> String {
    let mut text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"{instrument}\"\ncomfortable_top = \"G4\"\n\
         tempo = {tempo}\nmeter = \"4/4\"\n"
    );
    for (i, line) in lines.iter().enumerate() {
        text += &format!("\n[[line]]\nname = \"L{}\"\n{line}\n", i + 1);
    }
    text
}

/// A routine for a trumpet in B-flat.
pub fn trumpet(tempo: &str, lines: &[&str]) -> String {
    let lines: Vec<String> = lines.iter().map(|l| (*l).to_owned()).collect();
    text("trumpet in B-flat", tempo, &lines)
}

pub fn timeline(text: &str, take: &Take) -> Timeline {
    let routine = routine::read(text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"));
    let score = unroll(&routine, take).expect("it unrolls");
    let settings = compile::Settings {
        sample_rate: RATE,
        signs: true,
    };
    compile(&score, &settings)
}

/// What the files of a track hold, in steps of 16 bits.
pub struct Rendered {
    pub mix: Vec<i16>,
    pub guide: Vec<i16>,
    pub drone: Vec<i16>,
    pub click: Vec<i16>,
    /// Where its lines are.
    pub cues: Vec<Cue>,
}

impl Rendered {
    /// The track of a text at a take, with its stems.
    pub fn of(text: &str, take: &Take) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let timeline = timeline(text, take);
        let cues = timeline.cues.clone();
        let frames = timeline.frames;
        let track = Track {
            name: "t".to_owned(),
            labels: Labels::default(),
            origin: None,
            frames,
            like: vec![],
            twin: None,
            fingerprint: None,
            timeline: Box::new(move || timeline.clone()),
        };
        let settings = RenderSettings {
            stems: true,
            threads: Some(1),
            ..RenderSettings::new(RATE, Bits::Sixteen)
        };
        let end = batch::render(
            &[track],
            folder.path(),
            &settings,
            &AtomicBool::new(false),
            &(),
        );
        assert!(end.failure.is_none(), "{:?}", end.failure);
        let of = |part: TrackPart| steps(&folder.path().join(part.file_name("t", FileKind::Wav)));
        let rendered = Self {
            mix: of(TrackPart::Mix),
            guide: of(TrackPart::Guide),
            drone: of(TrackPart::Drone),
            click: of(TrackPart::Click),
            cues,
        };
        for part in [
            &rendered.mix,
            &rendered.guide,
            &rendered.drone,
            &rendered.click,
        ] {
            assert_eq!(part.len() as u64, frames);
        }
        rendered
    }
}

fn steps(path: &Path) -> Vec<i16> {
    let reader = hound::WavReader::open(path).unwrap();
    assert_eq!(reader.spec().sample_rate, RATE);
    reader.into_samples().map(Result::unwrap).collect()
}

/// Steps as a share of full scale.
pub fn scaled(steps: &[i16]) -> Vec<f32> {
    steps.iter().map(|s| f32::from(*s) / 32_768.0).collect()
}

/// The frame nearest to a moment in seconds that is written as a fraction.
pub fn frame(numerator: u64, denominator: u64) -> usize {
    ((2 * numerator * u64::from(RATE) + denominator) / (2 * denominator)) as usize
}
