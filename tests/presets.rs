//! The routines that ship with the program: each one passes the checker without a word, has the length
//! and the parts that its level asks for, and says of every line what it is for and how to play it.
//!
//! What a level's routine must hold is common practice among teachers, no source.

use leadpipe::brass::{AgeBand, Level, choose};
use leadpipe::check::{self, Options};
use leadpipe::music::{Decimal, Seconds};
use leadpipe::routine::{self, Articulation, On, Walk};
use leadpipe::score::{self, Joined, Played, Score, ScoreLine, ScoreNote, Take, TakeTempo};
use std::fs;
use std::path::PathBuf;

/// Calls `f` with each routine's name, its number (0 for the starter, else its level) and its score.
fn each(mut f: impl FnMut(&str, u8, &Score<'_>)) {
    let levels = Level::all().map(|level| (level.number(), choose::routine_of(level)));
    for (number, name) in [(0, choose::STARTER)].into_iter().chain(levels) {
        let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("presets/{name}.toml"));
        let text = fs::read_to_string(&file).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        let routine = routine::read(&text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"));
        f(
            name,
            number,
            &score::unroll(&routine, &Take::default()).expect("it unrolls"),
        );
    }
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
fn the_checker_has_nothing_to_say() {
    each(|name, number, score| {
        // A pupil's likely age grows with the level: the lower levels' phrases suit smaller lungs.
        let young = if number <= 3 {
            AgeBand::ElevenToThirteen
        } else {
            AgeBand::FourteenToSixteen
        };
        for age in [None, Some(young)] {
            let report = check::check(
                score,
                &Options {
                    age,
                    ..Options::default()
                },
            );
            assert!(report.findings.is_empty(), "{name}: {:#?}", report.findings);
        }
        assert!(score.notices.is_empty(), "{name}: {:?}", score.notices);
    });
}

/// What is rendered where nothing is named, so that the first thing a teacher reads is not a warning.
#[test]
fn the_routine_that_is_rendered_unasked_suits_its_slower_takes_too() {
    each(|name, _, score| {
        if name != leadpipe::command::presets::DEFAULT {
            return;
        }
        for percent in [85, 70] {
            let take = Take {
                tempo: TakeTempo::Percent(Decimal::from_integer(percent)),
                ..Take::default()
            };
            let slower = score::unroll(score.routine, &take).expect("it unrolls");
            let findings = check::check(&slower, &Options::default()).findings;
            assert!(findings.is_empty(), "{percent} %: {findings:#?}");
        }
    });
}

#[test]
fn each_has_its_level_and_its_length_and_as_much_rest_as_playing() {
    each(|name, number, score| {
        let summary = check::check(score, &Options::default()).summary;
        let minutes = summary.seconds / 60.0;
        let bounds = if number == 0 { 5.0..8.0 } else { 8.0..14.0 };
        assert!(bounds.contains(&minutes), "{name}: {minutes:.1} minutes");
        let ratio = summary.ratio().expect("it rests");
        // Sums of seconds in floating point.
        assert!(ratio >= 1.0 - 1e-9, "{name}: {ratio}");
        let level = Level::all()
            .find(|level| level.number() == number.max(1))
            .expect("there is that level");
        let top = level.open_top(score.instrument());
        assert_eq!(score.routine.comfortable_top, top, "{name}");
        assert!((7..=12).contains(&score.lines.len()), "{name}");
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
    each(|name, level, score| {
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
        assert_eq!(any(&arpeggio), level >= 3, "{name}: arpeggios from level 3");
        // From one note away and back to it, further each time.
        let fan = |line: &ScoreLine| {
            let sizes: Vec<i32> = steps(line).chunks(2).map(|away| away[0].abs()).collect();
            sizes.windows(3).any(|s| s[0] < s[1] && s[1] < s[2])
                && steps(line).chunks_exact(2).take(3).all(|c| c[0] == -c[1])
        };
        assert_eq!(
            any(&fan),
            level >= 4,
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
        assert_eq!(
            any(&quick),
            level >= 4,
            "{name}: a faster finger line from level 4"
        );
    });
}
