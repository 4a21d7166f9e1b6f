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
    assert_eq!(
        written["said"],
        "2 Tubes: slower (85 % of the tempo) (since 2026-11-26)."
    );
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
fn marks_change_what_is_played_and_are_read_out() {
    let (mut session, plain) = open(json!({}));
    let (_, opened) = open(json!({ "pencil": PENCIL }));
    let pencil = &opened["pencil"];
    assert_eq!(pencil["player"], "Bo");
    assert_eq!(pencil["faults"], json!([]));
    let mark = json!({
        "index": 0, "of": 0, "heading": "1 Four", "words": "rest after it shorter (75 %)",
        "kind": "rest", "typed": "rest shorter", "note": null, "date": null,
    });
    assert_eq!(pencil["marks"], json!([mark]));
    assert_eq!(opened["lines"][0]["marks"], json!([0]));
    assert_eq!(opened["lines"][0]["rest"]["seconds"], 9.0);
    assert_eq!(plain["lines"][0]["frames"], opened["lines"][0]["frames"]);

    let text = format!(
        "{PENCIL}\n[[mark]]\nline = 7\ntempo = \"slower\"\n\n[[mark]]\nloudness = \"softer\"\n"
    );
    let read = ask(&mut session, json!({ "do": "marks", "pencil": text }));
    let of: Vec<&Value> = read["marks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|m| &m["of"])
        .collect();
    assert_eq!(of, [&json!(0), &json!("nowhere"), &Value::Null]);
    assert_eq!(read["faults"][0]["row"], 9);
    assert!(read["vocabulary"].as_str().unwrap().contains("slower"));
}

#[test]
fn a_line_that_is_left_out_is_named_and_the_sheet_keeps_it() {
    let pencil = "format = 1\n[[mark]]\nline = 1\nleave_out = true\n";
    let (mut session, opened) = open(json!({ "pencil": pencil }));
    assert_eq!(opened["leftOut"], json!([{ "of": 0, "name": "Four" }]));
    let line = &opened["lines"][0];
    assert_eq!(
        (&line["index"], &line["of"], &line["number"]),
        (&json!(0), &json!(1), &json!(2))
    );
    assert_eq!(line["passes"][0]["notes"][0]["id"], "2.1.1");
    let drawn = ask(&mut session, json!({ "do": "strips", "width": 270 }));
    assert_eq!(drawn["strips"].as_array().unwrap().len(), 2);
}

#[test]
fn passes_that_are_marked_otherwise_find_their_place_on_the_sheet() {
    let pencil = "format = 1\n[[mark]]\nline = 2\ntubes = [\"1-2\", \"2\"]\ntimes = 2\n";
    let (_, opened) = open(json!({ "pencil": pencil }));
    let passes = opened["lines"][1]["passes"].as_array().unwrap();
    let sheet: Vec<&Value> = passes.iter().map(|pass| &pass["sheet"]).collect();
    // The teacher's second pass is on 1-2; none is on 2.
    assert_eq!(sheet, [&json!(1), &json!(1), &Value::Null, &Value::Null]);
    assert_eq!(passes[1]["notes"][0]["id"], "2.2.1");
    assert_eq!(passes[2]["notes"][0]["id"], Value::Null);
}
