//! Each skill that a routine names is in its notes.

use super::{each, number, steps};
use leadpipe::music::{Dynamic, Seconds, Whole};
use leadpipe::routine::{Attack, On, Skill, Walk};
use leadpipe::score::{Joined, Score, ScoreLine, ScoreNote};

#[test]
fn every_skill_is_in_the_notes() {
    let mut trained = vec![];
    each(|name, _, score| {
        assert!(!score.routine.skills.is_empty(), "{name}");
        for skill in &score.routine.skills {
            assert!(is_in(*skill, score), "{name} has no {}", skill.word());
            trained.push(*skill);
        }
    });
    for (word, skill) in Skill::WORDS {
        assert!(trained.contains(&skill), "no routine trains {word}");
    }
}

fn is_in(skill: Skill, score: &Score<'_>) -> bool {
    let on = |on: On| score.lines.iter().any(|line| line.on == on);
    let horn = || score.lines.iter().filter(|line| line.on == On::Horn);
    let any = |what: fn(&Score<'_>, &ScoreLine) -> bool| horn().any(|line| what(score, line));
    let top = score.routine.comfortable_top.number();
    let pitches = || horn().flat_map(notes).filter_map(number);
    match skill {
        Skill::Breathing => on(On::Air),
        Skill::Buzzing => on(On::Mouthpiece),
        Skill::LongTones => {
            any(|_, l| notes(l).any(|n| l.seconds(n.length) >= Seconds::from_integer(2)))
        }
        Skill::Bends => any(|_, l| notes(l).any(|n| n.joined == Joined::Bent)),
        Skill::LipSlurs => any(|score, l| {
            let walk = &score.routine.lines[l.index].walk;
            matches!(walk, Walk::Tubes(tubes) if tubes.len() > 1)
                && notes(l).any(|n| n.joined == Joined::Slurred)
        }),
        // Up a whole octave by steps.
        Skill::Scales => any(|_, l| {
            let pitches = l.passes[0].notes.iter().filter_map(number);
            let mut from = None;
            let mut before = i32::MAX;
            pitches.fold(false, |found, pitch| {
                if !(1..=3).contains(&(pitch - before)) {
                    from = Some(pitch);
                }
                before = pitch;
                found || from.is_some_and(|from| pitch - from >= 12)
            })
        }),
        // A minor third over the key note, and no major one.
        Skill::Minor => any(|score, l| {
            let tonic = score.routine.lines[l.index].tonic;
            let over = |steps: i32| {
                tonic.is_some_and(|tonic| {
                    let pitches = l.passes[0].notes.iter().filter_map(number);
                    pitches
                        .into_iter()
                        .any(|p| (p - tonic.number()).rem_euclid(12) == steps)
                })
            };
            over(3) && over(7) && !over(4)
        }),
        // Three different notes in a row by thirds or more, none of them on tubes.
        Skill::Arpeggios => any(|score, l| {
            matches!(score.routine.lines[l.index].walk, Walk::HalfSteps(_))
                && steps(l)
                    .windows(2)
                    .any(|s| s.iter().all(|s| s.abs() >= 3) && s[0] + s[1] != 0)
        }),
        Skill::Intervals => any(|_, l| {
            let sizes: Vec<i32> = steps(l).chunks(2).map(|away| away[0].abs()).collect();
            sizes.windows(3).any(|s| s[0] < s[1] && s[1] < s[2])
        }),
        Skill::Tonguing => any(|_, l| {
            let tongued = |n: &ScoreNote| n.joined == Joined::Fresh(Attack::Tongue);
            l.passes
                .iter()
                .any(|p| p.notes.len() > 4 && p.notes.iter().all(tongued))
        }),
        // Tongued notes, a fifth of a second and less at the fastest tempo.
        Skill::TonguingSpeed => any(|score, l| {
            score.routine.lines[l.index].tempos.len() > 1
                && notes(l).any(|n| {
                    matches!(n.joined, Joined::Fresh(_))
                        && l.seconds(n.length) <= Seconds::new(1, 5)
                })
        }),
        Skill::DoubleTonguing => {
            any(|_, l| attacks(l, &[Attack::Tongue, Attack::Ku, Attack::Tongue]))
        }
        Skill::TripleTonguing => any(|_, l| {
            attacks(l, &[Attack::Tongue, Attack::Tongue, Attack::Ku])
                && notes(l).any(|n| *n.length.denom() % 3 == 0)
        }),
        // Eight slurred steps in a row, more than two a second.
        Skill::Fingers => any(|_, l| {
            let quick = |n: &ScoreNote| l.seconds(n.length) * 2 < Seconds::from_integer(1);
            let mut passes = l.passes.iter();
            passes.any(|p| p.notes.windows(8).any(|eight| eight.iter().all(quick)))
                || l.passes[0].notes.len() >= 9 && steps(l).iter().all(|s| s.abs() <= 2)
        }),
        Skill::Dynamics => any(|score, l| {
            let melody = &score.routine.lines[l.index].melody;
            let levels = melody
                .loudness
                .iter()
                .filter(|c| !(c.at == Whole::from_integer(0) && c.to == Dynamic::Mf));
            levels.count() >= 2
        }),
        // Sixteen beats and more, with a dynamic or a breath on the way.
        Skill::Tunes => any(|score, l| {
            let written = &score.routine.lines[l.index];
            written.melody.length >= Whole::from_integer(3)
                && matches!(written.walk, Walk::HalfSteps(_))
        }),
        Skill::HighNotes => pitches().any(|p| p > top),
        // Down to the low end: a fourth below C4.
        // Down to the low end: a fourth below the open note of the second partial.
        Skill::LowNotes => pitches().any(|p| p <= second_partial(score) - 3),
        // An octave below that note, and lower.
        Skill::PedalTones => pitches().any(|p| p <= second_partial(score) - 12),
    }
}

fn notes(line: &ScoreLine) -> impl Iterator<Item = &ScoreNote> {
    line.passes.iter().flat_map(|pass| &pass.notes)
}

fn attacks(line: &ScoreLine, wanted: &[Attack]) -> bool {
    line.passes.iter().any(|pass| {
        pass.notes.windows(wanted.len()).any(|some| {
            let mut pairs = some.iter().zip(wanted);
            pairs.all(|(note, attack)| note.joined == Joined::Fresh(*attack))
        })
    })
}

/// The written open note of the second partial, from memory: C4 in treble clef, B-flat 2 on a trombone.
fn second_partial(score: &Score<'_>) -> i32 {
    match score.instrument().name {
        "trombone" => 46,
        _ => 60,
    }
}
