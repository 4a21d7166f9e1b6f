//! A fixed batch through the library: how fast, against copying its files, as each kind of file, and in how much
//! memory.
//!
//! `cargo bench --bench batch`. The batch is every built-in routine at three tempos, up to 900 MB of
//! 16-bit files, on as many threads as there are cores.

use leadpipe::edition::name::{self, Names};
use leadpipe::presets;
use leadpipe::render::{Bits, FileKind, Finished, Labels, RenderSettings, Track, Watch, batch};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{Take, TakeTempo, unroll};
use leadpipe::timeline::Timeline;
use leadpipe::timeline::compile::{self, compile};
use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::Path;
use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

const RATE: u32 = 44_100;
/// Frames of the largest batch: 900 MB at 16 bits.
const LARGEST: u64 = 450_000_000;
/// Given to this program when it runs itself to have its memory measured.
const MEMORY: &str = "--memory-of-minutes";

fn main() {
    let mut arguments = std::env::args().skip_while(|a| a != MEMORY).skip(1);
    if let Some(minutes) = arguments.next() {
        return memory_of(minutes.parse().expect("given by this program itself"));
    }
    let tracks = batch_of_all();
    let frames: u64 = tracks.iter().map(|t| t.frames).sum();
    let seconds = frames as f64 / f64::from(RATE);
    println!(
        "batch: {} tracks, {:.0} minutes, {:.0} MB",
        tracks.len(),
        seconds / 60.0,
        frames as f64 * 2e-6
    );

    let folder = tempfile::tempdir().expect("a place for the batch");
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let watch = First(Instant::now(), AtomicBool::new(false));
    let (rendered, cpu) = timed(|| render(&tracks, folder.path(), &watch));
    println!("render: {rendered:.2} s on {threads} threads, {cpu:.2} s of processor time");
    println!(
        "  {:.0} x real time a core by the clock, {:.0} x by processor time",
        seconds / rendered / threads as f64,
        seconds / cpu
    );
    let (unchanged, _) = timed(|| render(&tracks, folder.path(), &()));
    println!("second run, nothing changed: {unchanged:.2} s");

    let (copied, _) = timed(|| copy_all(folder.path()));
    println!(
        "copying the files: {copied:.2} s; rendering takes {:.1} times as long",
        rendered / copied
    );
    drop(folder);
    for kind in FileKind::ALL.into_iter().filter(|kind| kind.is_built_in()) {
        let folder = tempfile::tempdir().expect("a place for the batch");
        let (rendered, cpu) = timed(|| render_as(&tracks, folder.path(), &[kind], &()));
        let bytes = bytes_in(folder.path());
        println!(
            "as {}: {rendered:.2} s, {:.0} x real time by processor time, {:.2} MB a minute",
            kind.word(),
            seconds / cpu,
            bytes as f64 / 1e6 / (seconds / 60.0)
        );
        // From the WAV files that are there, nothing has to be made but the new kind.
        if kind != FileKind::Wav {
            let folder = tempfile::tempdir().expect("a place for the batch");
            render(&tracks, folder.path(), &());
            let (_, cpu) = timed(|| render_as(&tracks, folder.path(), &[kind], &()));
            println!("  packing alone {:.0} x real time", seconds / cpu);
        }
    }
    let folder = tempfile::tempdir().expect("a place for the batch");
    let all = FileKind::ALL.into_iter().filter(|kind| kind.is_built_in());
    let (rendered, cpu) =
        timed(|| render_as(&tracks, folder.path(), &all.collect::<Vec<_>>(), &()));
    println!(
        "as all of them: {rendered:.2} s, {:.0} x real time by processor time",
        seconds / cpu
    );
    drop(folder);
    for minutes in [5, 120] {
        let itself = std::env::current_exe().expect("this program has a path");
        let status = Command::new(itself)
            .args([MEMORY, &minutes.to_string()])
            .status()
            .expect("this program runs");
        assert!(status.success());
    }
}

/// Says when the first frames were there.
struct First(Instant, AtomicBool);

impl Watch for First {
    fn began(&self, _: usize, _: u64) {}
    fn moved(&self, _: usize, _: u64) {
        if !self.1.swap(true, Ordering::Relaxed) {
            println!(
                "first frames after {:.0} ms",
                self.0.elapsed().as_secs_f64() * 1e3
            );
        }
    }
    fn ended(&self, _: usize, _: &Finished) {}
}

