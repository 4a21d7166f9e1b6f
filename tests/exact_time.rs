//! Every line, click and note where exact fractions put it: routines made up at random, and their times
//! worked out here from the written meaning of the format with fractions of unbounded size.

use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::timeline::{Content, LineSound, Settings, Timeline, compile};
use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{ToPrimitive, Zero};
use proptest::prelude::*;

type Exact = BigRational;

fn exact(n: i64, d: i64) -> Exact {
    Exact::new(BigInt::from(n), BigInt::from(d))
}

/// The frame nearest to a moment in seconds, halves up.
fn frame(seconds: &Exact, rate: u32) -> u64 {
    let frames = seconds * BigInt::from(rate) + exact(1, 2);
    frames
        .floor()
        .to_integer()
        .to_u64()
        .expect("a frame of a take")
}

/// A rest as written, and what it means.
#[derive(Clone, Copy, Debug)]
enum Rest {
    None,
    Same,
    Bars(i64),
    /// In tenths.
    Beats(i64),
    /// In thousandths.
    Seconds(i64),
}

impl Rest {
    fn written(self) -> String {
        match self {
            Rest::None => "none".to_owned(),
            Rest::Same => "same".to_owned(),
            Rest::Bars(n) => format!("{n} bars"),
            Rest::Beats(n) => format!("{}.{} beats", n / 10, n % 10),
            Rest::Seconds(n) => format!("{}.{:03} s", n / 1000, n % 1000),
        }
    }
}

/// A line of tongued notes.
#[derive(Clone, Debug)]
struct Line {
    /// Thousandths of a click a minute.
    tempo: i64,
    /// As written, its beats over its unit.
    meter: (i64, i64),
    /// How many units of a sixteenth each note lasts; in a triplet, three of each in the time of two.
    notes: Vec<(i64, bool)>,
    times: i64,
    count_in: Option<i64>,
    between: Rest,
    rest: Rest,
    echo: bool,
}

impl Line {
    fn is_compound(&self) -> bool {
        self.meter.1 == 8 && matches!(self.meter.0, 6 | 9 | 12)
    }

    fn clicks_per_bar(&self) -> i64 {
        if self.is_compound() {
            self.meter.0 / 3
        } else {
            self.meter.0
        }
    }

    /// Whole notes a bar.
    fn bar(&self) -> Exact {
        exact(self.meter.0, self.meter.1)
    }

    /// Seconds of so many whole notes.
    fn seconds(&self, wholes: &Exact) -> Exact {
        let click = self.bar() / BigInt::from(self.clicks_per_bar());
        wholes / click * exact(60_000, self.tempo)
    }

    fn bar_seconds(&self) -> Exact {
        self.seconds(&self.bar())
    }

    fn count_in_bars(&self) -> i64 {
        let unsaid = (4 + self.clicks_per_bar() - 1) / self.clicks_per_bar();
        self.count_in.unwrap_or(unsaid)
    }

    /// Start and end of each note in whole notes from the pass's start.
    fn note_times(&self) -> Vec<(Exact, Exact)> {
        let mut now = Exact::zero();
        let mut times = vec![];
        for (sixteenths, triplet) in &self.notes {
            let (count, length) = if *triplet {
                (3, exact(*sixteenths * 2, 16 * 3))
            } else {
                (1, exact(*sixteenths, 16))
            };
            for _ in 0..count {
                let end = &now + &length;
                times.push((now, end.clone()));
                now = end;
            }
        }
        times
    }

    /// Bars of a pass, filled up.
    fn pass_bars(&self) -> i64 {
        let (_, end) = self.note_times().pop().expect("a line has notes");
        whole(&(end / self.bar()).ceil())
    }

