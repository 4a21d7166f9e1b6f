//! What the desk asks of its workshop, natively: the pupil's page as one file, files of other programs, refusals.

use leadpipe::handout::engine;
use leadpipe::workshop::Workshop;
use serde_json::{Value, json};

const ROUTINE: &str = include_str!("../../presets/second-steps.toml");

fn ask(request: Value) -> Value {
    serde_json::from_str(&Workshop.ask(&request.to_string())).expect("an answer is JSON")
}

fn page(more: Value) -> Value {
    let mut request = json!({ "do": "page", "routine": ROUTINE });
    for (key, value) in more.as_object().expect("an object") {
        request[key] = value.clone();
    }
    ask(request)
}

#[test]
fn the_page_of_one_file_asks_nobody_for_anything() {
    let made = page(json!({ "player": " Bo ", "take": { "tempo": "80%", "guide": "echo" } }));
    let (before, after) = (
        made["before"].as_str().unwrap(),
        made["after"].as_str().unwrap(),
    );
    assert!(
        before.ends_with("id=\"leadpipe-engine\">"),
        "the engine follows"
    );
    assert!(after.starts_with("</script>"));
    assert!(before.contains("<title>Bo: "));
    assert!(before.contains("\"tempo\":\"80%\"") && before.contains("\"guide\":\"echo\""));
    let whole = format!("{before}{}{after}", engine::letters());
    for asked in [
        "src=\"",
        "manifest",
        "href=\"http",
        ".mp3",
        "m3u8",
        "<audio",
        "url(",
    ] {
        let markup = whole.split("<script type=\"module\">").next().unwrap();
        let markup = markup.split("<style>").next().unwrap().to_owned()
            + markup.split("</style>").nth(1).unwrap();
        assert!(!markup.contains(asked), "{asked}");
    }
    assert!(!before.contains("connect-src"), "default-src says it");
    assert!(before.contains("default-src &#39;none&#39;"));
    // The teacher's own notes stay with the teacher.
    assert!(ROUTINE.contains("leadpipe does not read it") && !whole.contains("does not read it"));
}

#[test]
fn a_routine_with_errors_gets_no_page() {
    let wrong = ROUTINE.replacen("G4:half", "X4:half", 1);
    let refused = ask(json!({ "do": "page", "routine": wrong }));
    assert_eq!(refused["ok"], false);
    assert_eq!(refused["problems"][0]["in"], "routine");
    assert!(refused["problems"][0]["row"].is_number());
    // Readable, but off the instrument: the checker's error, with its place.
    let high = "format = 1\ntitle = \"High\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 60\n\
                meter = \"4/4\"\n[[line]]\nname = \"Up\"\nnotes = \"C3:whole\"\n";
    let refused = ask(json!({ "do": "page", "routine": high }));
    assert_eq!(refused["ok"], false, "{refused}");
    assert_eq!(refused["problems"][0]["severity"], "error");
}

#[test]
fn no_answer_speaks_of_options_of_the_command_line() {
    let two = "X:1\nT:One\nM:4/4\nL:1/4\nK:C\nCDEF|\n\nX:2\nT:Two\nM:4/4\nL:1/4\nK:C\nGFED|\n";
    let data = |text: &str| leadpipe_base64(text.as_bytes());
    let refused = ask(json!({ "do": "adopt", "name": "two.abc", "data": data(two) }));
    assert_eq!(refused["ok"], false);
    assert!(!refused.to_string().contains("--"), "{refused}");
    let second = ask(json!({ "do": "adopt", "name": "two.abc", "data": data(two), "part": "2" }));
    assert!(second["text"].as_str().unwrap().contains("G4"), "{second}");
    assert!(!second["said"].to_string().contains("--"), "{second}");
    let refused = ask(json!({ "do": "adopt", "name": "a", "data": "?" }));
    assert_eq!(refused["ok"], false);
    let refused = ask(json!({ "do": "dance" }));
    assert_eq!(refused["problems"][0]["in"], "request");
}

/// RFC 4648, for tests: not the program's own.
fn leadpipe_base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let bits: Vec<u8> = bytes
        .iter()
        .flat_map(|byte| (0..8).rev().map(move |bit| byte >> bit & 1))
        .collect();
    let letter = |six: &[u8]| {
        let value = (0..6).fold(0, |sum, at| sum << 1 | six.get(at).copied().unwrap_or(0));
        char::from(LETTERS[usize::from(value)])
    };
    let mut out: String = bits.chunks(6).map(letter).collect();
    while !out.len().is_multiple_of(4) {
        out.push('=');
    }
    out
}
