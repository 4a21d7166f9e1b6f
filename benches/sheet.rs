//! How fast sheets are made, on one core: `cargo bench --bench sheet`.

use leadpipe::presets;
use leadpipe::print::pdf::pdf;
use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::sheet::{SheetOptions, SheetPasses, engrave, shape, svg};
use std::hint::black_box;
use std::time::{Duration, Instant};

const RUNS: usize = 9;

fn main() {
    let routines: Vec<_> = presets::usual()
        .map(|preset| routine::read(preset.text).expect("built-in routines are read"))
        .collect();
    let scores: Vec<_> = routines
        .iter()
        .map(|routine| unroll(routine, &Take::default()).expect("it unrolls"))
        .collect();
    let ends = SheetOptions::default();
    let all = SheetOptions {
        passes: SheetPasses::All,
        ..ends
    };
    for (name, options) in [("the ends of long walks", ends), ("all passes", all)] {
        let sheets: Vec<_> = scores.iter().map(|s| engrave(s, &options)).collect();
        let pages: usize = sheets.iter().map(|s| s.pages.len()).sum();
        let bytes: usize = sheets
            .iter()
            .map(|s| pdf(s).expect("it is made").len())
            .sum();
        println!(
            "{} sheets, {name}: {pages} pages, {bytes} bytes of PDF",
            sheets.len()
        );
        let engraved = fastest(|| {
            for score in &scores {
                black_box(engrave(score, &options));
            }
        });
        let drawn = fastest(|| {
            for page in sheets.iter().flat_map(|s| &s.pages) {
                black_box(svg::page(page));
            }
        });
        let printed = fastest(|| {
            for sheet in &sheets {
                black_box(pdf(sheet).expect("it is made"));
            }
        });
        let ms = |d: Duration| d.as_secs_f64() * 1e3;
        println!(
            "  engraved in {:.1} ms, to SVG {:.1} ms, to PDF {:.1} ms; score to PDF {:.1} ms",
            ms(engraved),
            ms(drawn),
            ms(printed),
            ms(engraved + printed)
        );
    }
    let charts = fastest(|| {
        for score in &scores {
            black_box(svg::page(&shape::page(score, 760.0, 230.0)));
        }
    });
    println!(
        "{} charts: {:.1} ms",
        scores.len(),
        charts.as_secs_f64() * 1e3
    );
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
