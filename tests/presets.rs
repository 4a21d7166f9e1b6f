//! The routines that ship with the program: each one passes the checker without a word at the age it is meant for and
//! without a warning when it is played slower, has the parts that its level asks for, trains the skills that it names,
//! and says of every line what it is for and how to play it. What is said of them is held against their notes.
//!
//! What a level's routine must hold is common practice among teachers, no source. All routines are only checked here:
//! `tests/tracks` renders a few of them.

use leadpipe::brass::{AgeBand, Level};
use leadpipe::check::{self, Options};
use leadpipe::music::{Decimal, Seconds};
use leadpipe::presets::facts::Facts;
use leadpipe::presets::{self, is_starter};
use leadpipe::routine::{self, Articulation, On, Walk};
use leadpipe::score::{self, Joined, Played, Score, ScoreLine, ScoreNote, Take, TakeTempo};
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

#[path = "presets/said.rs"]
mod said;
#[path = "presets/skills.rs"]
mod skills;

/// Calls `f` with each routine's name, its number (0 for starters, else its level) and its score.
fn each(mut f: impl FnMut(&str, u8, &Score<'_>)) {
    for preset in &presets::ALL {
        let routine = read(preset.name);
        let level = Level::of_top(routine.instrument, routine.comfortable_top).unwrap();
        let number = if is_starter(preset) {
            0
        } else {
            level.number()
        };
        let score = score::unroll(&routine, &Take::default()).expect("it unrolls");
        f(preset.name, number, &score);
    }
}

/// The same with whole warm-ups only.
fn each_whole(mut f: impl FnMut(&str, u8, &Score<'_>)) {
    each(|name, number, score| {
        if facts(name).is_whole() {
            f(name, number, score);
        }
    });
}

fn facts(name: &str) -> &'static Facts {
    let mut all = presets::facts().iter();
    all.find(|facts| facts.preset.name == name).unwrap()
}

fn read(name: &str) -> routine::Routine {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("presets/{name}.toml"));
    let text = fs::read_to_string(&file).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    routine::read(&text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"))
}

fn at_percent(routine: &routine::Routine, percent: i64) -> Score<'_> {
    let take = Take {
        tempo: TakeTempo::Percent(Decimal::from_integer(percent)),
        ..Take::default()
    };
    score::unroll(routine, &take).expect("it unrolls")
}

fn notes(line: &ScoreLine) -> impl Iterator<Item = &ScoreNote> {
    line.passes.iter().flat_map(|pass| &pass.notes)
}

fn number(note: &ScoreNote) -> Option<i32> {
    match note.played {
        Played::Pitch { written, .. } => Some(written.number()),
        Played::In | Played::Out => None,
    }
}

/// The first pass of a line as steps in half steps from note to note.
fn steps(line: &ScoreLine) -> Vec<i32> {
    let notes: Vec<i32> = line.passes[0].notes.iter().filter_map(number).collect();
    notes.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

#[test]
fn every_file_is_built_in() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("presets");
    let files: BTreeSet<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let built_in = presets::ALL.map(|preset| format!("{}.toml", preset.name));
    assert_eq!(files, BTreeSet::from(built_in));
}

#[test]
fn the_checker_has_nothing_to_say() {
    each(|name, _, score| {
        assert!(score.routine.age.is_some(), "{name} names no age");
        // Where nothing is said the checker takes the age that the routine is meant for.
        for age in [None, Some(AgeBand::Adult)] {
            let options = Options {
                age,
                ..Options::default()
            };
            let report = check::check(score, &options);
            assert!(report.findings.is_empty(), "{name}: {:#?}", report.findings);
        }
        assert!(score.notices.is_empty(), "{name}: {:?}", score.notices);
    });
}

/// Slower, a phrase may become long for one breath, which is advice; a warning there is none.
#[test]
fn slower_takes_have_no_warnings() {
    each(|name, _, score| {
        for percent in [85, 70] {
            let report = check::check(&at_percent(score.routine, percent), &Options::default());
            let findings = report.findings.iter();
            let more: Vec<_> = findings
                .filter(|f| f.severity != check::Severity::Advice)
                .collect();
            assert!(more.is_empty(), "{name} at {percent} %: {more:#?}");
        }
    });
}

/// What is rendered where nothing is named, so that the first thing a teacher reads is not advice.
#[test]
fn the_routine_that_is_rendered_unasked_suits_its_slower_takes_too() {
    let routine = read(presets::DEFAULT);
    for percent in [85, 70] {
        let options = Options {
            age: Some(AgeBand::Adult),
            ..Options::default()
        };
        let findings = check::check(&at_percent(&routine, percent), &options).findings;
        assert!(findings.is_empty(), "{percent} %: {findings:#?}");
    }
}

#[test]
fn each_has_its_length_and_as_much_rest_as_playing() {
    each(|name, number, score| {
        let summary = check::check(score, &Options::default()).summary;
        let minutes = summary.seconds / 60.0;
        let whole = facts(name).is_whole();
        let bounds = match number {
            _ if !whole => 3.5..5.5,
            _ if name.ends_with("-young") => 5.0..8.0,
            0 => 5.0..8.0,
            _ => 6.5..14.0,
        };
        assert!(bounds.contains(&minutes), "{name}: {minutes:.2} minutes");
        assert_eq!(
            name.ends_with("-short"),
            !whole && score.routine.title.ends_with("in five minutes"),
            "{name}"
        );
        let ratio = summary.ratio().expect("it rests");
        // Sums of seconds in floating point.
        assert!(ratio >= 1.0 - 1e-9, "{name}: {ratio}");
        assert!((6..=12).contains(&score.lines.len()) || !whole, "{name}");
    });
}

