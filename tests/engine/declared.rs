//! Real requests and answers for `.ci/scripts`, which holds them against `src/handout/engine/protocol.d.ts` and
//! `src/desk/workshop.d.ts`.
//!
//! A field that an answer has and the declaration has not, or the other way round, is an error there.

use crate::{ROUTINE, ask};
use assert_cmd::Command;
use leadpipe::engine::Session;
use leadpipe::workshop::Workshop;
use serde_json::{Value, json};
use std::fmt::Write;
use std::path::Path;
use std::{env, fs};

/// What a list keeps of its items, at its start; its last one is kept too.
const MOST_ITEMS: usize = 3;

/// Marks of every kind of place: a line, a note, the whole routine, nowhere. The first takes rest away.
const PENCIL: &str = "format = 1
player = \"Bo\"

[[mark]]
line = 1
rest = \"none\"

[[mark]]
line = 1
breath_after = 1

[[mark]]
loudness = \"softer\"

[[mark]]
line = 7
tempo = \"slower\"
";

#[test]
fn the_answers_of_the_engine_are_real() {
    kept("answers.ts", "protocol.d.ts", &answers_of_engine());
}

#[test]
fn the_answers_of_the_workshop_are_real() {
    kept(
        "answers_of_workshop.ts",
        "workshop.d.ts",
        &answers_of_workshop(),
    );
}

#[test]
fn the_data_of_a_page_are_real() {
    let mut out = String::new();
    constant(&mut out, "data", "PageData", page_data());
    kept("page_data.ts", "protocol.d.ts", &out);
}

/// The file holds what was asked and answered now.
fn kept(name: &str, declaration: &str, answers: &str) {
    let written = format!(
        "// Real requests, answers or data, to be held against {declaration}: written by\n\
         //     UPDATE_ANSWERS=1 cargo test --test engine declared\n\
         // Long texts and lists are cut.\n{answers}"
    );
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/scripts")
        .join(name);
    if env::var_os("UPDATE_ANSWERS").is_some() {
        fs::write(&path, &written).expect("it can be written");
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept.replace('\r', "") == written,
        "{name} is out of date: set UPDATE_ANSWERS=1, run this test again, then .ci/scripts"
    );
}

fn answers_of_engine() -> String {
    let mut session = Session::new();
    let take = json!({ "tempo": "80%", "key": -1, "guide": "echo", "signs": true });
    let requests = [
        ("start", "Started", json!({ "sampleRate": 44100 })),
        ("strips", "Refusal", json!({ "width": 270 })),
        ("open", "Opened", json!({ "routine": ROUTINE })),
        (
            "open",
            "Opened",
            json!({ "routine": ROUTINE, "pencil": PENCIL, "take": take, "sampleRate": 48000 }),
        ),
        (
            "open",
            "Refusal",
            json!({ "routine": "tempo = 1", "pencil": null }),
        ),
        (
            "strips",
            "Strips",
            json!({ "width": 270, "lines": [0], "passes": "ends" }),
        ),
        (
            "mark",
            "Marked",
            json!({ "pencil": null, "of": 1, "mark": "slower", "date": "2026-11-26", "player": "Bo" }),
        ),
        (
            "mark",
            "Marked",
            json!({ "pencil": PENCIL, "index": 0, "erase": true }),
        ),
        (
            "begin",
            "Begun",
            json!({ "opened": 1, "unit": 1, "from": 64, "volume": ["click=-6dB"] }),
        ),
        ("end", "Ended", json!({ "performance": 1 })),
    ];
    let mut out = String::new();
    exchanged(&mut out, requests, |request| ask(&mut session, request));
    out
}

fn answers_of_workshop() -> String {
    let requests = [
        (
            "judge",
            "Judged",
            json!({ "routine": ROUTINE, "takes": [{ "tempo": "60%" }], "age": "8-10" }),
        ),
        (
            "mend",
            "Mended",
            json!({ "routine": ROUTINE.replace("tempo", "tempoo") }),
        ),
        ("shelf", "Shelf", json!({ "instrument": "trombone" })),
        (
            "choose",
            "Chosen",
            json!({ "highest": "G4", "lowest": "G4", "age": "11-13" }),
        ),
        (
            "takeDown",
            "TakenDown",
            json!({ "name": "first-steps", "instrument": "trombone" }),
        ),
        (
            "page",
            "MadePage",
            json!({ "routine": ROUTINE, "take": { "tempo": "80%" }, "player": "Bo" }),
        ),
        ("page", "Refusal", json!({ "routine": "tempo = 1" })),
        (
            "export",
            "Exported",
            json!({ "routine": ROUTINE, "take": { "key": -1 }, "to": "musicxml" }),
        ),
        (
            "takeMark",
            "TakenMark",
            json!({ "routine": ROUTINE, "pencil": "format = 1\n[[mark]]\nline = 1\ntimes = 2\n", "index": 0 }),
        ),
        (
            "adopt",
            "Adopted",
            json!({ "name": "tune.abc", "data": "WDoxClQ6VHVuZQpNOjQvNApMOjEvNApLOkMKQ0RFRnxHMnoyfAo=", "instrument": "cornet", "concert": true, "part": "1" }),
        ),
    ];
    let mut out = String::new();
    exchanged(&mut out, requests, |request| {
        let answer = Workshop.ask(&request.to_string());
        serde_json::from_str(&answer).expect("it is JSON")
    });
    out
}

/// Asks, and writes each request and its answer.
fn exchanged<const N: usize>(
    out: &mut String,
    requests: [(&str, &str, Value); N],
    mut ask: impl FnMut(Value) -> Value,
) {
    for (number, (what, answered, request)) in requests.into_iter().enumerate() {
        let mut asked = request.clone();
        asked["do"] = json!(what);
        let asks = match what {
            "start" => "StartRequest".to_owned(),
            what => format!("Exchanges[\"{what}\"][\"request\"]"),
        };
        constant(out, &format!("request{number}"), &asks, request);
        constant(out, &format!("answer{number}"), answered, ask(asked));
    }
}

/// The data of a page as the program writes it.
fn page_data() -> Value {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("two.toml"), ROUTINE).unwrap();
    fs::write(folder.path().join("bo.pencil.toml"), "format = 1\n").unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_leadpipe"));
    command.current_dir(folder.path());
    command.args([
        "handout",
        "two.toml",
        "--pencil",
        "bo.pencil.toml",
        "--out",
        "page",
    ]);
    command.args(["--guide", "echo", "--format", "wav"]);
    command.assert().success();
    let page = fs::read_to_string(folder.path().join("page/index.html")).unwrap();
    let (_, data) = page.split_once("id=\"data\">").expect("it has data");
    let (data, _) = data.split_once("</script>").expect("that ends");
    serde_json::from_str(data).expect("it is JSON")
}

fn constant(out: &mut String, name: &str, kind: &str, mut value: Value) {
    cut(&mut value);
    let json = serde_json::to_string_pretty(&value).expect("it can be written");
    let _ = write!(out, "\nexport const {name}: Protocol.{kind} = {json};\n");
}

/// Shortens long texts, such as drawings, and long lists, such as the moments of a staff: their last item may be unlike the others.
fn cut(value: &mut Value) {
    match value {
        Value::String(text) if text.len() > 120 => {
            let short: String = text.chars().take(40).collect();
            *text = format!("{short}…");
        }
        Value::Array(list) => {
            if list.len() > MOST_ITEMS + 1 {
                list.drain(MOST_ITEMS..list.len() - 1);
            }
            list.iter_mut().for_each(cut);
        }
        Value::Object(fields) => fields.values_mut().for_each(cut),
        _ => {}
    }
}