fn render(tracks: &[Track<'_>], folder: &Path, watch: &dyn Watch) {
    render_as(tracks, folder, &[FileKind::Wav], watch);
}

fn render_as(tracks: &[Track<'_>], folder: &Path, kinds: &[FileKind], watch: &dyn Watch) {
    let settings = RenderSettings {
        threads: None,
        kinds: kinds.iter().copied().collect(),
        ..RenderSettings::new(RATE, Bits::Sixteen)
    };
    let end = batch::render(tracks, folder, &settings, &AtomicBool::new(false), watch);
    assert!(end.failure.is_none(), "{:?}", end.failure);
}

/// Bytes of the files in a folder.
fn bytes_in(folder: &Path) -> u64 {
    let entries = fs::read_dir(folder).expect("just written").flatten();
    let files = entries.filter_map(|entry| entry.metadata().ok().filter(|m| m.is_file()));
    files.map(|metadata| metadata.len()).sum()
}

/// Every built-in routine at three tempos, as far as there is room.
fn batch_of_all() -> Vec<Track<'static>> {
    let mut names = Names::default();
    let mut tracks: Vec<Track<'static>> = Vec::new();
    for percent in [100, 85, 70] {
        for preset in presets::usual() {
            let routine = routine::read(preset.text).expect("built-in routines are whole");
            let take = take(percent);
            let tempo = take.tempo.base(&routine).expect("within bounds");
            let name = name::of(preset.name, tempo, &take);
            let frames = timeline(&routine, &take).frames;
            if tracks.iter().map(|t| t.frames).sum::<u64>() + frames > LARGEST {
                continue;
            }
            tracks.push(Track {
                origin: None,
                name: names.give(&name),
                labels: Labels::default(),
                frames,
                like: vec![],
                twin: None,
                fingerprint: None,
                timeline: Box::new(move || timeline(&routine, &take)),
            });
        }
    }
    tracks
}

fn take(percent: i64) -> Take {
    Take {
        tempo: TakeTempo::Percent(leadpipe::music::Decimal::from_integer(percent)),
        ..Take::default()
    }
}

fn timeline(routine: &Routine, take: &Take) -> Timeline {
    let score = unroll(routine, take).expect("built-in routines unroll at these tempos");
    let settings = compile::Settings {
        sample_rate: RATE,
        signs: true,
    };
    compile(&score, &settings)
}

/// Seconds by the clock and of processor time.
fn timed(what: impl FnOnce()) -> (f64, f64) {
    let (clock, cpu) = (Instant::now(), cpu_seconds());
    what();
    (clock.elapsed().as_secs_f64(), cpu_seconds() - cpu)
}

/// Processor time of this process so far; not a number where the system does not say.
fn cpu_seconds() -> f64 {
    // In ticks of 10 ms, fields 14 and 15 of the line; the second field, in brackets, may hold blanks.
    let ticks = fs::read_to_string("/proc/self/stat").ok().and_then(|line| {
        let after = line.rsplit(')').next()?;
        let fields: Vec<&str> = after.split_whitespace().collect();
        Some(fields.get(11)?.parse::<f64>().ok()? + fields.get(12)?.parse::<f64>().ok()?)
    });
    ticks.map_or(f64::NAN, |ticks| ticks / 100.0)
}

/// Copies by reading and writing, as rendering writes: no sharing of blocks between files.
fn copy_all(folder: &Path) {
    let to = tempfile::tempdir().expect("a place for the copies");
    let mut bytes = vec![0; 256 * 1024];
    for entry in fs::read_dir(folder).expect("just written") {
        let entry = entry.expect("just written");
        if !entry.path().is_file() {
            continue;
        }
        let mut from = File::open(entry.path()).expect("just written");
        let mut into = File::create(to.path().join(entry.file_name())).expect("a fresh folder");
        loop {
            let n = from.read(&mut bytes).expect("just written");
            if n == 0 {
                break;
            }
            into.write_all(&bytes[..n]).expect("there was room once");
        }
    }
}

/// Renders two takes of so many minutes side by side, and says how much memory that took at most.
fn memory_of(minutes: u64) {
    let preset = presets::named(presets::DEFAULT).expect("it is among them");
    let routine = routine::read(preset.text).expect("built-in routines are whole");
    let one = timeline(&routine, &take(100));
    let times = (minutes * 60 * u64::from(RATE)).div_ceil(one.frames);
    let folder = tempfile::tempdir().expect("a place for the takes");
    let tracks: Vec<Track<'_>> = ["a", "b"]
        .map(|name| Track {
            name: name.to_owned(),
            labels: Labels::default(),
            origin: None,
            frames: one.frames * times,
            like: vec![],
            twin: None,
            fingerprint: None,
            timeline: Box::new(|| repeated(&one, times)),
        })
        .into();
    let all = FileKind::ALL.into_iter().filter(|kind| kind.is_built_in());
    render_as(&tracks, folder.path(), &all.collect::<Vec<_>>(), &());
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find(|line| line.starts_with("VmHWM:"));
    let peak = peak.and_then(|line| line.split_whitespace().nth(1));
    match peak.and_then(|kilobytes| kilobytes.parse::<f64>().ok()) {
        Some(kilobytes) => println!(
            "peak memory, two takes of {:.0} minutes in every kind of file: {:.1} MiB",
            (one.frames * times) as f64 / f64::from(RATE) / 60.0,
            kilobytes / 1024.0
        ),
        None => println!("peak memory: this system does not say"),
    }
}

/// A timeline played several times over.
fn repeated(one: &Timeline, times: u64) -> Timeline {
    let mut all = Timeline {
        units: vec![],
        cues: vec![],
        frames: one.frames * times,
        ..one.clone()
    };
    for time in 0..times {
        let start = time * one.frames;
        all.units.extend(one.units.iter().cloned().map(|mut unit| {
            unit.first_frame += start;
            unit
        }));
        all.cues.extend(one.cues.iter().cloned().map(|mut cue| {
            cue.frame += start;
            cue
        }));
    }
    all
}
