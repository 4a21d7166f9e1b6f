//! From text to timeline: how long reading, unrolling, checking and compiling a large routine take.
//!
//! `cargo bench --bench reading`. Every figure is the fastest of many runs; the ratios at the end mean the
//! same on any machine.

use leadpipe::check::{self, Options};
use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Content, Settings, Timeline, compile};
use std::hint::black_box;
use std::time::{Duration, Instant};

/// Lines of the routine: half of the most there may be.
const LINES: usize = 100;
const RUNS: usize = 40;

fn main() {
    let text = large_routine();
    let routine = routine::read(&text).expect("it is written without slips");
    let score = unroll(&routine, &Take::default()).expect("it lasts less than four hours");
    let timeline = compile(&score, &Settings::default());
    let notes: usize = score
        .lines
        .iter()
        .flat_map(|line| &line.passes)
        .map(|pass| pass.notes.len())
        .sum();
    let minutes = timeline.frames as f64 / f64::from(timeline.sample_rate) / 60.0;
    println!(
        "routine: {} lines, {} kB of text, {} passes, {notes} notes, {minutes:.0} minutes",
        routine.lines.len(),
        text.len() / 1000,
        score.lines.iter().map(|l| l.passes.len()).sum::<usize>(),
    );

    let toml = fastest(|| toml::de::DeTable::parse(&text).expect("it is TOML"));
    let read = fastest(|| routine::read(&text).expect("as before"));
    let unrolled = fastest(|| unroll(&routine, &Take::default()).expect("as before"));
    let checked = fastest(|| check::check(&score, &Options::default()));
    let compiled = fastest(|| compile(&score, &Settings::default()));
    for (what, time) in [
        ("read", read),
        ("unroll", unrolled),
        ("check", checked),
        ("compile", compiled),
    ] {
        let per_note = time.as_secs_f64() * 1e9 / notes as f64;
        println!(
            "{what:8} {:8.0} µs, {per_note:4.0} ns a note",
            time.as_secs_f64() * 1e6
        );
    }
    let broken = text
        .replace(":quarter", ":quater")
        .replace("title", "tilte");
    let faults = routine::read(&broken).expect_err("it has faults").len();
    let told = fastest(|| routine::read(&broken).expect_err("as before"));
    println!(
        "read with {faults} faults told: {:.0} µs",
        told.as_secs_f64() * 1e6
    );

    let all = read + unrolled + checked + compiled;
    let rendered = rendering(&timeline);
    println!(
        "ratios: reading takes {:.1} times as long as parsing the same text as TOML;",
        read.as_secs_f64() / toml.as_secs_f64()
    );
    println!(
        "  all four stages together take 1/{:.0} of the time that rendering takes on one core",
        rendered.as_secs_f64() / all.as_secs_f64()
    );
}

/// Long enough to weigh something, with everything a line may have.
fn large_routine() -> String {
    let mut text = "format = 1\ntitle = \"Large\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G5\"\ntempo = 120\nmeter = \"4/4\"\n"
        .to_owned();
    for number in 0..LINES {
        let body = match number % 4 {
            0 => {
                "notes = \"mf slur( G4:half F#4:half | G4:whole ) breath | p cresc A4:quarter G4:quarter \
                 F4:quarter E4:quarter | f D4:whole\"\nhalf_steps = [0, -1, -2, -3, -4]"
            }
            1 => {
                "open = \"slur( C4:half G4:half | C4:whole ) breath | C4:quarter G4:quarter C4:half\"\n\
                 tubes = [\"0\", \"2\", \"1\", \"1-2\", \"2-3\", \"1-3\", \"1-2-3\"]\n\
                 articulation = [\"slurred\", \"tongued\"]"
            }
            2 => {
                "notes = \"triplet( C4:eighth D4:eighth E4:eighth ) F4:quarter (staccato) slur( G4:eighth \
                 A4:eighth ) B4:quarter (accent) | C5:half tie:half\"\nhalf_steps = [0, 1, 2, 3]\n\
                 tempo = 97.531"
            }
            _ => "on = \"air\"\nnotes = \"in:whole | out:whole\"\nrest = \"none\"",
        };
        text += &format!("\n[[line]]\nname = \"Line {number}\"\nsay = \"Let it ring.\"\n{body}\n");
    }
    text
}

/// The fastest of many runs.
fn fastest<T>(run: impl Fn() -> T) -> Duration {
    let times = (0..RUNS).map(|_| {
        let start = Instant::now();
        black_box(run());
        start.elapsed()
    });
    times.min().expect("there are runs")
}

/// How long the voices take for all of it: its first tenth of lines, ten times over.
fn rendering(timeline: &Timeline) -> Duration {
    let engine = Engine::new(timeline.sample_rate);
    let lines = timeline
        .units
        .iter()
        .filter(|unit| matches!(unit.content, Content::Line(_)));
    let start = Instant::now();
    let mut block = Block::SILENT;
    for unit in lines.take(LINES / 10) {
        let mut performance = engine.perform(unit);
        while performance.next_block(&mut block) > 0 {
            black_box(&block);
        }
    }
    start.elapsed() * 10
}
