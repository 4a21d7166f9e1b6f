//! What is said of a routine that was opened.

use crate::{ask, open};
use serde_json::{Value, json};

fn numbers(list: &Value, field: &str) -> Vec<u64> {
    let list = list.as_array().expect("a list");
    list.iter()
        .map(|one| one[field].as_u64().expect("a number"))
        .collect()
}

/// At 60 clicks a minute a click is a second: 44,100 frames.
#[test]
fn lines_beats_and_notes_stand_at_their_frames() {
    const SECOND: u64 = 44_100;
    let (_, opened) = open(json!({}));
    assert_eq!(opened["ok"], true, "{opened}");
    let lines = opened["lines"].as_array().unwrap();
    assert_eq!(lines.len(), 2);
    let line = &lines[0];
    // Half a second before the first click; four beats are counted in, then two bars; 0.3 s of fade.
    assert_eq!(line["firstFrame"], SECOND / 2);
    assert_eq!(line["countIn"], 4 * SECOND);
    assert_eq!(line["barLine"], 12 * SECOND);
    assert_eq!(line["frames"], 12 * SECOND + SECOND * 3 / 10);
    let seconds: Vec<u64> = (0..12).map(|n| n * SECOND).collect();
    assert_eq!(numbers(&line["beats"], "frame"), seconds);
    assert_eq!(
        numbers(&line["beats"], "beat"),
        [1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 4]
    );
    let counted = line["beats"].as_array().unwrap().iter();
    assert_eq!(counted.filter(|beat| beat["countIn"] == true).count(), 4);

    let second = &line["passes"][1];
    assert_eq!(second["label"], "1 half step down");
    assert_eq!(
        numbers(&second["notes"], "frame"),
        [8 * SECOND, 9 * SECOND, 10 * SECOND]
    );
    let note = &second["notes"][1];
    assert_eq!(note["frames"], SECOND);
    // D4 a half step lower is written C#4, which a trumpet in B-flat sounds a whole tone lower.
    assert_eq!(
        (&note["written"], &note["sounding"]),
        (&json!("C#4"), &json!("B3"))
    );
    assert_eq!(
        (&note["fingering"], &note["id"]),
        (&json!("1-2-3"), &json!("1.2.2"))
    );
    let joined: Vec<&Value> = second["notes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|n| &n["joined"])
        .collect();
    assert_eq!(joined, ["fresh", "fresh", "slurred"]);

    // The rest of 12 s ends with the next line's count-in of 4 s; its first 0.3 s are the fade.
    let rest = &line["rest"];
    assert_eq!((&rest["unit"], &rest["seconds"]), (&json!(2), &json!(12.0)));
    assert_eq!(rest["frames"], 8 * SECOND - SECOND * 3 / 10);
    assert_eq!(rest["signs"][0]["sign"], "horn down");
    assert_eq!(rest["signs"][1]["sign"], "horn up");
    assert_eq!(lines[1]["firstFrame"], SECOND / 2 + 20 * SECOND);
    assert_eq!(lines[1]["rest"], Value::Null);
    // A breath is a second here, and never more than half of its note.
    assert_eq!(lines[1]["passes"][0]["notes"][1]["breath"], SECOND);
    assert_eq!(lines[1]["passes"][1]["tube"], "1-2");
}

#[test]
fn a_take_is_read_as_on_the_command_line() {
    let take = json!({ "tempo": 90, "key": "-2", "guide": "echo", "a4": 442 });
    let (_, opened) = open(json!({ "take": take, "sampleRate": 48_000 }));
    let said = &opened["take"];
    assert_eq!(
        said["words"],
        "at 90 clicks a minute, 2 half steps down, guide echo"
    );
    assert_eq!(
        (&said["clicks"], &said["a4"]),
        (&json!(90.0), &json!(442.0))
    );
    let line = &opened["lines"][0];
    assert_eq!(line["countIn"], 4 * 48_000 * 60 / 90);
    let pass = &line["passes"][0];
    // A bar of listening, then as long a turn.
    assert_eq!(pass["turn"], 8 * 48_000 * 60 / 90);
    assert_eq!(pass["end"], 12 * 48_000 * 60 / 90);
    assert_eq!(pass["notes"][0]["written"], "Bb3");
}

#[test]
fn every_note_has_its_heads_in_the_drawings() {
    for take in [json!({}), json!({ "key": -1 })] {
        let (mut session, opened) = open(json!({ "take": take }));
        let drawn = ask(&mut session, json!({ "do": "strips", "width": 270 }));
        let strips = drawn["strips"].as_array().unwrap();
        let mut notes = 0;
        for (line, strip) in opened["lines"].as_array().unwrap().iter().zip(strips) {
            assert_eq!(strip["of"], line["of"]);
            assert_eq!(strip["width"], 270.0);
            let places = strip["places"].as_str().unwrap();
            let places: serde_json::Value = serde_json::from_str(places).unwrap();
            let systems = places["systems"].as_array().unwrap();
            let placed: usize = systems
                .iter()
                .map(|s| s["notes"].as_array().unwrap().len() / 4)
                .sum();
            let before = notes;
            for pass in line["passes"].as_array().unwrap() {
                for note in pass["notes"].as_array().unwrap() {
                    let id = note["id"].as_str().expect("it is on the sheet");
                    let heads = strip["notes"].as_array().unwrap();
                    assert!(heads.iter().any(|head| head["id"] == id), "{id}");
                    notes += 1;
                }
            }
            assert_eq!(placed, notes - before);
        }
        assert_eq!(notes, 3 + 3 + 3 + 3);
    }
}

#[test]
fn the_strip_of_one_line_can_be_asked_for() {
    let (mut session, _) = open(json!({}));
    let drawn = ask(
        &mut session,
        json!({ "do": "strips", "width": 500, "lines": [1], "passes": "ends" }),
    );
    let strips = drawn["strips"].as_array().unwrap();
    assert_eq!(strips.len(), 1);
    assert_eq!(strips[0]["of"], 1);
}
