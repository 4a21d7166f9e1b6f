//! leadpipe beside a synthesiser that plays samples, and beside a plain numerical script, all with the same notes, on one
//! core: `cargo bench --bench synths`.
//!
//! The synthesiser and the script get the MIDI file that leadpipe exports. The sound font, one looped period of a saw, is
//! made here; a real one is larger and no faster. The script needs Python and numpy.

use leadpipe::exchange::midi;
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Settings, compile};
use leadpipe::{presets, routine, score};
use midly::{MetaMessage, MidiMessage, Smf, TrackEventKind};
use rustysynth::{MidiFile, MidiFileSequencer, SoundFont, Synthesizer, SynthesizerSettings};
use std::collections::HashMap;
use std::fmt::Write as _;
use std::fs;
use std::hint::black_box;
use std::io::Write as _;
use std::process::{Command, Stdio};
use std::sync::Arc;

const RATE: u32 = 44_100;
const RUNS: usize = 3;

/// Twelve partials and a short rise and fall, written as one would write it.
const SCRIPT: &str = "
import sys
import numpy as np
rate = 44100
notes = [tuple(map(float, row.split())) for row in sys.stdin]
sound = np.zeros(int((max(end for _, end, _ in notes) + 1) * rate))
for start, end, hz in notes:
    t = np.arange(int((end - start) * rate)) / rate
    tone = sum(np.sin(2 * np.pi * k * hz * t) / k for k in range(1, 13))
    tone *= np.minimum(1, np.minimum(t, t[::-1]) / 0.015)
    sound[int(start * rate):int(start * rate) + len(t)] += 0.05 * tone
sys.stdout.buffer.write((32767 * np.clip(sound, -1, 1)).astype(np.int16).tobytes())
";

fn main() {
    let preset = presets::named("second-steps").expect("it is built in");
    let routine = routine::read(preset.text).expect("built-in routines are read");
    let score = score::unroll(&routine, &score::Take::default()).expect("it unrolls");
    let exported = midi::write(&score);
    let settings = Settings {
        sample_rate: RATE,
        signs: true,
    };
    let seconds = compile(&score, &settings).frames as f64 / f64::from(RATE);
    let font = sound_font();
    let notes = notes(&exported);
    for run in 1..=RUNS {
        let ours = timed(|| ours(&score, &settings));
        let sampled = timed(|| sampled(&font, &exported));
        let script = timed(|| script(&notes));
        println!(
            "run {run}: leadpipe {:.0} x real time, synthesiser {:.0} x, script {:.0} x; leadpipe is {:.1} and {:.1} times as fast",
            seconds / ours,
            seconds / sampled,
            seconds / script,
            sampled / ours,
            script / ours
        );
    }
}

fn ours(score: &score::Score<'_>, settings: &Settings) {
    let timeline = compile(score, settings);
    let engine = Engine::new(settings.sample_rate);
    let mut block = Block::SILENT;
    let mut steps: Vec<i16> = vec![];
    for unit in &timeline.units {
        let mut performance = engine.perform(unit);
        loop {
            let frames = performance.next_block(&mut block);
            if frames == 0 {
                break;
            }
            steps.extend((0..frames).map(|frame| (32767.0 * block.mix(frame)) as i16));
        }
    }
    black_box(steps);
}

fn sampled(font: &[u8], exported: &[u8]) {
    let font = Arc::new(SoundFont::new(&mut &font[..]).expect("the sound font is read"));
    let file = Arc::new(MidiFile::new(&mut &exported[..]).expect("the MIDI file is read"));
    let settings = SynthesizerSettings::new(RATE as i32);
    let synthesizer = Synthesizer::new(&font, &settings).expect("the settings are usual");
    let mut sequencer = MidiFileSequencer::new(synthesizer);
    sequencer.play(&file, false);
    let (mut left, mut right) = (vec![0.0; 4096], vec![0.0; 4096]);
    let mut steps: Vec<i16> = vec![];
    let blocks = (file.get_length() * f64::from(RATE) / 4096.0).ceil() as usize;
    for _ in 0..blocks {
        sequencer.render(&mut left, &mut right);
        let both = left.iter().zip(&right);
        steps.extend(both.map(|(l, r)| (16384.0 * (l + r)) as i16));
    }
    let heard = steps.iter().any(|step| step.unsigned_abs() > 100);
    assert!(heard, "the sound font is played");
    black_box(steps);
}

fn script(notes: &str) {
    let python = Command::new("python3")
        .args(["-c", SCRIPT])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn();
    let Ok(mut python) = python else {
        return;
    };
    let mut input = python.stdin.take().expect("it was asked for");
    // Without numpy the script ends before it has read everything.
    let _ = input.write_all(notes.as_bytes());
    drop(input);
    let ended = python.wait().expect("it was started");
    assert!(ended.success(), "the script needs numpy");
}

