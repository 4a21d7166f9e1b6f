//! Routines carried to other instruments, and arranged for groups.

mod group;
mod room;

use leadpipe::brass::{INSTRUMENTS, Instrument, Level};
use leadpipe::carry::{Carried, CarryError, CarryRule, carry};
use leadpipe::check::{self, Options, Severity};
use leadpipe::presets;
use leadpipe::routine::{self, Routine, Walk};
use leadpipe::score::{Played, Score, Take, unroll};

const HEAD: &str = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
    reach = \"C5\"\ntempo = 72\n";

fn named(name: &str) -> &'static Instrument {
    Instrument::named(name).unwrap_or_else(|| panic!("{name} is an instrument"))
}

fn carried(text: &str, to: &str, rule: CarryRule) -> Carried {
    carry(text, named(to), rule).unwrap_or_else(|why| panic!("to the {to}: {why:?}"))
}

fn for_trumpet() -> impl Iterator<Item = presets::Preset> {
    let all = presets::ALL.into_iter();
    all.filter(|preset| preset.text.contains("\"trumpet in B-flat\""))
}

fn line(rows: &str) -> String {
    format!("{HEAD}\n[[line]]\nname = \"One\"\n{rows}\n")
}

/// Sounding pitch, half steps of the tube and partial of every note with a pitch, line by line.
fn played(routine: &Routine) -> Vec<Vec<(i32, i32, u8)>> {
    let score: Score<'_> = unroll(routine, &Take::default()).unwrap();
    let instrument = routine.instrument;
    let of_line = |line: &leadpipe::score::ScoreLine| {
        let notes = line.passes.iter().flat_map(|pass| &pass.notes);
        let pitches = notes.filter_map(|note| match note.played {
            Played::Pitch {
                sounding,
                tube,
                partial,
                ..
            } => Some((
                sounding.number(),
                tube.map_or(0, |tube| instrument.tube_half_steps(tube)),
                partial.unwrap_or(0),
            )),
            Played::In | Played::Out => None,
        });
        pitches.collect()
    };
    score.lines.iter().map(of_line).collect()
}

#[test]
fn only_what_depends_on_the_instrument_is_replaced() {
    let text = format!(
        "{HEAD}key = \"C major\"\n\n# Over the line.\n[[line]]\nname = \"C4 in a name\"   # C4 here\nsay = \"From C4 up.\"\n\
         notes = \"\"\"\n  slur( C4:half G4:half [1-3] ) |\n  C4:whole (accent)\"\"\"\ntonic = \"C4\"\n\n[[line]]\nname = \"Tubes\"\n\
         open = \"slur( C4:half G4:half )\"\ntubes = [\"0\", \"2\", '1-2-3']\ndrone = \"Bb2\"\n"
    );
    let found = carried(&text, "trombone", CarryRule::Partials);
    assert_eq!(found.left_out, []);
    let want = text
        .replace("trumpet in B-flat", "trombone")
        .replace("comfortable_top = \"G4\"", "comfortable_top = \"F3\"")
        .replace("reach = \"C5\"", "reach = \"Bb3\"")
        .replace("C major", "B-flat major")
        .replace(
            "slur( C4:half G4:half [1-3] )",
            "slur( Bb2:half F3:half [6] )",
        )
        .replace("C4:whole", "Bb2:whole")
        .replace("tonic = \"C4\"", "tonic = \"Bb2\"")
        .replace("slur( C4:half G4:half )", "slur( Bb2:half F3:half )")
        .replace("[\"0\", \"2\", '1-2-3']", "[\"1\", \"2\", \"7\"]");
    assert_eq!(found.text, want);
}

#[test]
fn to_treble_clef_nothing_changes_but_the_head() {
    for preset in for_trumpet() {
        let found = carried(preset.text, "euphonium in treble clef", CarryRule::Partials);
        assert_eq!(found.left_out, [], "{}", preset.name);
        let want = preset
            .text
            .replace("\"trumpet in B-flat\"", "\"euphonium in treble clef\"");
        assert_eq!(found.text, want, "{}", preset.name);
    }
}

