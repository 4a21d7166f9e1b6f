//! How fast the voices are, in seconds of sound a second on one core: `cargo bench --bench voices`.

use std::{hint::black_box, time::Instant};

use leadpipe::brass::Family;
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{
    Approach, Click, Content, Held, LevelPoint, LineSound, Onset, RestSound, Source, Step, Swell,
    Tone, Unit,
};

const RATE: u32 = 44_100;
const SECONDS: u64 = 60;

fn main() {
    let started = Instant::now();
    let engine = Engine::new(RATE);
    println!(
        "engine: {:.1} ms, {:.2} MB of tables",
        started.elapsed().as_secs_f64() * 1e3,
        engine.table_bytes() as f64 / 1e6
    );
    let all = line();
    let guide = |tones| LineSound {
        tones,
        ..LineSound::default()
    };
    let cases = [
        (
            "guide, one held note",
            unit(guide(vec![tone(0, SECONDS * u64::from(RATE), 1)])),
        ),
        (
            "guide, whole notes slurred in pairs",
            unit(guide(all.tones.clone())),
        ),
        ("guide, tongued eighths", unit(guide(eighths()))),
        (
            "drone, one pitch",
            unit(LineSound {
                drone: all.drone.clone(),
                ..LineSound::default()
            }),
        ),
        (
            "drone, two pitches",
            unit(LineSound {
                drone: vec![held(vec![116.54, 174.61])],
                ..LineSound::default()
            }),
        ),
        (
            "click, 120 a minute",
            unit(LineSound {
                clicks: all.clicks.clone(),
                ..LineSound::default()
            }),
        ),
        (
            "breathing",
            unit(LineSound {
                swells: vec![Swell {
                    frame: 0,
                    end: SECONDS * u64::from(RATE),
                    inward: true,
                    seed: 1,
                }],
                ..LineSound::default()
            }),
        ),
        ("all three voices", unit(all)),
        (
            "a rest",
            Unit {
                first_frame: 0,
                frames: SECONDS * u64::from(RATE),
                content: Content::Rest(RestSound::default()),
            },
        ),
    ];
    let families = Family::ALL.map(|family| {
        // As far below the trumpet's F4 as the family lies.
        let hz = match family {
            Family::Trumpet | Family::Cornet | Family::Flugelhorn => 349.228,
            Family::Horn | Family::TenorHorn => 233.082,
            Family::Euphonium | Family::Trombone => 174.614,
            Family::Tuba => 58.27,
        };
        let mut tones = eighths();
        for tone in &mut tones {
            tone.family = family;
            tone.steps[0].hz = hz;
        }
        (
            format!("guide, tongued eighths, {family:?}"),
            unit(guide(tones)),
        )
    });
    let cases: Vec<_> = (cases.into_iter())
        .map(|(name, unit)| (name.to_owned(), unit))
        .chain(families)
        .collect();
    for (name, unit) in &cases {
        let best = (0..7)
            .map(|_| seconds(&engine, unit))
            .fold(f64::MAX, f64::min);
        println!("{name:<38}{:>10.0} × real time", SECONDS as f64 / best);
    }
}

/// Seconds that one performance takes.
fn seconds(engine: &Engine, unit: &Unit) -> f64 {
    let started = Instant::now();
    let mut performance = engine.perform(unit);
    let mut block = Block::SILENT;
    let mut sum = 0.0;
    while performance.next_block(&mut block) > 0 {
        sum += block.mix(17);
    }
    black_box(sum);
    started.elapsed().as_secs_f64()
}

fn unit(line: LineSound) -> Unit {
    Unit {
        first_frame: 0,
        frames: SECONDS * u64::from(RATE),
        content: Content::Line(line),
    }
}

fn held(hz: Vec<f64>) -> Held {
    Held {
        frame: 0,
        end: SECONDS * u64::from(RATE),
        hz,
        fade: 13_230,
    }
}

fn tone(frame: u64, end: u64, seed: u64) -> Tone {
    Tone {
        frame,
        end,
        rise: 1_100,
        onset: Onset::Tongue,
        accented: false,
        release: 3_000,
        source: Source::Horn,
        family: Family::Trumpet,
        steps: vec![Step {
            frame,
            hz: 349.228,
            approach: Approach::Start,
        }],
        levels: vec![LevelPoint { frame, db: -5.0 }],
        seed,
    }
}

/// Four seconds each: two notes slurred over a valve and back.
fn line() -> LineSound {
    let second = u64::from(RATE);
    let tones = (0..SECONDS / 4)
        .map(|i| {
            let start = 4 * i * second;
            let mut tone = tone(start, start + 4 * second - 2_000, i);
            for (n, hz) in [(1, 329.628), (2, 349.228)] {
                tone.steps.push(Step {
                    frame: start + n * second,
                    hz,
                    approach: Approach::Valves {
                        glide: 529,
                        dip_db: 2.5,
                    },
                });
            }
            tone
        })
        .collect();
    LineSound {
        clicks: (0..2 * SECONDS)
            .map(|i| Click {
                frame: i * second / 2,
                accented: i % 4 == 0,
            })
            .collect(),
        drone: vec![held(vec![116.54])],
        tones,
        company: vec![],
        softer_db: 0.0,
        swells: vec![],
    }
}

fn eighths() -> Vec<Tone> {
    let eighth = u64::from(RATE) / 4;
    (0..4 * SECONDS)
        .map(|i| tone(i * eighth, (i + 1) * eighth - 1_700, i))
        .collect()
}
