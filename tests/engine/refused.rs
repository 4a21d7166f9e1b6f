//! A request that is refused: the answer says why, with the place.

use crate::{ROUTINE, ask, open};
use leadpipe::engine::Session;
use serde_json::json;

#[test]
fn a_fault_of_a_routine_has_its_row() {
    let wrong = ROUTINE.replace("D4:quarter", "H4:quarter");
    let (_, answer) = open(json!({ "routine": wrong }));
    assert_eq!(answer["ok"], false);
    let problem = &answer["problems"][0];
    // The notes stand in the tenth row; `notes = "mf C4:quarter slur( ` is before it.
    assert_eq!(
        (&problem["in"], &problem["row"], &problem["column"]),
        (&json!("routine"), &json!(10), &json!(30))
    );
    assert!(
        problem["message"]
            .as_str()
            .unwrap()
            .contains("H is the German name"),
        "{problem}"
    );
    assert!(problem["hint"].is_string(), "{problem}");
}

#[test]
fn takes_rates_and_requests_are_refused_in_words() {
    // A line on tubes stays on its tubes in every key.
    let (one, _) = ROUTINE.split_once("\n[[line]]\nname = \"Tubes\"").unwrap();
    for (request, part, words) in [
        (
            json!({ "take": { "tempo": "fast" } }),
            "take",
            "“fast” is not understood",
        ),
        (
            json!({ "take": { "tempo": "10%" } }),
            "take",
            "would come to 6 clicks a minute",
        ),
        (
            json!({ "take": { "key": 24 }, "routine": one }),
            "take",
            "fits the compass of the trumpet in B-flat",
        ),
        (
            json!({ "take": { "a4": 300 } }),
            "take",
            "“300” is not understood",
        ),
        (
            json!({ "take": { "speed": 1 } }),
            "request",
            "unknown field `speed`",
        ),
        (
            json!({ "sampleRate": 8000 }),
            "request",
            "8000 frames a second",
        ),
        (json!({ "age": "old" }), "request", "unknown field `age`"),
        (json!({ "pencil": "not toml" }), "pencil", ""),
    ] {
        let (_, answer) = open(request.clone());
        assert_eq!(answer["ok"], false, "{request}");
        let problem = &answer["problems"][0];
        assert_eq!(problem["in"], part, "{request}: {answer}");
        assert!(
            problem["message"].as_str().unwrap().contains(words),
            "{request}: {answer}"
        );
    }
}

#[test]
fn nothing_can_be_asked_of_what_is_not_open() {
    let mut session = Session::new();
    for request in [
        json!({ "do": "strips", "width": 270 }),
        json!({ "do": "begin", "unit": 0 }),
        json!({ "do": "mark", "mark": "slower" }),
        json!({ "do": "dance" }),
        json!({}),
    ] {
        let answer = ask(&mut session, request.clone());
        assert_eq!(answer["ok"], false, "{request}");
        assert_eq!(answer["problems"][0]["in"], "request", "{request}");
    }
    assert_eq!(session.fill(1, 64, &mut Default::default()), 0);
}

#[test]
fn marks_that_cannot_be_are_refused_and_change_nothing() {
    let (mut session, _) = open(json!({}));
    let slower = "format = 1\n\n[[mark]]\nline = 1\ntempo = \"slower\"\n";
    for (request, words) in [
        (
            json!({ "of": 0, "mark": "brighter" }),
            "“brighter” is not a mark",
        ),
        (
            json!({ "of": 9, "mark": "slower" }),
            "there is no line 10 in “Two lines”",
        ),
        (
            json!({ "of": 0, "mark": "slower", "pencil": slower }),
            "1 Four is marked already: slower",
        ),
        (
            json!({ "of": 0, "mark": "faster", "pencil": slower, "erase": true }),
            "1 Four does not have this mark",
        ),
        (
            json!({ "index": 3, "pencil": slower, "erase": true }),
            "the pencil has no mark 4",
        ),
        (
            json!({ "of": 0, "mark": "slower", "date": "today" }),
            "that is no day",
        ),
        (json!({ "of": 0, "mark": "breath after 9" }), "9"),
    ] {
        let mut whole = request.clone();
        whole["do"] = json!("mark");
        let answer = ask(&mut session, whole);
        assert_eq!(answer["ok"], false, "{request}");
        let message = answer["problems"][0]["message"].as_str().unwrap();
        assert!(message.contains(words), "{request}: {answer}");
    }
}
