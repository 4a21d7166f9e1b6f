//! A routine arranged for players who play it together.

use super::{HEAD, named};
use leadpipe::brass::Instrument;
use leadpipe::carry::CarryRule;
use leadpipe::group::{Arranged, GroupError, arrange};
use leadpipe::presets;
use leadpipe::routine::{self, On, Routine};
use leadpipe::score::{Played, ScoreLine, Take, spoken, unroll};
use leadpipe::sheet::{SheetOptions, engrave_full_score};
use leadpipe::timeline::{Settings, compile, room};

/// Horns in B-flat, F and E-flat, in both clefs, with valves and with a slide.
pub const MIXED: [&str; 5] = [
    "trumpet in B-flat",
    "horn in F",
    "tenor horn",
    "trombone",
    "tuba in B-flat",
];

pub fn instruments(names: &[&str]) -> Vec<&'static Instrument> {
    names.iter().map(|name| named(name)).collect()
}

pub fn arranged(text: &str, names: &[&str]) -> Arranged {
    arrange(text, &instruments(names)).unwrap_or_else(|why| panic!("{why:?}"))
}

pub fn parts(arranged: &Arranged) -> Vec<Routine> {
    let parts = arranged.parts.iter();
    let read = |text: &String| routine::read(text).unwrap_or_else(|why| panic!("{why:?}\n{text}"));
    parts.map(read).collect()
}

/// The sounding notes of a line in order.
fn sounding(line: &ScoreLine) -> Vec<i32> {
    let notes = line.passes.iter().flat_map(|pass| &pass.notes);
    let pitch = |note: &leadpipe::score::ScoreNote| match note.played {
        Played::Pitch { sounding, .. } => Some(sounding.number()),
        Played::In | Played::Out => None,
    };
    notes.filter_map(pitch).collect()
}

#[test]
fn every_built_in_routine_has_one_clock_for_a_mixed_group() {
    for preset in presets::ALL {
        let arranged = arranged(preset.text, &MIXED);
        let parts = parts(&arranged);
        for tempo in ["100%", "70%"] {
            let take = Take {
                tempo: spoken::tempo(tempo).unwrap(),
                ..Take::default()
            };
            let scores: Vec<_> = parts.iter().map(|p| unroll(p, &take).unwrap()).collect();
            let settings = Settings::default();
            let timelines: Vec<_> = scores.iter().map(|s| compile(s, &settings)).collect();
            let all: Vec<_> = timelines.iter().collect();
            let room = room::together(&all, None);
            let room = room.unwrap_or_else(|other| panic!("{} {other:?}", preset.name));
            assert_eq!(room.frames, timelines[0].frames);
            for timeline in &timelines {
                assert_eq!(timeline.frames, room.frames, "{}", preset.name);
            }
            let scores: Vec<_> = scores.iter().collect();
            let sheet = engrave_full_score(&scores, preset.name, &SheetOptions::default());
            assert!(sheet.is_some(), "{}", preset.name);
        }
    }
}

#[test]
fn whoever_plays_a_turn_plays_the_same_or_is_alone_on_that_kind_of_horn() {
    let mut shared = 0;
    let mut in_turn = 0;
    for preset in presets::ALL {
        let arranged = arranged(preset.text, &MIXED);
        let parts = parts(&arranged);
        let scores: Vec<_> = parts
            .iter()
            .map(|part| unroll(part, &Take::default()).unwrap())
            .collect();
        for (number, turn) in arranged.turns.iter().enumerate() {
            let of_line = |score: &leadpipe::score::Score<'_>| {
                let lines = score.lines.iter().filter(|line| line.index == number);
                lines.flat_map(sounding).collect::<Vec<_>>()
            };
            let first = of_line(&scores[turn.players[0]]);
            for (player, score) in scores.iter().enumerate() {
                let notes = of_line(score);
                if !turn.players.contains(&player) {
                    assert!(notes.is_empty(), "{}: {number} rests", preset.name);
                    assert_eq!(parts[player].lines[number].on, On::Rest);
                    continue;
                }
                assert_eq!(notes.len(), first.len());
                let apart: Vec<i32> = notes.iter().zip(&first).map(|(a, b)| a - b).collect();
                assert!(
                    apart.iter().all(|n| n % 12 == 0 && *n == apart[0]),
                    "{}: line {number}, player {player}: {apart:?}",
                    preset.name
                );
            }
            shared += usize::from(turn.rule == CarryRule::Concert && turn.players.len() > 1);
            in_turn += usize::from(turn.rule == CarryRule::Partials);
        }
    }
    assert!(shared > 100 && in_turn > 10, "{shared} {in_turn}");
}

