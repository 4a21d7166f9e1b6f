//! What each mark makes of a routine, and what is told of marks that do not fit.

use super::{SHORT, laid, preset, read, score, short, text};
use leadpipe::check;
use leadpipe::music::Seconds;
use leadpipe::pencil::{self, lay};
use leadpipe::routine::{self, Articulation, Drone, Guide, Routine, Walk};
use leadpipe::score::{Take, TakeTempo, unroll};

fn tempo(routine: &Routine, line: usize) -> String {
    score(routine).lines[line].tempo.to_string()
}

/// Of a line at several tempos, each moves by the same part; a tempo that is named is that of the first.
#[test]
fn all_tempos_of_a_line_move_together() {
    let text = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
                tempo = 72\n\n[[line]]\nname = \"L\"\ntempo = [60, 80, 100]\nnotes = \"C4:whole\"\n";
    let routine = routine::read(text).unwrap();
    for (mark, tempos) in [
        ("line = 1\ntempo = \"slower\"", ["51", "68", "85"]),
        ("line = 1\ntempo = 30", ["30", "40", "50"]),
        ("tempo = \"50%\"", ["30", "40", "50"]),
    ] {
        let laid = laid(&routine, &[mark]);
        let lines = score(&laid.routine).lines;
        let found: Vec<String> = lines.iter().map(|l| l.tempo.to_string()).collect();
        assert_eq!(found, tempos, "{mark}");
    }
}

#[test]
fn tempo_moves_with_the_takes() {
    let routine = short();
    for (mark, tempos) in [
        ("line = 1\ntempo = \"slower\"", ["51", "90"]),
        ("line = 1\ntempo = \"faster\"", ["69", "90"]),
        ("line = 2\ntempo = \"50%\"", ["60", "45"]),
        ("line = 2\ntempo = 72", ["60", "72"]),
        ("tempo = \"slower\"", ["51", "76.5"]),
        ("tempo = 80", ["80", "120"]),
    ] {
        let laid = laid(&routine, &[mark]);
        let found = [tempo(&laid.routine, 0), tempo(&laid.routine, 1)];
        assert_eq!(found, tempos, "{mark}");
    }
    let laid = laid(&routine, &["line = 1\ntempo = 40", "tempo = \"slower\""]);
    // The line's own mark counts; and both move with the take's.
    let take = Take {
        tempo: TakeTempo::Percent(leadpipe::music::Decimal::from_integer(50)),
        ..Take::default()
    };
    let score = unroll(&laid.routine, &take).unwrap();
    let tempos: Vec<String> = score.lines.iter().map(|l| l.tempo.to_string()).collect();
    assert_eq!(tempos, ["20", "38.3", "25.5", "25.5"]);
}

#[test]
fn rests_change_by_what_is_said() {
    let routine = short();
    let rest = |mark: &str| {
        score(&laid(&routine, &[mark]).routine).lines[0]
            .rest
            .unwrap()
            .seconds
    };
    assert_eq!(rest("line = 4\ntimes = 1"), Seconds::from_integer(20));
    assert_eq!(
        rest("line = 1\nrest = \"longer\""),
        Seconds::from_integer(25)
    );
    assert_eq!(
        rest("line = 1\nrest = \"shorter\""),
        Seconds::from_integer(15)
    );
    assert_eq!(rest("rest = \"200%\""), Seconds::from_integer(40));
    assert_eq!(
        rest("line = 1\nrest = \"3 bars\""),
        Seconds::from_integer(12)
    );
    assert_eq!(rest("line = 1\nrest = \"30 s\""), Seconds::from_integer(30));
    // Each time through is two bars of four seconds; the last is owed.
    assert_eq!(rest("line = 1\nrest = \"same\""), Seconds::from_integer(8));
    let between = |mark: &str| {
        let laid = laid(&routine, &[mark]);
        let line = &score(&laid.routine).lines[0];
        line.seconds(line.passes[0].between)
    };
    assert_eq!(
        between("line = 1\nbetween = \"longer\""),
        Seconds::from_integer(12)
    );
    assert_eq!(
        between("line = 1\nbetween = \"50%\""),
        Seconds::from_integer(4)
    );
    assert_eq!(
        between("line = 1\nbetween = \"none\""),
        Seconds::from_integer(0)
    );
}