    fn written(&self, number: usize) -> String {
        let notes: Vec<String> = self
            .notes
            .iter()
            .map(|(n, triplet)| {
                let value = match n {
                    1 => "sixteenth",
                    2 => "eighth",
                    3 => "eighth.",
                    4 => "quarter",
                    6 => "quarter.",
                    8 => "half",
                    12 => "half.",
                    16 => "whole",
                    _ => "whole.",
                };
                if *triplet {
                    format!("triplet( C4:{value} D4:{value} E4:{value} )")
                } else {
                    format!("G4:{value}")
                }
            })
            .collect();
        let mut text = format!(
            "[[line]]\nname = \"L{number}\"\nnotes = \"{}\"\ntempo = {}.{:03}\nmeter = \"{}/{}\"\n\
             times = {}\nbetween = \"{}\"\nrest = \"{}\"\n",
            notes.join(" "),
            self.tempo / 1000,
            self.tempo % 1000,
            self.meter.0,
            self.meter.1,
            self.times,
            self.between.written(),
            self.rest.written(),
        );
        if let Some(bars) = self.count_in {
            text += &format!("count_in = {bars}\n");
        }
        if self.echo {
            text += "guide = \"echo\"\n";
        }
        text
    }
}

fn whole(x: &Exact) -> i64 {
    assert!(x.is_integer());
    x.to_integer().to_i64().expect("small")
}

/// What a line comes to: where it starts, its passes in bars from the count-in's first beat, and all of
/// its bars, count-in included.
struct Laid {
    start: Exact,
    passes: Vec<i64>,
    bars: i64,
}

/// Lays the lines out as the format says.
fn lay_out(lines: &[Line]) -> Vec<Laid> {
    let mut start = exact(1, 2);
    // What the pupil has played since the last rest longer than nothing.
    let mut owed = Exact::zero();
    let mut laid: Vec<Laid> = vec![];
    for (i, line) in lines.iter().enumerate() {
        let bar = line.bar_seconds();
        let mut now = line.count_in_bars();
        let mut passes = vec![];
        for pass in 1..=line.times {
            passes.push(now);
            now += line.pass_bars() * if line.echo { 2 } else { 1 };
            owed += &bar * BigInt::from(line.pass_bars());
            if pass < line.times {
                let (bars, some) = bars_of(line.between, line, &owed);
                now += bars;
                if some {
                    owed = Exact::zero();
                }
            }
        }
        laid.push(Laid {
            start: start.clone(),
            passes,
            bars: now,
        });
        let Some(next) = lines.get(i + 1) else { break };
        let end = &start + &bar * BigInt::from(now);
        let rest = match line.rest {
            Rest::None => Exact::zero(),
            Rest::Same => &bar * BigInt::from(bars_of(Rest::Same, line, &owed).0),
            Rest::Bars(n) => &bar * BigInt::from(n),
            Rest::Beats(n) => &bar / BigInt::from(line.clicks_per_bar()) * exact(n, 10),
            Rest::Seconds(n) => exact(n, 1000),
        };
        if !matches!(line.rest, Rest::None) {
            owed = Exact::zero();
        }
        let count_in = next.bar_seconds() * BigInt::from(next.count_in_bars());
        start = end + rest.max(&count_in + exact(1, 2)) - count_in;
    }
    laid
}

/// Whole bars of a rest between passes, rounded up, and whether it is longer than nothing.
fn bars_of(rest: Rest, line: &Line, owed: &Exact) -> (i64, bool) {
    let bar = line.bar_seconds();
    let up = |x: Exact| whole(&x.ceil());
    match rest {
        Rest::None => (0, false),
        Rest::Same => (up(owed / bar), true),
        Rest::Bars(n) => (n, true),
        Rest::Beats(n) => (up(exact(n, 10 * line.clicks_per_bar())), true),
        Rest::Seconds(n) => (up(exact(n, 1000) / bar), true),
    }
}

fn some_rest() -> impl Strategy<Value = Rest> {
    prop_oneof![
        Just(Rest::None),
        Just(Rest::Same),
        (1..4i64).prop_map(Rest::Bars),
        (1..90i64).prop_map(Rest::Beats),
        (1..20_000i64).prop_map(Rest::Seconds),
    ]
}

