//! A trombone's positions: the slide drawn in the chart, and the large figures on a phone.

use super::{built_in, check_page, unroll};
use leadpipe::brass::Instrument;
use leadpipe::carry::{CarryRule, carry};
use leadpipe::routine::{self, Routine};
use leadpipe::sheet::page::{DrawnKind, Role, Shape, SheetBlock};
use leadpipe::sheet::{SheetOptions, engrave, strip};

fn carried(name: &str, to: &str) -> Routine {
    let text = leadpipe::presets::named(name).unwrap().text;
    let to = Instrument::named(to).unwrap();
    routine::read(&carry(text, to, CarryRule::Partials).unwrap().text).unwrap()
}

/// The rows of the chart of fingerings or positions: those with fingerings and a staff, and no music.
fn charts(routine: &Routine) -> Vec<SheetBlock> {
    let sheet = engrave(&unroll(routine), &SheetOptions::default());
    let blocks = sheet.pages.into_iter().flat_map(|page| page.blocks);
    let is_chart = |block: &SheetBlock| {
        let fingered = block.marks.iter().any(|m| m.kind == DrawnKind::Fingering);
        fingered
            && matches!(&block.role, Role::Figure(words) if words.contains("osition") || words.contains("ingering"))
            && block
                .marks
                .iter()
                .all(|m| m.kind != DrawnKind::Stem && m.kind != DrawnKind::BarLine)
    };
    blocks.filter(is_chart).collect()
}

/// Left and right end of each stroke of a drawing, and how thick it is.
type Stroke = ((f64, f64), (f64, f64), f64);

fn strokes(block: &SheetBlock) -> Vec<Stroke> {
    let of = |mark: &leadpipe::sheet::page::DrawnMark| match &mark.shape {
        Shape::Line { from, to, width } if mark.kind == DrawnKind::Picture => {
            Some((*from, *to, *width))
        }
        _ => None,
    };
    block.marks.iter().filter_map(of).collect()
}

/// Under each position the bow of the slide stands over the stroke of that position; no position stands on another's slide.
#[test]
fn the_chart_of_a_trombone_draws_the_slide_as_far_out_as_it_is() {
    let routine = carried("second-steps", "trombone");
    let charts = charts(&routine);
    let mut drawn = 0;
    for chart in &charts {
        let strokes = strokes(chart);
        let thick = strokes.iter().map(|s| s.2).fold(0.0, f64::max);
        let upright = |s: &&((f64, f64), (f64, f64), f64)| (s.0.0 - s.1.0).abs() < 1e-9;
        let bows: Vec<f64> = strokes
            .iter()
            .filter(upright)
            .filter(|s| s.2 == thick)
            .map(|s| s.0.0)
            .collect();
        let signs: Vec<f64> = strokes
            .iter()
            .filter(upright)
            .filter(|s| s.2 < thick)
            .map(|s| s.0.0)
            .collect();
        let said: Vec<(f64, String)> = chart
            .marks
            .iter()
            .filter_map(|mark| match &mark.shape {
                Shape::Text { text, .. } if mark.kind == DrawnKind::Fingering => {
                    let bounds = mark.bounds();
                    Some(((bounds.left + bounds.right) / 2.0, text.clone()))
                }
                _ => None,
            })
            .collect();
        assert_eq!((bows.len(), signs.len()), (said.len(), 7 * said.len()));
        for (index, (middle, position)) in said.iter().enumerate() {
            let position: usize = position.parse().unwrap();
            let sign = signs[7 * index + position - 1];
            assert!(
                (bows[index] - sign).abs() < 1e-6,
                "position {position}: {} beside {sign}",
                bows[index]
            );
            let ends = &signs[7 * index..7 * index + 7];
            assert!(
                ends[0] < *middle && *middle < ends[6],
                "{middle} of {ends:?}"
            );
            assert!(
                index == 0 || signs[7 * index - 1] < ends[0] - 2.0,
                "two slides touch"
            );
            drawn += 1;
        }
    }
    assert!(drawn > 15, "{drawn}");
}

#[test]
fn valves_have_no_slide_drawn() {
    for (name, routine) in built_in()
        .iter()
        .filter(|(_, routine)| !routine.instrument.has_slide())
    {
        let pictures: usize = charts(routine)
            .iter()
            .map(|chart| strokes(chart).len())
            .sum();
        assert_eq!(pictures, 0, "{name}");
    }
}

/// On a phone a position is half as large again as a fingering, and every one of them stays clear of the music.
#[test]
fn positions_are_large_on_a_phone() {
    let sizes = |routine: &Routine| -> Vec<f64> {
        let score = unroll(routine);
        let mut found = vec![];
        for index in 0..score.lines.len() {
            let page = strip(&score, index, &SheetOptions::default(), None, 340.0);
            let marks = page.blocks.iter().flat_map(|block| &block.marks);
            found.extend(marks.filter_map(|mark| match &mark.shape {
                Shape::Text { size, .. } if mark.kind == DrawnKind::Fingering => Some(*size),
                _ => None,
            }));
            check_page(&page);
        }
        found
    };
    let on_trombone = sizes(&carried("first-steps", "trombone"));
    let on_euphonium = sizes(&carried("first-steps", "euphonium in bass clef"));
    assert!(on_trombone.len() > 20 && on_euphonium.len() > 20);
    assert!(
        on_trombone.iter().all(|size| *size >= 15.0),
        "{on_trombone:?}"
    );
    assert!(
        on_euphonium.iter().all(|size| (9.0..10.5).contains(size)),
        "{on_euphonium:?}"
    );
}
