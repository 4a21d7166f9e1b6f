//! How fast routines go out and come in, on one core: `cargo bench --bench exchange`.

use leadpipe::brass::Instrument;
use leadpipe::exchange::musicxml::FingeredNotes;
use leadpipe::exchange::{AdoptOptions, adopt, midi, musicxml};
use leadpipe::presets;
use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use std::hint::black_box;
use std::time::{Duration, Instant};

const RUNS: usize = 9;

fn main() {
    let choice = AdoptOptions {
        instrument: Instrument::named("trumpet in B-flat").expect("it is known"),
        concert: false,
        title: "bench".to_owned(),
        source: "bench".to_owned(),
    };
    for preset in presets::usual() {
        let routine = routine::read(preset.text).expect("built-in routines are read");
        let score = unroll(&routine, &Take::default()).expect("it unrolls");
        let xml = musicxml::write(&score, FingeredNotes::Unusual);
        let mid = midi::write(&score);
        let out = fastest(|| {
            black_box(musicxml::write(&score, FingeredNotes::Unusual));
        });
        let back = fastest(|| {
            let piece = musicxml::read(&xml, None).expect("it is read");
            black_box(adopt(&piece, &choice).expect("it is adopted"));
        });
        let out_midi = fastest(|| {
            black_box(midi::write(&score));
        });
        let back_midi = fastest(|| {
            let piece = midi::read(&mid, None).expect("it is read");
            black_box(adopt(&piece, &choice).expect("it is adopted"));
        });
        let ms = |d: Duration| d.as_secs_f64() * 1e3;
        println!(
            "{}: MusicXML {} bytes, out {:.1} ms, in {:.1} ms; MIDI {} bytes, out {:.1} ms, in {:.1} ms",
            preset.name,
            xml.len(),
            ms(out),
            ms(back),
            mid.len(),
            ms(out_midi),
            ms(back_midi)
        );
    }
}

/// The fastest of many runs.
fn fastest(run: impl Fn()) -> Duration {
    let times = (0..RUNS).map(|_| {
        let start = Instant::now();
        run();
        start.elapsed()
    });
    times.min().expect("there are runs")
}
