//! The routine file: what is read, and every fault a teacher can meet, with its place.

use leadpipe::routine::{self, Fault, Routine};

mod anything;
mod bounds;
mod keys;
mod notes;
mod reads;
mod rows;

const HEAD: &str = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\ntempo = 72\n";

/// A routine of one line with this body.
fn with_line(body: &str) -> String {
    format!("{HEAD}\n[[line]]\nname = \"N\"\n{body}\n")
}

fn read_line(body: &str) -> Routine {
    routine::read(&with_line(body)).unwrap_or_else(|f| panic!("{body}: {f:#?}"))
}

/// The faults of a line, each as `the source it points at: message / hint`.
fn faults(body: &str) -> Vec<String> {
    faults_of(&with_line(body))
}

fn faults_of(text: &str) -> Vec<String> {
    let faults = routine::read(text).expect_err("this has faults");
    faults.iter().map(|f| shown(text, f)).collect()
}

fn shown(text: &str, fault: &Fault) -> String {
    let place = &text[fault.span.start..fault.span.end];
    let label = fault
        .label
        .as_ref()
        .map(|l| format!(" ({l})"))
        .unwrap_or_default();
    let hint = fault
        .hint
        .as_ref()
        .map(|h| format!(" / {h}"))
        .unwrap_or_default();
    format!("{place}: {}{label}{hint}", fault.message)
}