/// Which groups share a walk through tubes: computed from the partials of open horns. A walk fits a horn if its first note is
/// the second, third, fourth, sixth or eighth partial of the open tube.
#[test]
fn walks_are_shared_by_the_horns_whose_open_notes_they_start_on() {
    let walk = |start: &str| {
        format!(
            "{HEAD}[[line]]\nname = \"Walk\"\nopen = \"{start}:whole | {start}:whole\"\ntubes = [\"0\", \"2\", \"1\"]\n"
        )
    };
    // Concert F is the third partial of horns in B-flat and the fourth of the horn in F; those in E-flat have it on no open tube
    // below the ninth.
    let group = ["trumpet", "trombone", "horn in F", "tenor horn"];
    let turns = |start: &str| {
        let found = arranged(&walk(start), &group);
        let players = found.turns.iter().map(|turn| turn.players.clone());
        (players.collect::<Vec<_>>(), found)
    };
    let (players, found) = turns("G4");
    assert_eq!(players, [vec![0, 1, 2], vec![3]]);
    assert!(found.parts[2].contains("open = \"C4:whole | C4:whole\""));
    assert!(found.parts[2].contains("tonic = \"F"), "{}", found.parts[2]);
    // Concert B-flat is the second or fourth partial of horns in B-flat, the third of those in E-flat, and on no open tube of the
    // horn in F.
    let (players, _) = turns("C4");
    assert_eq!(players, [vec![0, 1, 3], vec![2]]);
}

#[test]
fn two_of_one_instrument_share_a_turn_and_the_same_part() {
    let text = presets::named("second-steps").unwrap().text;
    let found = arranged(text, &["horn in F", "trumpet", "horn in F"]);
    assert_eq!(found.parts[0], found.parts[2]);
    assert_eq!(
        found.parts[1].matches("[[line]]").count(),
        found.turns.len()
    );
}

#[test]
fn a_group_of_one_kind_plays_every_line_together() {
    let text = presets::named("second-steps").unwrap().text;
    let found = arranged(text, &["trumpet", "cornet", "flugelhorn"]);
    assert!(found.turns.iter().all(|turn| turn.players == [0, 1, 2]));
    assert_eq!(found.parts[0].trim_end(), text.trim_end());
}

#[test]
fn a_line_of_rest_keeps_bars_times_tempo_meter_and_rests() {
    let text = format!(
        "{HEAD}[[line]]\nname = \"Waltz\"\nmeter = \"3/4\"\ntempo = [80, 96]\ntimes = 2\nbetween = \"2 bars\"\nrest = \"10 s\"\n\
         count_in = 2\nopen = \"slur( C4:half. | G4:half. | C4:half. )\"\ntubes = [\"0\", \"2\"]\n"
    );
    let found = arranged(&text, &["trumpet", "horn in F"]);
    let rest = &found.parts[1];
    for row in [
        "meter = \"3/4\"",
        "tempo = [80, 96]",
        "between = \"2 bars\"",
        "rest = \"10 s\"",
        "count_in = 2",
        "times = 4",
        "on = \"rest\"",
        "notes = \"rest:half. | rest:half. | rest:half.\"",
        "say = \"Count while these play: trumpet in B-flat.\"",
    ] {
        assert!(rest.contains(row), "{row}\n{rest}");
    }
}

#[test]
fn who_can_play_nothing_is_told() {
    // A thumb is what no trombone has, and a walk on the horn's tubes is no trombone's at concert pitch either.
    let text = HEAD.replace("trumpet in B-flat", "double horn")
        + "[[line]]\nname = \"Thumb\"\nopen = \"C4:whole\"\ntubes = [\"T1\"]\n";
    let error = arrange(&text, &instruments(&["double horn", "trombone"])).unwrap_err();
    let GroupError::Unplayable { player, problem } = error else {
        panic!("{error:?}");
    };
    assert_eq!(player, 1);
    assert!(problem.message.contains("trombone"), "{problem}");
    assert!(matches!(
        arrange("format = 2", &instruments(&["trumpet"])),
        Err(GroupError::Unreadable(_))
    ));
}

#[test]
fn other_clocks_are_found() {
    let text = presets::named("second-steps").unwrap().text;
    let parts = parts(&arranged(text, &["trumpet", "trombone"]));
    let at = |part: &Routine, tempo: &str| {
        let take = Take {
            tempo: spoken::tempo(tempo).unwrap(),
            ..Take::default()
        };
        compile(&unroll(part, &take).unwrap(), &Settings::default())
    };
    let (one, other) = (at(&parts[0], "100%"), at(&parts[1], "99%"));
    let found = room::together(&[&one, &other], None);
    assert_eq!(found.unwrap_err(), room::OtherClock { part: 1 });
}