/// Start, end and hertz of every note with a pitch, a row each.
fn notes(exported: &[u8]) -> String {
    const DRUMS: u8 = 9;
    let file = Smf::parse(exported).expect("the MIDI file is read");
    let midly::Timing::Metrical(beat) = file.header.timing else {
        panic!("the MIDI file counts beats");
    };
    let mut events: Vec<(u64, &TrackEventKind<'_>)> = vec![];
    for track in &file.tracks {
        let mut at = 0;
        for event in track {
            at += u64::from(event.delta.as_int());
            events.push((at, &event.kind));
        }
    }
    events.sort_by_key(|(at, _)| *at);
    let (mut tick, mut now, mut tempo) = (0, 0.0, 500_000.0);
    let mut sounding = HashMap::new();
    let mut rows = String::new();
    for (at, event) in events {
        now += (at - tick) as f64 * tempo / f64::from(beat.as_int()) / 1e6;
        tick = at;
        match event {
            TrackEventKind::Meta(MetaMessage::Tempo(micros)) => tempo = f64::from(micros.as_int()),
            TrackEventKind::Midi { channel, message } if channel.as_int() != DRUMS => match message
            {
                MidiMessage::NoteOn { key, vel } if vel.as_int() > 0 => {
                    sounding.insert((*channel, *key), now);
                }
                MidiMessage::NoteOn { key, .. } | MidiMessage::NoteOff { key, .. } => {
                    if let Some(start) = sounding.remove(&(*channel, *key)) {
                        let hz = 440.0 * ((f64::from(key.as_int()) - 69.0) / 12.0).exp2();
                        writeln!(rows, "{start} {now} {hz}").expect("a text takes any row");
                    }
                }
                _ => {}
            },
            _ => {}
        }
    }
    rows
}

/// A sound font (SoundFont 2.01, of E-mu Systems) with one looped sample for everything.
fn sound_font() -> Vec<u8> {
    const PERIOD: i32 = 100;
    const PERIODS: i32 = 20;
    let saw = (0..PERIOD * PERIODS).map(|n| (n % PERIOD * 600 - 30_000) as i16);
    let sample: Vec<u8> = saw.chain([0; 46]).flat_map(i16::to_le_bytes).collect();
    let name = |name: &str| {
        let mut bytes = name.as_bytes().to_vec();
        bytes.resize(20, 0);
        bytes
    };
    let words = |words: &[u16]| -> Vec<u8> { words.iter().flat_map(|w| w.to_le_bytes()).collect() };
    let long =
        |numbers: &[u32]| -> Vec<u8> { numbers.iter().flat_map(|n| n.to_le_bytes()).collect() };
    let preset = |title: &str, bank: u16, bag: u16| {
        [name(title), words(&[0, bank, bag]), long(&[0; 3])].concat()
    };
    let (first, last) = ((PERIOD * 2) as u32, (PERIOD * (PERIODS - 2)) as u32);
    let header = [
        name("saw"),
        long(&[0, (PERIOD * PERIODS) as u32, first, last, RATE]),
        // The key of 441 Hz, nearly; a mono sample.
        vec![69, 0],
        words(&[0, 1]),
    ];
    const INSTRUMENT: u16 = 41;
    const SAMPLE_ID: u16 = 53;
    const LOOPED: [u16; 2] = [54, 1];
    let info = [
        chunk(b"ifil", &words(&[2, 1])),
        chunk(b"isng", b"EMU8000\0"),
        chunk(b"INAM", b"saw\0"),
    ];
    let presets = [
        preset("saw", 0, 0),
        preset("drums", 128, 1),
        preset("EOP", 0, 2),
    ];
    let settings = [
        chunk(b"phdr", &presets.concat()),
        chunk(b"pbag", &words(&[0, 0, 1, 0, 2, 0])),
        chunk(b"pmod", &[0; 10]),
        chunk(b"pgen", &words(&[INSTRUMENT, 0, INSTRUMENT, 0, 0, 0])),
        chunk(
            b"inst",
            &[name("saw"), words(&[0]), name("EOI"), words(&[1])].concat(),
        ),
        chunk(b"ibag", &words(&[0, 0, 2, 0])),
        chunk(b"imod", &[0; 10]),
        chunk(
            b"igen",
            &[words(&LOOPED), words(&[SAMPLE_ID, 0]), words(&[0, 0])].concat(),
        ),
        chunk(
            b"shdr",
            &[header.concat(), name("EOS"), vec![0; 26]].concat(),
        ),
    ];
    let lists = [
        list(b"INFO", &info.concat()),
        list(b"sdta", &chunk(b"smpl", &sample)),
        list(b"pdta", &settings.concat()),
    ];
    chunk(b"RIFF", &[b"sfbk".to_vec(), lists.concat()].concat())
}

fn list(kind: &[u8; 4], chunks: &[u8]) -> Vec<u8> {
    chunk(b"LIST", &[kind, chunks].concat())
}

fn chunk(id: &[u8; 4], body: &[u8]) -> Vec<u8> {
    [&id[..], &(body.len() as u32).to_le_bytes(), body].concat()
}

/// Processor time in seconds, that of a program started here included.
fn timed(what: impl FnOnce()) -> f64 {
    let before = cpu_seconds();
    what();
    cpu_seconds() - before
}

fn cpu_seconds() -> f64 {
    // In ticks of 10 ms, fields 14 to 17 of the line; the second field, in brackets, may hold blanks.
    let ticks = fs::read_to_string("/proc/self/stat").ok().and_then(|line| {
        let after = line.rsplit(')').next()?.to_owned();
        let fields = after.split_whitespace().skip(11).take(4);
        Some(
            fields
                .filter_map(|ticks| ticks.parse::<f64>().ok())
                .sum::<f64>(),
        )
    });
    ticks.map_or(f64::NAN, |ticks| ticks / 100.0)
}
