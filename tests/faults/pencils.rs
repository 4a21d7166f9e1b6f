//! Two commands at once on one pencil.

use crate::folder;
use crate::process;
use std::fs;
use std::process::Stdio;
use std::time::Duration;

const PAIRS: usize = 60;

#[test]
fn two_pencils_at_once_lose_no_mark() {
    let mut lost = Vec::new();
    for pair in 0..PAIRS {
        let kept = tempfile::tempdir().unwrap();
        let work = kept.path();
        let routine = "second-steps";
        // Every other pair makes the file.
        if pair % 2 == 0 {
            folder::fill(work, "p.toml", b"format = 1\n");
        }
        let start = |line: &str| {
            process::leadpipe(work, &["pencil", routine, "p.toml", line, "slower"])
                .stdout(Stdio::null())
                .stderr(Stdio::piped())
                .spawn()
                .unwrap()
        };
        let children = ["1", "2"].map(|line| (line, start(line)));
        let ended = children.map(|(line, mut child)| {
            let status = process::wait(&mut child, Duration::from_secs(40));
            let output = child.wait_with_output().unwrap();
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            (line, status.expect("it ends").code(), said)
        });
        let text = fs::read_to_string(work.join("p.toml")).unwrap_or_default();
        for (line, code, said) in ended {
            let is_there = text.contains(&format!("line = {line}\n"));
            // Refusing is no loss, if it is said.
            let refused = code == Some(1) && said.contains("p.toml");
            if !(is_there || refused) {
                lost.push(format!(
                    "pair {pair}, line {line}, {code:?}: {said}\n{text}"
                ));
            }
        }
    }
    assert!(lost.is_empty(), "{} marks: {}", lost.len(), lost.join("\n"));
}
