//! From the text of a routine to samples, stage by stage, without a file being written:
//! `cargo run --release --example text_to_samples`.

use leadpipe::check::{self, Options};
use leadpipe::music::Decimal;
use leadpipe::routine;
use leadpipe::score::{self, Take, TakeTempo};
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Content, Settings, compile};

const SAMPLE_RATE: u32 = 44_100;

const TEXT: &str = r#"
format = 1
title = "Two lines"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 72
meter = "4/4"

[[line]]
name = "Long tone and neighbour"
notes = "slur( G4:half F#4:half | G4:whole )"
half_steps = [0, -1, -2]

[[line]]
name = "Two notes on three tubes"
open = "slur( C4:half G4:half | C4:whole )"
tubes = ["0", "2", "1"]
"#;

fn main() {
    // The text becomes a routine, or every fault in it with its place.
    let routine = match routine::read(TEXT) {
        Ok(routine) => routine,
        Err(faults) => {
            for fault in faults {
                let at = routine::source::row_and_column(TEXT, fault.span.start);
                eprintln!("{}:{}: {}", at.0, at.1, fault.message);
            }
            std::process::exit(1);
        }
    };

    // A routine at a take becomes a score: every pass and note, with pitch, fingering and exact time.
    let take = Take {
        tempo: TakeTempo::Percent(Decimal::from_integer(85)),
        ..Take::default()
    };
    let score = score::unroll(&routine, &take).expect("85 % of the tempo is within bounds");
    for finding in check::check(&score, &Options::default()).findings {
        println!("{}: {}", finding.severity.word(), finding.message);
    }

    // A score becomes a timeline: frames, hertz, gains, and how one note leads to the next.
    let settings = Settings {
        sample_rate: SAMPLE_RATE,
        signs: true,
    };
    let timeline = compile(&score, &settings);

    // Each unit of the timeline, a line or a rest, is rendered by itself, block by block.
    let engine = Engine::new(SAMPLE_RATE);
    let mut samples: Vec<f32> = Vec::new();
    for unit in &timeline.units {
        let start = samples.len();
        let mut performance = engine.perform(unit);
        let mut block = Block::SILENT;
        loop {
            let frames = performance.next_block(&mut block);
            if frames == 0 {
                break;
            }
            samples.extend((0..frames).map(|frame| block.mix(frame)));
        }
        let what = match unit.content {
            Content::Line(_) => "line",
            Content::Rest(_) => "rest",
        };
        let peak = samples[start..]
            .iter()
            .fold(0.0_f32, |peak, x| peak.max(x.abs()));
        let seconds =
            f64::from(u32::try_from(unit.frames).unwrap_or(u32::MAX)) / f64::from(SAMPLE_RATE);
        println!("{what}: {seconds:.2} s, peak {peak:.3}");
    }
    assert_eq!(samples.len() as u64, timeline.frames);
}