#[test]
fn what_is_played_changes_as_the_marks_say() {
    let routine = short();
    let line = |mark: &str| laid(&routine, &[mark]).routine.lines[0].clone();
    assert_eq!(line("line = 1\ntimes = 5").times, 5);
    assert_eq!(
        line("line = \"away\"\narticulation = \"both\"").articulations,
        [Articulation::Slurred, Articulation::Tongued]
    );
    assert_eq!(line("line = 1\nguide = \"echo\"").guide, Some(Guide::Echo));
    assert_eq!(line("line = 1\ndrone = \"off\"").drone, Drone::Off);
    assert_eq!(
        line("line = 1\nstop_after = -1").walk,
        Walk::HalfSteps(vec![0, -1])
    );
    assert_eq!(
        line("line = 1\nstop_after = \"0\"").walk,
        Walk::HalfSteps(vec![0])
    );
    assert_eq!(
        line("line = 1\nhalf_steps = [0, -1, -2, -3]").walk,
        Walk::HalfSteps(vec![0, -1, -2, -3])
    );
    assert_eq!(
        line("line = 1\nwords = \"Easy.\"").words.as_deref(),
        Some("Easy.")
    );
    let tubes = laid(&routine, &["line = 2\nstop_after = \"1\""])
        .routine
        .lines[1]
        .walk
        .clone();
    assert!(matches!(tubes, Walk::Tubes(tubes) if tubes.len() == 3));
    let left = laid(&routine, &["line = 2\nleave_out = true"]);
    let names: Vec<&str> = left.routine.lines.iter().map(|l| l.name.as_str()).collect();
    assert_eq!(names, ["Away", "Air", "Home"]);
    let of: Vec<usize> = left.lines.iter().map(|l| l.of).collect();
    assert_eq!(of, [0, 2, 3]);
}

#[test]
fn a_note_that_the_teacher_bends_can_be_fingered() {
    let routine = preset("second-steps");
    let bent = routine
        .lines
        .iter()
        .position(|line| line.melody.events.iter().any(|event| event.bend))
        .expect("a line of it has a bend");
    let line = bent + 1;
    let events = |marks: &[&str]| {
        laid(&routine, marks).routine.lines[bent]
            .melody
            .events
            .clone()
    };
    let written = events(&[]);
    let notes = || {
        written
            .iter()
            .filter(|e| matches!(e.kind, routine::EventKind::Note(_)))
    };
    let number = 1 + notes().position(|event| event.bend).expect("it is bent");
    for mark in [
        format!("line = {line}\nfinger = {number}"),
        format!("line = {line}\nfinger = true"),
    ] {
        let fingered = events(&[&mark]);
        assert_eq!(fingered.len(), written.len());
        for (now, before) in fingered.iter().zip(&written) {
            assert!(!now.bend, "{mark}");
            assert_eq!((now.kind, now.length), (before.kind, before.length));
        }
    }
}

#[test]
fn a_line_that_comes_last_because_others_are_left_out_keeps_the_mark_on_its_rest() {
    let routine = short();
    let last = routine.lines.len();
    let rest = format!("line = {}\nrest = \"longer\"", last - 1);
    let out = format!("line = {last}\nleave_out = true");
    let laid = laid(&routine, &[&rest, &out]);
    assert_eq!(laid.routine.lines.len(), last - 1);
}

