//! How large a routine may be.

use crate::{HEAD, faults_of, with_line};
use leadpipe::routine;

#[test]
fn sizes_are_bounded() {
    let large = format!(
        "{}#{}",
        with_line("notes = \"G4:half\""),
        "x".repeat(1 << 20)
    );
    assert!(faults_of_large(&large).contains("1 MiB"));
    let lines = format!(
        "{HEAD}{}",
        "[[line]]\nname = \"N\"\nnotes = \"G4:half\"\n".repeat(201)
    );
    assert!(faults_of(&lines)[0].contains("200 are the most"));
    let deep = with_line(&format!("notes = \"{}\"", "slur( ".repeat(100_000)));
    assert!(faults_of(&deep).len() <= 100);
    let brackets = with_line(&format!("notes = \"{}\"", "( [ ".repeat(100_000)));
    assert!(faults_of(&brackets).len() <= 100);
}

fn faults_of_large(text: &str) -> String {
    routine::read(text).expect_err("too large")[0]
        .message
        .to_string()
}
