//! What is said of a routine that was opened.

use crate::{ask, open};
use serde_json::{Value, json};

/// At 60 clicks a minute a click is a second: 44,100 frames.
#[test]
fn lines_passes_and_rests_stand_at_their_frames() {
    const SECOND: u64 = 44_100;
    let (_, opened) = open(json!({}));
    assert_eq!(opened["ok"], true, "{opened}");
    let lines = opened["lines"].as_array().unwrap();
    assert_eq!(lines.len(), 2);
    let line = &lines[0];
    // Half a second before the first click; four beats are counted in, then two bars; 0.3 s of fade.
    assert_eq!(line["start"], SECOND / 2);
    assert_eq!(line["countIn"], 4 * SECOND);
    assert_eq!(line["barLine"], 12 * SECOND);
    assert_eq!(line["frames"], 12 * SECOND + SECOND * 3 / 10);
    let click = SECOND as f64;
    assert_eq!(
        (&line["click"], &line["wholeNote"], &line["clicksABar"]),
        (&json!(click), &json!(4.0 * click), &json!(4))
    );
    assert_eq!(line["facts"], "2 times through, 0:12. Then rest for 0:12.");
    let passes = json!([
        { "start": 4 * SECOND, "turn": null, "end": 8 * SECOND, "place": "as written", "name": "" },
        { "start": 8 * SECOND, "turn": null, "end": 12 * SECOND, "place": "1 half step down", "name": "1 half step down" },
    ]);
    assert_eq!(line["passes"], passes);
    assert_eq!(
        line["stops"],
        json!([{ "typed": "stop after 0", "words": "as written" }])
    );

    // The rest of 12 s ends with the next line's count-in of 4 s.
    assert_eq!(
        (&line["rest"], &line["signs"]),
        (&json!(12 * SECOND), &json!(true))
    );
    assert_eq!(lines[1]["start"], SECOND / 2 + 20 * SECOND);
    assert_eq!(
        (&lines[1]["rest"], &lines[1]["signs"]),
        (&Value::Null, &json!(false))
    );
    let passes = &lines[1]["passes"];
    assert_eq!(
        (&passes[0]["place"], &passes[0]["name"]),
        (&json!("on 0"), &json!("open horn"))
    );
    assert_eq!(
        (&passes[1]["place"], &passes[1]["name"]),
        (&json!("on 1-2"), &json!("on 1-2"))
    );
}

#[test]
fn a_take_is_read_as_on_the_command_line() {
    let take = json!({ "tempo": 90, "key": "-2", "guide": "echo", "a4": 442 });
    let (_, opened) = open(json!({ "take": take, "sampleRate": 48_000 }));
    assert_eq!(opened["take"], json!({ "clicks": 90.0, "key": -2 }));
    let line = &opened["lines"][0];
    assert_eq!(line["countIn"], 4 * 48_000 * 60 / 90);
    let pass = &line["passes"][0];
    // A bar of listening, then as long a turn.
    assert_eq!(pass["turn"], 8 * 48_000 * 60 / 90);
    assert_eq!(pass["end"], 12 * 48_000 * 60 / 90);
    assert_eq!(pass["place"], "2 half steps down");
    // Stops are in the words of the line, whatever the key of the take.
    assert_eq!(line["stops"][0]["typed"], "stop after 0");
}

#[test]
fn every_pass_has_its_place_in_the_drawings_and_every_note_its_name() {
    for (take, names) in [
        (json!({}), ["C4", "D4", "E4"]),
        (json!({ "key": -1 }), ["B3", "C#4", "D#4"]),
    ] {
        let (mut session, opened) = open(json!({ "take": take }));
        let drawn = ask(&mut session, json!({ "do": "strips", "width": 270 }));
        let strips = drawn["strips"].as_array().unwrap();
        let lines = opened["lines"].as_array().unwrap();
        assert_eq!(lines.len(), strips.len());
        for (line, strip) in lines.iter().zip(strips) {
            assert_eq!(strip["of"], line["of"]);
            assert_eq!(strip["width"], 270.0);
            let places = strip["places"]["places"].as_array().unwrap();
            for pass in line["passes"].as_array().unwrap() {
                assert!(places.contains(&pass["place"]), "{pass}");
            }
            let systems = strip["places"]["systems"].as_array().unwrap();
            for note in strip["notes"].as_array().unwrap() {
                let system = &systems[note["system"].as_u64().unwrap() as usize];
                let mut moments = system["moments"].as_array().unwrap().iter();
                // It is played where it is drawn, in the first pass.
                assert!(
                    moments.any(|m| m[0] == 0 && m[2] == note["x"]),
                    "{note} in {system}"
                );
            }
        }
        let notes = strips[0]["notes"].as_array().unwrap();
        let written: Vec<&Value> = notes.iter().map(|note| &note["name"]).collect();
        assert_eq!(written, names);
        let numbers: Vec<&Value> = notes.iter().map(|note| &note["note"]).collect();
        assert_eq!(numbers, [1, 2, 3]);
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