#[test]
fn notes_are_written_as_the_teacher_would() {
    let routine = short();
    let notes = |mark: &str| laid(&routine, &[mark]).routine.lines[0].phrase.to_string();
    // Behind the tie: tied notes are one.
    assert_eq!(
        notes("line = 1\nbreath_after = 3"),
        "p slur( G4:half F#4:half | G4:half ) tie:quarter breath rest:quarter"
    );
    assert_eq!(
        notes("line = 1\nbreath_after = 1"),
        "p slur( G4:half breath F#4:half | G4:half ) tie:quarter rest:quarter"
    );
    assert_eq!(
        notes("line = 1\nbend = true"),
        "p slur( G4:half F#4:half (bend) | G4:half ) tie:quarter rest:quarter"
    );
    assert_eq!(notes("line = 1\nbend = 2"), notes("line = 1\nbend = true"));
    assert_eq!(
        notes("line = 1\nloudness = \"louder\""),
        "mp slur( G4:half F#4:half | G4:half ) tie:quarter rest:quarter"
    );
    let tubes = laid(&routine, &["line = 2\nloudness = \"softer\""]);
    assert_eq!(
        tubes.routine.lines[1].phrase.to_string(),
        "mp slur( C4:half G4:half | C4:whole )"
    );
}

#[test]
fn a_swell_that_leads_nowhere_any_more_is_left_out() {
    let text = SHORT.replace(
        "p slur( D4:half C4:half )",
        "pp cresc D4:half p dim C4:half pp",
    );
    let routine = routine::read(&text).unwrap();
    let softer = laid(&routine, &["line = 4\nloudness = \"softer\""]);
    assert_eq!(
        softer.routine.lines[3].phrase.to_string(),
        "pp D4:half pp C4:half pp"
    );
    let louder = laid(&routine, &["line = 4\nloudness = \"louder\""]);
    assert_eq!(
        louder.routine.lines[3].phrase.to_string(),
        "p cresc D4:half mp dim C4:half p"
    );
}

/// Message and hint of everything that does not fit.
fn unfit(marks: &[&str]) -> Vec<(String, String)> {
    let laid = lay(&read(&text(marks)), &short());
    let faults = laid.faults.into_iter();
    faults
        .map(|f| (f.message.to_string(), f.hint.unwrap().to_string()))
        .collect()
}

#[test]
fn marks_that_do_not_fit_are_told() {
    for (marks, message, hint) in [
        (
            &["line = 9\ntimes = 2"][..],
            "there is no line 9 in “Short”",
            "it has 4 lines",
        ),
        (
            &["line = \"Awya\"\ntimes = 2"],
            "there is no line called “Awya” in “Short”",
            "did you mean “Away”?",
        ),
        (
            &["line = 1\nbreath_after = 4"],
            "“Away”: there is no note 4: the line has 3 notes",
            "notes are counted from 1",
        ),
        (
            &["line = 3\nbreath_after = 1"],
            "“Air”: a breathing line is all breath",
            "mark a line that has notes",
        ),
        (
            &["line = 3\nloudness = \"softer\""],
            "“Air”: a breathing line has no dynamics",
            "mark a line that has notes",
        ),
        (
            &["line = 1\nbend = 3"],
            "“Away”: note 3 cannot be bent",
            "a bend is lipped down",
        ),
        (
            &["line = 4\nbend = true"],
            "“Home”: there is nothing to bend here",
            "a bend is lipped down",
        ),
        (
            &["line = 1\nbend = 2", "line = 1\nbreath_after = 1"],
            "“Away”: with this mark there is a fault in its notes: a bend is lipped down from a note, and follows a breath",
            "put the note it starts from",
        ),
        (
            &["line = 1\nstop_after = \"1-2\""],
            "“Away”: that is not one of its half steps",
            "they are 0, -1 and -2",
        ),
        (
            &["line = 1\nstop_after = -2"],
            "“Away”: it stops after -2 as it is",
            "name one before it",
        ),
        (
            &["line = 2\nhalf_steps = [0]"],
            "“On tubes”: it goes through tubes",
            "name tubes",
        ),
        (
            &["line = 1\ntubes = [\"0\"]"],
            "“Away”: it is not written for the open horn, so it has no tubes",
            "move it by half steps",
        ),
        (
            &["line = 4\nrest = \"longer\""],
            "“Home” comes last, and there is no rest after it",
            "mark the rest after the line before",
        ),
        (
            &["line = 1\nfinger = 2"],
            "“Away”: note 2 is not bent",
            "this mark is for notes that the teacher bends",
        ),
        (
            &["line = 2\nfinger = true"],
            "“On tubes”: no note of it is bent",
            "this mark is for notes that the teacher bends",
        ),
        (
            &["line = 1\nbend = 2", "line = 1\nfinger = 2"],
            "line 1 has two marks that contradict each other",
            "keep one",
        ),
        (
            &["line = 4\nbetween = \"longer\""],
            "“Home”: it is played only once, so there is no rest in between",
            "mark the rest after it",
        ),
        (
            &[
                "line = 1\ntempo = \"slower\"",
                "line = 1\ntempo = \"faster\"",
            ],
            "line 1 has two marks that contradict each other",
            "keep one tempo",
        ),
        (
            &[
                "line = 1\ntempo = \"slower\"",
                "line = \"Away\"\ntempo = \"slower\"",
            ],
            "line 1 has this mark twice",
            "keep one; for a larger change",
        ),
        (
            &["line = 1\nleave_out = true", "line = 1\ntimes = 3"],
            "line 1 is left out and has another mark as well",
            "keep one of the two",
        ),
        (
            &["line = 1\ntempo = \"10%\""],
            "“Away”: it would come to 6 clicks a minute",
            "tempos go from 20 to 300",
        ),
    ] {
        let found = unfit(marks);
        assert_eq!(found.len(), 1, "{marks:?}: {found:?}");
        assert_eq!(found[0].0, message, "{marks:?}");
        assert!(found[0].1.starts_with(hint), "{marks:?}: {}", found[0].1);
    }
}

