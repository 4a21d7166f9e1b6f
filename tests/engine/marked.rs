//! Pencils on the page.

use crate::{ask, open};
use serde_json::{Value, json};

const PENCIL: &str =
    "format = 1\nplayer = \"Bo\" # a nickname\n\n[[mark]]\nline = 1\nrest = \"shorter\"\n";

#[test]
fn a_new_pencil_is_made_with_its_first_mark() {
    let (mut session, _) = open(json!({}));
    let request =
        json!({ "do": "mark", "of": 1, "mark": "slower", "player": "Bo", "date": "2026-11-26" });
    let written = ask(&mut session, request);
    let text = written["pencil"].as_str().unwrap();
    let end =
        "player = \"Bo\"\n\n[[mark]]\nline = \"Tubes\"\ndate = 2026-11-26\ntempo = \"slower\"\n";
    assert!(text.ends_with(end), "{text}");

    let erase = json!({ "do": "mark", "pencil": text, "index": 0, "erase": true });
    let erased = ask(&mut session, erase);
    let left = erased["pencil"].as_str().unwrap();
    assert_eq!(format!("{left}{}", &end["player = \"Bo\"\n".len()..]), text);
}

#[test]
fn marks_change_what_is_played_and_are_named() {
    let (_, plain) = open(json!({}));
    let (_, opened) = open(json!({ "pencil": PENCIL }));
    let pencil = &opened["pencil"];
    assert_eq!(pencil["player"], "Bo");
    assert_eq!(pencil["problems"], json!([]));
    let mark = json!({
        "index": 0, "of": 0, "words": "rest after it shorter (75 %)",
        "kind": "rest", "typed": "rest shorter", "note": null,
    });
    assert_eq!(pencil["marks"], json!([mark]));
    assert_eq!(opened["lines"][0]["rest"], 9 * 44_100);
    assert_eq!(plain["lines"][0]["frames"], opened["lines"][0]["frames"]);

    let text = format!(
        "{PENCIL}\n[[mark]]\nline = 7\ntempo = \"slower\"\n\n[[mark]]\nloudness = \"softer\"\n"
    );
    let (_, opened) = open(json!({ "pencil": text }));
    let pencil = &opened["pencil"];
    let of: Vec<&Value> = pencil["marks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|m| &m["of"])
        .collect();
    assert_eq!(of, [&json!(0), &json!("nowhere"), &Value::Null]);
    let problem = &pencil["problems"][0];
    assert_eq!(
        (&problem["row"], &problem["in"], &problem["severity"]),
        (&json!(9), &json!("pencil"), &json!("error"))
    );
}

#[test]
fn what_a_mark_takes_of_the_rest_is_told_with_its_line() {
    let pencil = "format = 1\n[[mark]]\nline = 1\nrest = \"none\"\n";
    let (_, opened) = open(json!({ "pencil": pencil }));
    let advice = opened["pencil"]["advice"].as_array().unwrap();
    assert!(!advice.is_empty(), "{opened}");
    for problem in advice {
        assert_eq!(
            (&problem["in"], &problem["of"]),
            (&json!("pencil"), &json!(0))
        );
        assert_ne!(problem["severity"], "error");
        assert!(problem["row"].is_u64(), "{problem}");
    }
}

#[test]
fn a_line_that_is_left_out_is_not_played_and_the_sheet_keeps_it() {
    let pencil = "format = 1\n[[mark]]\nline = 1\nleave_out = true\n";
    let (mut session, opened) = open(json!({ "pencil": pencil }));
    let lines = opened["lines"].as_array().unwrap();
    assert_eq!(lines.len(), 1);
    assert_eq!(lines[0]["of"], 1);
    let drawn = ask(&mut session, json!({ "do": "strips", "width": 270 }));
    assert_eq!(drawn["strips"].as_array().unwrap().len(), 2);
}

#[test]
fn passes_that_are_marked_otherwise_are_named_as_they_are_played() {
    let pencil = "format = 1\n[[mark]]\nline = 2\ntubes = [\"1-2\", \"2\"]\ntimes = 2\n";
    let (_, opened) = open(json!({ "pencil": pencil }));
    let line = &opened["lines"][1];
    let passes = line["passes"].as_array().unwrap();
    let places: Vec<&Value> = passes.iter().map(|pass| &pass["place"]).collect();
    assert_eq!(places, ["on 1-2", "on 1-2", "on 2", "on 2"]);
    assert_eq!(
        line["stops"],
        json!([{ "typed": "stop after 1-2", "words": "1-2" }])
    );
}