#[test]
fn by_partials_every_note_keeps_its_tube_and_its_partial() {
    let mut checked = 0;
    for to in [
        "trombone",
        "tuba in B-flat",
        "tuba in E-flat",
        "tenor horn",
        "horn in F",
    ] {
        // A horn is an octave longer: the same tube on partials twice as high.
        let doubled = if to == "horn in F" { 2 } else { 1 };
        for preset in presets::usual() {
            let found = carried(preset.text, to, CarryRule::Partials);
            let (before, after) = (
                routine::read(preset.text).unwrap(),
                routine::read(&found.text).unwrap(),
            );
            let gone = |number: usize| found.left_out.iter().any(|line| line.number == number);
            let there: Vec<usize> = (0..before.lines.len())
                .filter(|line| !gone(line + 1))
                .collect();
            assert_eq!(there.len(), after.lines.len());
            let (was, is) = (played(&before), played(&after));
            for (new, old) in there.into_iter().enumerate() {
                let on_tubes = matches!(before.lines[old].walk, Walk::Tubes(_));
                let bends = before.lines[old]
                    .melody
                    .events
                    .iter()
                    .any(|event| event.bend);
                // A slide bends by moving, and the usual fingerings of a horn's upper partials are its own.
                if to == "trombone" && bends || to == "horn in F" && !on_tubes {
                    continue;
                }
                assert_eq!(was[old].len(), is[new].len());
                for (was, is) in was[old].iter().zip(&is[new]) {
                    let place = format!("{} line {} on the {to}", preset.name, old + 1);
                    assert_eq!((was.1, was.2 * doubled), (is.1, is.2), "{place}");
                    checked += 1;
                }
            }
        }
    }
    assert!(checked > 4_000, "{checked}");
}

#[test]
fn in_concert_every_note_keeps_its_pitch_class_and_stays_within_the_level() {
    let mut checked = 0;
    for instrument in INSTRUMENTS {
        for preset in presets::usual() {
            let before = routine::read(preset.text).unwrap();
            let Ok(found) = carry(preset.text, instrument, CarryRule::Concert) else {
                continue;
            };
            let after = routine::read(&found.text).unwrap();
            let gone = |number: usize| found.left_out.iter().any(|line| line.number == number);
            let was = played(&before).into_iter().enumerate();
            let was = was.filter(|(line, _)| !gone(line + 1));
            for ((line, was), is) in was.zip(played(&after)) {
                assert_eq!(was.len(), is.len());
                for (was, is) in was.iter().zip(is) {
                    assert_eq!(
                        (was.0 - is.0) % 12,
                        0,
                        "{} line {line} on the {}",
                        preset.name,
                        instrument.name
                    );
                    checked += 1;
                }
            }
            let level =
                |routine: &Routine| Level::of_top(routine.instrument, routine.comfortable_top);
            assert_eq!(
                level(&before),
                level(&after),
                "{} on the {}",
                preset.name,
                instrument.name
            );
        }
    }
    assert!(checked > 10_000, "{checked}");
}

#[test]
fn every_built_in_routine_carries_to_every_instrument_or_says_why_a_line_stays_out() {
    let mut whole = 0;
    for instrument in INSTRUMENTS {
        for preset in presets::ALL {
            let found = match carry(preset.text, instrument, CarryRule::Partials) {
                Ok(found) => found,
                Err(CarryError::NothingLeft(lines)) => {
                    assert!(!lines.is_empty());
                    continue;
                }
                Err(why) => panic!("{} to the {}: {why:?}", preset.name, instrument.name),
            };
            let routine = routine::read(&found.text).unwrap_or_else(|why| {
                panic!("{} to the {}: {why:?}", preset.name, instrument.name)
            });
            assert_eq!(routine.instrument.name, instrument.name);
            let score = unroll(&routine, &Take::default()).unwrap();
            let report = check::check(&score, &Options::default());
            let serious: Vec<_> = report
                .findings
                .iter()
                .filter(|finding| finding.severity > Severity::Advice && finding.line.is_some())
                .collect();
            assert!(
                serious.is_empty(),
                "{} on the {}: {serious:?}",
                preset.name,
                instrument.name
            );
            for line in &found.left_out {
                assert!(!line.problem.message.is_empty());
            }
            whole += usize::from(found.left_out.is_empty());
        }
    }
    let all = INSTRUMENTS.len() * presets::ALL.len();
    assert!(whole * 10 > all * 6, "{whole} of {all} carry whole");
}

