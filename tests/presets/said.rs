//! Every sentence that `choose` and `list` say of a routine, against its notes, which are read here anew.

use super::{each, facts, notes, number};
use leadpipe::brass::{AgeBand, Instrument, Level};
use leadpipe::music::{Dynamic, WrittenPitch};
use leadpipe::presets::choose::{self, Player};
use leadpipe::routine::On;
use leadpipe::score::{Played, Score, ScoreNote};

fn trumpet() -> &'static Instrument {
    Instrument::named("trumpet").unwrap()
}

fn pitch(text: &str) -> WrittenPitch {
    WrittenPitch::parse(text).unwrap()
}

fn chosen(note: &str, age: Option<AgeBand>) -> choose::RoutineChoice {
    let player = Player {
        highest: pitch(note),
        lowest: None,
        age,
        names: leadpipe::music::NoteNames::English,
    };
    choose::choose(trumpet(), player)
}

/// Notes above the easy top that are not the next partial on 1-2 or a longer tube: number of line, pitch, note.
fn beyond<'s>(score: &'s Score<'_>) -> Vec<(usize, i32, &'s ScoreNote)> {
    let top = score.routine.comfortable_top.number();
    let level = Level::of_top(trumpet(), score.routine.comfortable_top).unwrap();
    let horn = score.lines.iter().filter(|line| line.on == On::Horn);
    let all = horn.flat_map(|line| notes(line).map(move |note| (line.index + 1, note)));
    all.filter_map(|(line, note)| {
        let Played::Pitch {
            written,
            tube: Some(tube),
            partial,
            ..
        } = note.played
        else {
            return None;
        };
        let eased =
            trumpet().tube_half_steps(tube) >= 3 && partial == Some(level.next_partial(trumpet()));
        (written.number() > top && !eased).then_some((line, written.number(), note))
    })
    .collect()
}

#[test]
fn what_is_said_of_a_routine_is_in_its_notes() {
    each(|name, _, score| {
        let facts = facts(name);
        let horn = score.lines.iter().filter(|line| line.on == On::Horn);
        let all: Vec<i32> = horn.flat_map(notes).filter_map(number).collect();
        assert_eq!(facts.lowest.number(), *all.iter().min().unwrap(), "{name}");
        assert_eq!(facts.highest.number(), *all.iter().max().unwrap(), "{name}");
        assert_eq!(facts.first.0.number(), all[0], "{name}");
        let beyond = beyond(score);
        let mut lines: Vec<usize> = beyond.iter().map(|(line, ..)| *line).collect();
        lines.dedup();
        let said: Vec<usize> = facts.stretches.iter().map(|s| s.number).collect();
        assert_eq!(said, lines, "{name}");
        let sentence = facts.beyond();
        match beyond.iter().map(|(_, pitch, _)| *pitch).max() {
            None => assert_eq!(sentence, "No line goes beyond that.", "{name}"),
            Some(highest) => {
                let highest = WrittenPitch::from_number(highest);
                assert!(
                    sentence.contains(&format!("up to {highest}")),
                    "{name}: {sentence}"
                );
                let reach = score.routine.reach.map(|reach| reach.to_string());
                assert_eq!(reach, Some(highest.to_string()), "{name}: its reach");
            }
        }
    });
}

/// A stretch is late, short and soft, and the comments of the files say so.
#[test]
fn whatever_stretches_is_soft() {
    each(|name, _, score| {
        for (line, _, note) in beyond(score) {
            let melody = &score.routine.lines[line - 1].melody;
            let loud = melody
                .level_db(note.start)
                .max(melody.level_db(note.start + note.length));
            assert!(loud <= Dynamic::Mp.level_db() + 0.01, "{name}, line {line}");
        }
        let facts = facts(name);
        assert!(facts.stretches.iter().all(|s| s.soft), "{name}");
    });
}

/// Nobody is slurred up to C6.
#[test]
fn the_highest_note_is_started_and_never_slurred_up_to() {
    each(|name, _, score| {
        for (line, pitch, note) in beyond(score) {
            let joined = matches!(note.joined, leadpipe::score::Joined::Fresh(_));
            assert!(joined || pitch < 84, "{name}, line {line}");
        }
    });
}

#[test]
fn second_steps_is_said_to_leave_g4_in_the_line_that_does() {
    let why = chosen("G4", None).why;
    assert_eq!(
        why,
        "second-steps (level 2) asks for G4 and what lies below it, down to F#3, and for A4 where a long tube makes it \
         easy (1-2). Only line 9 goes beyond that, up to C5, softly."
    );
}

#[test]
fn a_starter_is_told_what_the_routine_begins_with() {
    let choice = chosen("A3", None);
    assert_eq!(choice.routine, "first-sounds");
    assert!(
        choice
            .why
            .contains("first-sounds begins with A3 on 1-2, finds E4 on 1-2"),
        "{}",
        choice.why
    );
    assert!(!choice.why.contains("should be easy"));
}

#[test]
fn children_get_phrases_for_their_breath() {
    for (note, routine) in [
        ("A3", "first-sounds-young"),
        ("C4", "first-steps-young"),
        ("G4", "second-steps-young"),
        ("C5", "third-steps-young"),
        ("G5", "third-steps-young"),
    ] {
        let choice = chosen(note, Some(AgeBand::EightToTen));
        assert_eq!(choice.routine, routine, "{note}");
        assert!(choice.why.contains("a pupil of 8–10"), "{}", choice.why);
    }
    let fourteen = chosen("E5", Some(AgeBand::FourteenToSixteen));
    assert_eq!(fourteen.routine, "fourth-steps");
    // Of the breath of a child of twelve level 4 asks too much.
    let twelve = chosen("E5", Some(AgeBand::ElevenToThirteen));
    assert_eq!(twelve.routine, "third-steps");
    assert!(
        twelve.why.contains("level 4 ask for longer breaths"),
        "{}",
        twelve.why
    );
}

#[test]
fn who_is_stuck_on_one_note_gets_a_way_on_any_note() {
    for number in 54..=84 {
        let note = WrittenPitch::from_number(number);
        let player = Player {
            highest: note,
            lowest: Some(note),
            age: None,
            names: leadpipe::music::NoteNames::English,
        };
        let (steps, line) = choose::choose(trumpet(), player).one_note.unwrap();
        assert!(steps[0].contains("Tongue"), "{note}: {steps:?}");
        assert!(steps[1].contains("slur"), "{note}: {steps:?}");
        assert!(line.contains("tubes = ["), "{note}: {line}");
    }
    let player = Player {
        highest: pitch("G4"),
        lowest: Some(pitch("C4")),
        age: None,
        names: leadpipe::music::NoteNames::English,
    };
    assert!(choose::choose(trumpet(), player).one_note.is_none());
}
