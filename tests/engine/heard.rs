//! What sounds: frames from a session against the program's own file.

use crate::{ROUTINE, ask, open};
use assert_cmd::Command;
use leadpipe::engine::Session;
use serde_json::{Value, json};

fn mix(session: &mut Session, unit: usize, request: Value, chunk: usize) -> Vec<i16> {
    let mut whole = json!({ "do": "begin", "unit": unit });
    for (key, value) in request.as_object().expect("an object") {
        whole[key] = value.clone();
    }
    let begun = ask(session, whole);
    let performance = begun["performance"].as_u64().expect("a number") as u32;
    let (mut all, mut steps) = (vec![], vec![]);
    while session.mix(performance, chunk, &mut steps) > 0 {
        all.extend_from_slice(&steps);
    }
    assert_eq!(begun["frames"], all.len());
    all
}

#[test]
fn units_in_order_are_the_programs_track() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("two.toml");
    std::fs::write(&file, ROUTINE).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_leadpipe"));
    command
        .arg("render")
        .arg(&file)
        .arg("--out")
        .arg(folder.path());
    command.args([
        "--tempo",
        "80%",
        "--key",
        "-1",
        "--volume",
        "click=-6dB,drone=off",
    ]);
    command.assert().success();
    let tracks = std::fs::read_dir(folder.path()).unwrap();
    let mut tracks = tracks.map(|entry| entry.unwrap().path());
    let track = tracks.find(|path| path.extension().is_some_and(|e| e == "wav"));
    let mut track = hound::WavReader::open(track.expect("a track")).unwrap();
    let written: Vec<i16> = track.samples::<i16>().map(Result::unwrap).collect();

    let (mut session, opened) = open(json!({ "take": { "tempo": "80%", "key": -1 } }));
    let volume = json!({ "volume": ["click=-6dB", "drone=off"] });
    let mut played = vec![];
    for unit in 0..4 {
        played.extend(mix(&mut session, unit, volume.clone(), 1000));
    }
    let last = &opened["lines"][1];
    let end = last["start"].as_u64().unwrap() + last["frames"].as_u64().unwrap();
    assert_eq!(end as usize, played.len());
    assert!(written.iter().any(|step| step.unsigned_abs() > 1000));
    assert!(played == written, "the frames differ");
}

#[test]
fn a_unit_goes_on_while_another_take_is_opened() {
    let (mut session, _) = open(json!({}));
    let whole = mix(&mut session, 1, json!({}), 1 << 18);
    let begun = ask(&mut session, json!({ "do": "begin", "unit": 1 }));
    let performance = begun["performance"].as_u64().unwrap() as u32;
    let mut first = vec![];
    assert_eq!(session.mix(performance, 6400, &mut first), 6400);
    ask(
        &mut session,
        json!({ "do": "open", "routine": ROUTINE, "take": { "tempo": 90 } }),
    );
    let other = mix(&mut session, 1, json!({}), 1 << 18);
    assert!(other.len() < whole.len());
    let mut rest = vec![];
    session.mix(performance, whole.len(), &mut rest);
    first.extend(rest);
    assert!(first == whole);
    assert_eq!(session.mix(performance, 64, &mut first), 0, "it is over");
}

#[test]
fn what_was_opened_before_can_still_be_begun_for_a_while() {
    let (mut session, opened) = open(json!({}));
    let whole = mix(&mut session, 1, json!({}), 1 << 18);
    let again = |session: &mut Session| {
        let request = json!({ "do": "begin", "unit": 1, "opened": opened["id"] });
        ask(session, request)["ok"] == true
    };
    for _ in 0..3 {
        ask(
            &mut session,
            json!({ "do": "open", "routine": ROUTINE, "take": { "tempo": 90 } }),
        );
        let same = mix(&mut session, 1, json!({ "opened": opened["id"] }), 1 << 18);
        assert!(same == whole);
    }
    assert!(again(&mut session));
    ask(&mut session, json!({ "do": "open", "routine": ROUTINE }));
    assert!(!again(&mut session), "four are kept");
}
