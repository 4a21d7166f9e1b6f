//! What holds whatever is marked.

use super::{SHORT, laid, preset, read, score, short, text, usual};
use leadpipe::music::Decimal;
use leadpipe::pencil::{self, Pencil, edit, lay, spoken};
use leadpipe::routine;
use leadpipe::routine::{Fault, RestLength};
use leadpipe::score::{Take, TakeTempo, unroll};
use leadpipe::timeline::{Content, compile};
use num_rational::BigRational;
use proptest::prelude::*;

/// Things to say of a line.
const SAID: [&str; 22] = [
    "slower",
    "faster",
    "85%",
    "tempo 60",
    "rest longer",
    "rest shorter",
    "rest 150%",
    "rest 2 bars",
    "between longer",
    "breath after 1",
    "breath after 2",
    "tongued",
    "slurred",
    "both",
    "bend",
    "times 2",
    "leave out",
    "softer",
    "louder",
    "drone off",
    "guide echo",
    "words Calm.",
];

#[test]
fn an_empty_pencil_changes_nothing() {
    for name in usual() {
        let routine = preset(name);
        for pencil in [Pencil::default(), read("format = 1\n"), read(&text(&[]))] {
            let laid = lay(&pencil, &routine);
            assert_eq!(laid.routine, routine);
            for percent in [100, 77] {
                let take = Take {
                    tempo: TakeTempo::Percent(Decimal::from_integer(percent)),
                    ..Take::default()
                };
                let timeline = |routine| {
                    let settings = compile::Settings::default();
                    compile::compile(&unroll(routine, &take).unwrap(), &settings)
                };
                assert_eq!(timeline(&laid.routine), timeline(&routine), "{name}");
            }
        }
    }
}

#[test]
fn a_marked_line_changes_no_other_lines_sound() {
    let routine = preset("second-steps");
    let marked = laid(&routine, &["line = 3\nloudness = \"softer\""]).routine;
    let units = |routine| {
        let timeline = compile::compile(&score(routine), &compile::Settings::default());
        let lines = timeline.units.into_iter().map(|u| u.content);
        lines
            .filter(|c| matches!(c, Content::Line(_)))
            .collect::<Vec<_>>()
    };
    let (before, after) = (units(&routine), units(&marked));
    let differ: Vec<usize> = (0..before.len())
        .filter(|i| before[*i] != after[*i])
        .collect();
    assert_eq!(differ, [2]);
}

fn seconds(mark: &str) -> BigRational {
    score(&laid(&short(), &[mark]).routine).seconds
}

fn whole(n: i64) -> BigRational {
    BigRational::from_integer(n.into())
}