#[test]
fn what_has_no_counterpart_is_said_line_by_line() {
    let text = format!(
        "{HEAD}\n[[line]]\nname = \"Stays\"\nnotes = \"F4:whole\"\n\n[[line]]\nname = \"Tubes\"\nopen = \"C4:whole\"\n\
         tubes = [\"0\"]\n"
    );
    let found = carried(&text, "horn in F", CarryRule::Concert);
    assert_eq!(found.left_out.len(), 1);
    let line = &found.left_out[0];
    assert_eq!((line.number, line.name.as_str()), (2, "Tubes"));
    assert!(
        line.problem.message.contains("concert B-flat"),
        "{}",
        line.problem
    );
    assert!(
        line.problem.message.contains("concert F"),
        "{}",
        line.problem
    );
    assert!(line.problem.hint.as_ref().unwrap().contains("partials"));
    assert!(!found.text.contains("Tubes"), "{}", found.text);
    assert!(found.text.contains("Stays"));
}

#[test]
fn a_fingering_goes_where_its_note_is_another_one() {
    let text = line("notes = \"C5:half [1-3] A4:half [1-2]\"\nrest = \"none\"")
        .replace("\"G4\"", "\"C5\"");
    let found = carried(
        &text.replace("reach = \"C5\"\n", ""),
        "tenor horn",
        CarryRule::Concert,
    );
    assert!(found.left_out.is_empty(), "{:?}", found.left_out);
    assert!(!found.text.contains("[1-"), "{}", found.text);
}

#[test]
fn a_routine_for_the_instrument_itself_stays_as_it_is() {
    let text = line("notes = \"C4:whole\"");
    for name in ["trumpet", "trumpet in Bb"] {
        assert_eq!(carried(&text, name, CarryRule::Partials).text, text);
    }
    assert!(matches!(
        carry("format = 1", named("trombone"), CarryRule::Partials),
        Err(CarryError::Unreadable(_))
    ));
}

#[test]
fn there_and_back_the_text_is_the_same() {
    for preset in for_trumpet() {
        let there = carried(preset.text, "trombone", CarryRule::Partials);
        if !there.left_out.is_empty() {
            continue;
        }
        let back = carried(&there.text, "trumpet in B-flat", CarryRule::Partials);
        let (one, other) = (
            routine::read(preset.text).unwrap(),
            routine::read(&back.text).unwrap(),
        );
        assert_eq!(played(&one), played(&other), "{}", preset.name);
    }
}

/// Pedal tones stay pedal tones where the other horn has them; where it has not, the line stays out, and
/// the routine is not offered for it.
#[test]
fn pedal_tones_go_where_they_are_played() {
    let text = presets::named("pedal-tones").unwrap().text;
    let pedals = |routine: &Routine| {
        let all = played(routine);
        all.iter()
            .flatten()
            .filter(|(_, _, partial)| *partial == 1)
            .count()
    };
    let written = pedals(&routine::read(text).unwrap());
    assert!(written > 20, "{written}");
    for to in [
        "euphonium in bass clef",
        "euphonium in treble clef",
        "bass trombone",
    ] {
        let found = carried(text, to, CarryRule::Partials);
        assert_eq!(found.left_out, [], "{to}");
        assert_eq!(
            pedals(&routine::read(&found.text).unwrap()),
            written,
            "{to}"
        );
    }
    // In concert a line lies as high as it can: here nothing but the lowest octave is in reach of an easy B-flat 2.
    let low = line("notes = \"Bb1:half A1:half\"").replace("trumpet in B-flat", "trombone");
    let low = low
        .replace("\"G4\"", "\"Bb2\"")
        .replace("reach = \"C5\"\n", "");
    let there = carried(&low, "euphonium in bass clef", CarryRule::Concert);
    assert_eq!(there.left_out, []);
    let offered = |to: &str| {
        let all = presets::facts::for_instrument(named(to));
        all.iter().any(|facts| facts.preset.name == "pedal-tones")
    };
    assert!(offered("trombone") && offered("euphonium in treble clef"));
    for to in ["trumpet", "tuba in B-flat"] {
        assert!(!offered(to), "{to}");
        let left_out = carried(text, to, CarryRule::Partials).left_out;
        assert!(left_out.len() >= 4, "{to}: {}", left_out.len());
    }
}