#[test]
fn the_rest_applies_all_the_same() {
    let pencil = read(&text(&["line = 9\ntimes = 2", "line = 1\ntimes = 3"]));
    let laid = lay(&pencil, &short());
    assert_eq!(laid.faults.len(), 1);
    assert_eq!(laid.routine.lines[0].times, 3);
    let all: Vec<String> = (1..=4)
        .map(|n| format!("line = {n}\nleave_out = true"))
        .collect();
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    let laid = lay(&read(&text(&all)), &short());
    assert_eq!(laid.routine.lines.len(), 1, "something is left to play");
    assert_eq!(laid.faults[0].message, "every line is left out");
}

/// Softer on the whole of a routine means the lines that can be.
#[test]
fn a_mark_on_the_whole_routine_changes_the_lines_it_can() {
    let laid = laid(&short(), &["loudness = \"softer\"\ndrone = \"off\""]);
    let changed: Vec<bool> = laid.lines.iter().map(|l| !l.marks.is_empty()).collect();
    assert_eq!(changed, [true, true, false, true]);
}

/// What the checker says follows the player's version.
#[test]
fn a_breath_mark_takes_advice_on_breath_away() {
    let mut text = SHORT.to_owned();
    text = text.replace(
        "p slur( D4:half C4:half )",
        "p slur( D4:whole | C4:whole | D4:whole | C4:whole | D4:whole | C4:whole )",
    );
    let routine = routine::read(&text).unwrap();
    let says = |routine: &Routine| {
        let report = check::check(&score(routine), &check::Options::default());
        report
            .findings
            .iter()
            .filter(|f| f.rule.contains("breath"))
            .count()
    };
    assert!(says(&routine) > 0);
    let with = laid(&routine, &["line = 4\nbreath_after = [2, 4]"]);
    assert!(says(&with.routine) < says(&routine));
}

#[test]
fn every_preset_can_be_marked() {
    for name in super::usual() {
        let routine = preset(name);
        let laid = pencil::lay(
            &read(&text(&[
                "tempo = \"slower\"",
                "rest = \"longer\"",
                "loudness = \"softer\"",
            ])),
            &routine,
        );
        assert!(laid.faults.is_empty(), "{name}\n{:#?}", laid.faults);
        assert!(unroll(&laid.routine, &Take::default()).is_ok(), "{name}");
    }
}