/// A week has two faces only if they differ: no line of a level plays the notes of another, moved or not.
#[test]
fn no_two_lines_of_a_level_are_alike() {
    let mut seen: Vec<(u8, Vec<i32>, String)> = vec![];
    let mut names = BTreeSet::new();
    each(|name, number, score| {
        for line in &score.lines {
            // A line at several tempos is one line.
            if line.rung > 0 {
                continue;
            }
            let written = &score.routine.lines[line.index];
            assert!(
                names.insert((number, written.name.clone())),
                "{name}: another line of this level is called {}",
                written.name
            );
            let first = &line.passes[0].notes;
            let lengths = first.iter().map(|n| (n.length * 96).to_integer() as i32);
            let mut shape: Vec<i32> = steps(line);
            shape.extend(lengths);
            shape.push(line.on as i32);
            let same = seen.iter().find(|(n, s, _)| *n == number && *s == shape);
            assert!(same.is_none(), "{name}: {} is like {same:?}", written.name);
            seen.push((number, shape, format!("{} of {name}", written.name)));
        }
    });
}

#[test]
fn every_line_has_a_purpose_and_one_sentence_on_how_to_play_it() {
    each(|name, _, score| {
        assert!(score.routine.purpose.is_some(), "{name}");
        for line in &score.routine.lines {
            assert!(line.purpose.is_some(), "{name}: {}", line.name);
            let say = line.say.as_deref().unwrap_or_default();
            let ends = say.matches(['.', '!', '?']).count();
            assert!(ends == 1 && say.ends_with('.'), "{name}: {say}");
        }
    });
}

#[test]
fn each_has_the_parts_of_a_warm_up() {
    each_whole(|name, level, score| {
        let horn: Vec<&ScoreLine> = score.lines.iter().filter(|l| l.on == On::Horn).collect();
        let any = |what: &dyn Fn(&ScoreLine) -> bool| horn.iter().any(|line| what(line));
        let written = |line: &ScoreLine| &score.routine.lines[line.index];

        assert!(score.lines[0].on == On::Air, "{name}: breathing first");
        let mouthpiece = score.lines.iter().any(|l| l.on == On::Mouthpiece);
        assert!(mouthpiece, "{name}: no buzzing");
        // A long tone: two seconds and more.
        let long = |line: &ScoreLine, note: &ScoreNote| {
            let seconds = line.seconds(note.length);
            seconds >= Seconds::from_integer(2)
        };
        assert!(
            any(&|l| notes(l).any(|n| long(l, n))),
            "{name}: no long tones"
        );
        // A neighbour and back, within a slur.
        let neighbour = |line: &ScoreLine| {
            let back = |pair: &[i32]| pair[0] == -pair[1] && matches!(pair[0].abs(), 1 | 2);
            steps(line).windows(2).any(back) && notes(line).any(|n| n.joined == Joined::Slurred)
        };
        assert!(any(&neighbour), "{name}: no neighbour note");
        let tube_slurs = |line: &ScoreLine| {
            matches!(&written(line).walk, Walk::Tubes(tubes) if tubes.len() > 1)
                && notes(line).any(|n| n.joined == Joined::Slurred)
        };
        assert!(any(&tube_slurs), "{name}: no slurs through the tubes");
        let tongued = |line: &ScoreLine| {
            notes(line).count() > 4 && notes(line).all(|n| matches!(n.joined, Joined::Fresh(_)))
        };
        assert!(any(&tongued), "{name}: no tongued tune");
        let swells = |line: &ScoreLine| {
            written(line)
                .melody
                .loudness
                .iter()
                .any(|change| change.since.is_some())
        };
        assert!(any(&swells), "{name}: no dynamics");
        let all: Vec<i32> = horn.iter().flat_map(|line| steps(line)).collect();
        let up = all.iter().filter(|&&step| step > 0).count();
        let down = all.iter().filter(|&&step| step < 0).count();
        assert!(
            down * 2 > up && up * 2 > down,
            "{name}: {up} steps up, {down} down"
        );

        let bends = any(&|l| notes(l).any(|n| n.joined == Joined::Bent));
        assert_eq!(bends, level >= 2, "{name}: bends from level 2");
        // A chord up and down, slurred first and then tongued.
        let arpeggio = |line: &ScoreLine| {
            let both = [Articulation::AsWritten, Articulation::Tongued];
            let slurred_then_tongued = [Articulation::Slurred, Articulation::Tongued];
            let how = &written(line).articulations;
            let skips = steps(line);
            (*how == both || *how == slurred_then_tongued)
                && skips.len() >= 6
                && skips.iter().all(|s| s.abs() >= 3)
        };
        assert!(
            any(&arpeggio) || level < 3,
            "{name}: arpeggios from level 3"
        );
        // From one note away and back to it, further each time.
        let fan = |line: &ScoreLine| {
            let sizes: Vec<i32> = steps(line).chunks(2).map(|away| away[0].abs()).collect();
            sizes.windows(3).any(|s| s[0] < s[1] && s[1] < s[2])
                && steps(line).chunks_exact(2).take(3).all(|c| c[0] == -c[1])
        };
        assert!(
            any(&fan) || level < 4,
            "{name}: growing intervals from level 4"
        );
        // Quick fingers: eight notes in a row, more than three a second.
        let quick = |line: &ScoreLine| {
            let short = |n: &ScoreNote| line.seconds(n.length) * 3 < Seconds::from_integer(1);
            line.passes[0]
                .notes
                .windows(8)
                .any(|eight| eight.iter().all(short))
                && steps(line).iter().all(|s| s.abs() <= 2)
        };
        assert!(
            any(&quick) || level < 4,
            "{name}: a faster finger line from level 4"
        );
    });
}