fn some_line() -> impl Strategy<Value = Line> {
    let meter = prop::sample::select(vec![
        (4, 4),
        (3, 4),
        (2, 2),
        (3, 2),
        (6, 8),
        (9, 8),
        (12, 8),
        (3, 8),
        (5, 8),
        (7, 4),
        (1, 4),
    ]);
    let plain =
        prop::sample::select(vec![1i64, 2, 3, 4, 6, 8, 12, 16, 24]).prop_map(|n| (n, false));
    let triplet = prop::sample::select(vec![1i64, 2, 4, 8]).prop_map(|n| (n, true));
    let notes = prop::collection::vec(prop_oneof![4 => plain, 1 => triplet], 1..6);
    let count_in = prop::option::weighted(0.3, 1..4i64);
    (
        20_000..=300_000i64,
        meter,
        notes,
        1..4i64,
        count_in,
        some_rest(),
        some_rest(),
        any::<bool>(),
    )
        .prop_map(
            |(tempo, meter, notes, times, count_in, between, rest, echo)| Line {
                tempo,
                meter,
                notes,
                times,
                count_in,
                between,
                rest,
                echo,
            },
        )
}

fn compiled(lines: &[Line], rate: u32) -> Timeline {
    let mut text = "format = 1\ntitle = \"T\"\ninstrument = \"cornet\"\ncomfortable_top = \"G4\"\n\
                    tempo = 72\n"
        .to_owned();
    for (i, line) in lines.iter().enumerate() {
        text += &line.written(i + 1);
    }
    let routine = routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"));
    let score = unroll(&routine, &Take::default()).expect("a few minutes");
    compile(
        &score,
        &Settings {
            sample_rate: rate,
            signs: true,
        },
    )
}

fn sounds(timeline: &Timeline) -> Vec<(u64, u64, &LineSound)> {
    let sound = |unit: &'_ leadpipe::timeline::Unit| (unit.first_frame, unit.frames);
    timeline
        .units
        .iter()
        .filter_map(|unit| match &unit.content {
            Content::Line(line) => Some((sound(unit).0, sound(unit).1, line)),
            Content::Rest(_) => None,
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_stands_where_exact_fractions_put_it(lines in prop::collection::vec(some_line(), 1..6), high_rate in any::<bool>()) {
        let rate = if high_rate { 48_000 } else { 44_100 };
        let timeline = compiled(&lines, rate);
        let laid = lay_out(&lines);
        let sounds = sounds(&timeline);
        prop_assert_eq!(sounds.len(), lines.len());
        for ((line, laid), (first, frames, sound)) in lines.iter().zip(&laid).zip(sounds) {
            prop_assert_eq!(first, frame(&laid.start, rate));
            let at_bar = |bars: &Exact| line.bar_seconds() * bars;
            let bars = exact(laid.bars, 1);
            // The fade takes 0.3 s from the last bar line.
            prop_assert_eq!(frames, frame(&(at_bar(&bars) + exact(3, 10)), rate));
            let clicks = laid.bars * line.clicks_per_bar();
            let expected: Vec<(u64, bool)> = (0..clicks)
                .map(|n| {
                    let bars = exact(n, line.clicks_per_bar());
                    (frame(&at_bar(&bars), rate), n % line.clicks_per_bar() == 0)
                })
                .collect();
            let found: Vec<(u64, bool)> = sound.clicks.iter().map(|c| (c.frame, c.accented)).collect();
            prop_assert_eq!(found, expected);
            let mut notes = vec![];
            for pass in &laid.passes {
                for (start, end) in line.note_times() {
                    let moment = |wholes: &Exact| {
                        frame(&(at_bar(&exact(*pass, 1)) + line.seconds(wholes)), rate)
                    };
                    notes.push((moment(&start), moment(&end)));
                }
            }
            prop_assert_eq!(sound.tones.len(), notes.len());
            for (tone, (start, end)) in sound.tones.iter().zip(notes) {
                // The middle of its rise is on the beat.
                prop_assert!(tone.frame <= start && start < tone.frame + tone.rise.max(1));
                prop_assert_eq!(tone.steps.len(), 1);
                prop_assert_eq!(tone.steps[0].frame, start);
                // Its sound, release included, ends by its written end.
                prop_assert!(tone.end <= end && tone.end > start);
            }
        }
        let last = laid.last().expect("a line");
        let line = lines.last().expect("a line");
        let length = frame(&(line.bar_seconds() * BigInt::from(last.bars) + exact(3, 10)), rate);
        prop_assert_eq!(timeline.frames, frame(&last.start, rate) + length);
    }
}