/// Rests in bars: what is changed in one of them is all that changes.
#[test]
fn the_length_changes_by_exactly_what_the_marks_say() {
    let plain = score(&short()).seconds;
    let longer = |mark: &str| seconds(mark) - &plain;
    // 20 s of rest after the first line.
    assert_eq!(longer("line = 1\nrest = \"longer\""), whole(5));
    assert_eq!(longer("line = 1\nrest = \"shorter\""), whole(-5));
    assert_eq!(longer("line = 1\nrest = \"300%\""), whole(40));
    // Three times through of 8 s with 8 s in between; the third stops, and its rest in between.
    assert_eq!(longer("line = 1\nstop_after = -1"), whole(-16));
    assert_eq!(longer("line = 1\ntimes = 2"), whole(3 * 16));
    // The second line rests for as long as it last played: 8 beats at 90, then at 45.
    let four_thirds = |n: i64| BigRational::new((n * 4).into(), 3.into());
    // Count-in 4 beats, four times 8 beats, three times 8 in between, 8 of rest, at 2/3 s a beat;
    // the rest of the second line ends with the count-in of the third, which is in it.
    let beats = 8 * 4 + 8 * 3 + 8;
    assert_eq!(
        longer("line = 2\ntempo = \"50%\""),
        four_thirds(beats) / whole(2)
    );
    for neither in [
        "line = 1\nbreath_after = 2",
        "line = 1\narticulation = \"tongued\"",
        "loudness = \"softer\"\ndrone = \"off\"",
        "line = 1\nbend = true",
        "words = \"Calm.\"",
    ] {
        assert_eq!(longer(neither), whole(0), "{neither}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every bar line, every note and the whole track stay where they are.
    #[test]
    fn breaths_never_move_a_bar_line(name in prop::sample::select(usual()), line in 1usize..9, note in 1usize..12) {
        let routine = preset(name);
        let pencil = read(&text(&[&format!("line = {line}\nbreath_after = {note}")]));
        let laid = lay(&pencil, &routine);
        let (before, after) = (score(&routine), score(&laid.routine));
        prop_assert_eq!(&before.seconds, &after.seconds);
        for (a, b) in before.lines.iter().zip(&after.lines) {
            prop_assert_eq!((&a.start, a.length, a.rest), (&b.start, b.length, b.rest));
            let notes = |l: &leadpipe::score::ScoreLine| {
                let notes = l.passes.iter().flat_map(|p| p.notes.iter().map(|n| (p.start, n.start, n.length)));
                notes.collect::<Vec<_>>()
            };
            prop_assert_eq!(notes(a), notes(b));
        }
        if laid.faults.is_empty() {
            let index = line - 1;
            let breaths = |r: &leadpipe::routine::Routine| r.lines[index].melody.events.iter().filter(|e| e.breath_after).count();
            prop_assert_eq!(breaths(&laid.routine), breaths(&routine) + 1);
        }
    }

    /// Tempos and rests of three decimals each, all different: exact all the same, and never too large to be.
    #[test]
    fn odd_numbers_are_laid_out(
        parts in prop::collection::vec((30_001i64..250_000, 10_001i64..400_000), 4),
        whole_part in 60_001i64..160_000,
        clicks in 60_001i64..80_000,
    ) {
        let decimal = |thousandths: i64| format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
        let mut marks: Vec<String> = parts
            .iter()
            .enumerate()
            .map(|(i, (tempo, rest))| {
                let rest = if i < 3 { format!("\nrest = \"{}%\"", decimal(*rest)) } else { String::new() };
                format!("line = {}\ntempo = \"{}%\"{rest}", i + 1, decimal(*tempo))
            })
            .collect();
        marks.push(format!("tempo = \"{}%\"", decimal(whole_part)));
        let marks: Vec<&str> = marks.iter().map(String::as_str).collect();
        let mut routine = short();
        for (line, tempo) in routine.lines.iter_mut().zip(["61.237", "89.993", "72.727", "99.991"]) {
            line.tempos = vec![leadpipe::music::Tempo::from_decimal(Decimal::parse(tempo).unwrap()).unwrap()];
        }
        let laid = lay(&read(&text(&marks)), &routine);
        let take = Take {
            tempo: TakeTempo::Clicks(Decimal::parse(&decimal(clicks)).unwrap()),
            ..Take::default()
        };
        if let Ok(score) = unroll(&laid.routine, &take) {
            let timeline = compile::compile(&score, &compile::Settings::default());
            // Every line starts where the exact sum of all before it says.
            let mut start = BigRational::new(1.into(), 2.into());
            let big = |s: leadpipe::music::Seconds| BigRational::new((*s.numer()).into(), (*s.denom()).into());
            for (line, next) in score.lines.iter().zip(score.lines.iter().skip(1)) {
                prop_assert_eq!(&line.start, &start);
                start += big(line.total_seconds()) + big(line.rest.unwrap().seconds) - big(next.seconds(next.count_in));
            }
            prop_assert_eq!(timeline.units.len(), 2 * score.lines.len());
        }
    }

    /// Every line at once, at a part of its tempo: everything measured in music is as much longer.
    #[test]
    fn slower_is_longer_by_its_part(name in prop::sample::select(usual()), percent in 60i64..140) {
        let mut routine = preset(name);
        // Rests of a length in seconds, and those lengthened to a count-in, are no music.
        for line in &mut routine.lines {
            line.rest = RestLength::Bars(Decimal::from_integer(4));
        }
        let pencil = read(&text(&[&format!("tempo = \"{percent}%\"")]));
        let laid = lay(&pencil, &routine);
        prop_assert!(laid.faults.is_empty());
        // Half a second before, 0.3 s of fade after.
        let fixed = BigRational::new(8.into(), 10.into());
        let (before, after) = (score(&routine).seconds - &fixed, score(&laid.routine).seconds - &fixed);
        let bare = |line: &leadpipe::score::ScoreLine| line.rest.is_none_or(|r| r.asked.is_none());
        prop_assert!(score(&routine).lines.iter().all(bare));
        prop_assert_eq!(after * whole(percent), before * whole(100));
    }

    /// A mark and its erasure restore the file, byte for byte.
    #[test]
    fn a_mark_and_its_erasure_restore_the_file(
        there in prop::collection::vec((1usize..5, prop::sample::select(SAID.to_vec())), 0..5),
        line in prop::option::of(1usize..5),
        said in prop::sample::select(SAID.to_vec()),
        date in any::<bool>(),
        ends in 0usize..5,
    ) {
        let mut text = "# Anna's\nformat = 1 # one\n".to_owned();
        for (line, said) in there {
            text = edit::add(&text, Some(&line.to_string()), &spoken::parse(said).unwrap(), None);
            text += "# a remark\n";
        }
        match ends {
            0 => text = text.trim_end().to_owned(),
            1 => text += "\n\n\n",
            2 => text = text.replace('\n', "\r\n"),
            3 => text = text.trim_end().replace('\n', "\r\n"),
            _ => {}
        }
        let row = spoken::parse(said).unwrap();
        let line = line.map(|l| l.to_string());
        let with = edit::add(&text, line.as_deref(), &row, date.then_some("2026-11-25"));
        let read = pencil::read(&with);
        let marks = read.pencil.unwrap().marks;
        // A mark that says nothing of a whole routine is told and left out.
        if read.faults.is_empty() {
            prop_assert_eq!(edit::erase(&with, marks.last().unwrap()), Some(text));
        }
    }

    /// Marks of any kind at any line: never a panic, and what comes of them can be laid out.
    #[test]
    fn any_marks_are_laid(marks in prop::collection::vec((0usize..7, prop::sample::select(SAID.to_vec())), 0..12)) {
        let mut text = "format = 1\n".to_owned();
        for (line, said) in marks {
            let line = (line > 0).then(|| line.to_string());
            text = edit::add(&text, line.as_deref(), &spoken::parse(said).unwrap(), None);
        }
        let read = pencil::read(&text);
        let pencil = read.pencil.unwrap();
        let routine = short();
        let laid = lay(&pencil, &routine);
        for fault in laid.faults.iter().chain(&read.faults) {
            prop_assert!(text.get(fault.span.start..fault.span.end).is_some());
            prop_assert!(fault.hint.is_some());
        }
        prop_assert_eq!(laid.lines.len(), laid.routine.lines.len());
        prop_assert!(unroll(&laid.routine, &Take::default()).is_ok());
    }

    /// Pieces of pencils in any order, and letters of any kind.
    #[test]
    fn text_of_any_kind_is_read(
        pieces in prop::collection::vec(prop::sample::select(vec![
            "format = 1\n", "[[mark]]\n", "[[mark]\n", "mark = ", "line = 3\n", "line = \"Away\"\n", "tempo = ",
            "\"slower\"\n", "60\n", "\"", "“", "breath_after = [1, 2\n", "[", "]", "times = 3\n", "\n", "\r\n",
            "{", "}", "=", "#", "leave_out = true\n", "stop_after = -1\n", "é", "\u{200b}", "date = 2026-11-25\n",
        ]), 0..30),
        odd in any::<String>(),
    ) {
        let text = format!("{}{odd}", pieces.concat());
        let read = pencil::read(&text);
        let inside = |fault: &Fault| text.get(fault.span.start..fault.span.end).is_some();
        prop_assert!(read.faults.iter().all(inside), "{:?}", read.faults);
        prop_assert!(read.faults.iter().all(|f| f.hint.is_some()), "{:?}", read.faults);
        if let Some(pencil) = read.pencil {
            let laid = lay(&pencil, &routine::read(SHORT).unwrap());
            prop_assert!(laid.faults.iter().all(inside));
            for mark in &pencil.marks {
                // Never a panic, whatever way it is written.
                let _ = edit::erase(&text, mark);
            }
        }
    }
}
