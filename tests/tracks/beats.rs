//! Every click where arithmetic puts it, however long the take: exact fractions, worked out here.

use leadpipe::music::Decimal;
use leadpipe::routine::Guide;
use leadpipe::score::{Take, TakeTempo};
use leadpipe::synth::{Block, Engine};
use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::ToPrimitive;

use crate::rendered::*;

/// A line of `passes` one-bar passes with a bar between any two, so that it has twice as many bars of
/// clicks as passes, count-in (one bar) included.
struct Bars {
    /// Thousandths of a click a minute.
    tempo: i64,
    meter: &'static str,
    notes: &'static str,
    clicks_per_bar: i64,
    /// What is written of the rest after it.
    rest: &'static str,
    /// Its length.
    rest_length: Rest,
}

#[derive(Clone, Copy)]
enum Rest {
    /// Of a second.
    Thousandths(i64),
    /// Tenths of a click of the line just played.
    Tenths(i64),
    /// Nothing: lengthened to the coming count-in and half a second.
    None,
}

/// Tempos that share no factor with the sample rate or each other, in meters with several kinds of click.
fn lines() -> Vec<Bars> {
    let tempos = [
        61_057, 97_003, 73_819, 120_011, 89_563, 67_867, 113_021, 79_337, 101_027, 61_861, 107_101,
        83_341, 71_993, 109_973, 65_537, 91_019,
    ];
    let meters = [
        ("4/4", "C4:whole", 4),
        ("12/8", "C4:whole.", 4),
        ("6/8", "C4:half.", 2),
        ("2/2", "C4:whole", 2),
        ("5/8", "C4:half C4:eighth", 5),
    ];
    let rests = [
        ("7.253 s", Rest::Thousandths(7_253)),
        ("9.7 beats", Rest::Tenths(97)),
        ("none", Rest::None),
    ];
    tempos
        .iter()
        .enumerate()
        .map(|(i, tempo)| {
            let (meter, notes, clicks_per_bar) = meters[i % meters.len()];
            let (rest, rest_length) = rests[i % rests.len()];
            Bars {
                tempo: *tempo,
                meter,
                notes,
                clicks_per_bar,
                rest,
                rest_length,
            }
        })
        .collect()
}

fn written(lines: &[Bars], passes: i64) -> String {
    let rows: Vec<String> = lines
        .iter()
        .map(|l| {
            format!(
                "notes = \"{}\"\ntempo = {}.{:03}\nmeter = \"{}\"\ncount_in = 1\ntimes = {passes}\n\
                 between = \"1 bar\"\nrest = \"{}\"\ndrone = \"off\"",
                l.notes,
                l.tempo / 1000,
                l.tempo % 1000,
                l.meter,
                l.rest
            )
        })
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    trumpet("72", &rows)
}

fn ratio(n: i64, d: i64) -> BigRational {
    BigRational::new(BigInt::from(n), BigInt::from(d))
}

/// Nearest whole number, halves up.
fn nearest(x: &BigRational) -> BigInt {
    (x + ratio(1, 2)).floor().to_integer()
}

/// Moments of all clicks in seconds, and the frames they should start at: the frame of the line's start,
/// and the frame of the time since, each rounded once.
fn clicks(lines: &[Bars], passes: i64, percent: (i64, i64)) -> Vec<(BigRational, u64)> {
    let rate = ratio(i64::from(RATE), 1);
    let click = |l: &Bars| ratio(60_000 * percent.1, l.tempo * percent.0);
    let mut start = ratio(1, 2);
    let mut found = vec![];
    for (i, line) in lines.iter().enumerate() {
        let (click_seconds, bars) = (click(line), 2 * passes);
        for n in 0..bars * line.clicks_per_bar {
            let since = &click_seconds * BigInt::from(n);
            let frame = nearest(&(&start * &rate)) + nearest(&(&since * &rate));
            found.push((&start + since, frame.to_u64().unwrap()));
        }
        let end = start + &click_seconds * BigInt::from(bars * line.clicks_per_bar);
        let Some(next) = lines.get(i + 1) else { break };
        let count_in = click(next) * BigInt::from(next.clicks_per_bar);
        let rest = match line.rest_length {
            Rest::Thousandths(n) => ratio(n, 1000),
            Rest::Tenths(tenths) => &click_seconds * ratio(tenths, 10),
            Rest::None => ratio(0, 1),
        };
        // The count-in is the end of the rest; a rest too short for it is lengthened.
        start = end + rest.max(&count_in + ratio(1, 2)) - count_in;
    }
    found
}

/// No click further than a frame from its exact moment.
fn assert_within_a_frame(moment: &BigRational, found: u64, n: usize) {
    let exact = moment * ratio(i64::from(RATE), 1);
    let off = exact - ratio(found as i64, 1);
    let one = ratio(1, 1);
    assert!(
        -&one <= off && off <= one,
        "click {n} is off by {off} frames"
    );
}

#[test]
fn clicks_are_within_a_frame_after_two_hours() {
    let lines = lines();
    let passes = 100;
    let take = Take {
        tempo: TakeTempo::Percent(Decimal::parse("97.7").unwrap()),
        // The click is the same whatever the guide does, as tests/tracks/loudness.rs shows.
        guide: Guide::Off,
        ..Take::default()
    };
    let timeline = timeline(&written(&lines, passes), &take);
    assert!(
        timeline.frames > 2 * 3600 * u64::from(RATE),
        "{} s",
        timeline.frames / u64::from(RATE)
    );
    let expected = clicks(&lines, passes, (977, 1000));
    let mut expected = expected.iter().enumerate();
    let engine = Engine::new(RATE);
    let mut block = Block::SILENT;
    let mut last_heard = None;
    for unit in &timeline.units {
        let mut performance = engine.perform(unit);
        let mut at = unit.first_frame;
        loop {
            at += performance.skip_silence();
            let n = performance.next_block(&mut block);
            if n == 0 {
                break;
            }
            for (i, sample) in block.click[..n].iter().enumerate() {
                let frame = at + i as u64;
                // A click rings for 30 ms; anything after 100 ms of quiet is the next.
                if sample.abs() < 1e-6 {
                    continue;
                }
                if last_heard.is_none_or(|last| frame - last > u64::from(RATE) / 10) {
                    let (number, (moment, nominal)) = expected.next().expect("no click too many");
                    assert_eq!(frame, *nominal, "click {number}");
                    assert_within_a_frame(moment, frame, number);
                }
                last_heard = Some(frame);
            }
            at += n as u64;
        }
    }
    let missing = expected.next();
    assert!(missing.is_none(), "missing: {missing:?}");
}

/// The same routine, shorter, through the files.
#[test]
fn clicks_in_the_file_are_within_a_frame() {
    let lines = lines();
    let passes = 2;
    let rendered = Rendered::of(&written(&lines, passes), &Take::default());
    let expected = clicks(&lines, passes, (1, 1));
    let mut frames = vec![];
    let mut last_heard = 0;
    for (frame, step) in rendered.click.iter().enumerate() {
        if *step != 0 {
            if frames.is_empty() || frame - last_heard > RATE as usize / 10 {
                frames.push(frame as u64);
            }
            last_heard = frame;
        }
    }
    assert_eq!(frames.len(), expected.len());
    for (n, ((moment, _), found)) in expected.iter().zip(frames).enumerate() {
        assert_within_a_frame(moment, found, n);
    }
}
