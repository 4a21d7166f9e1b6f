//! The checker: every rule where it speaks and where it keeps silent, on routines as teachers write
//! them.

mod breath;
mod comfort;
mod compass;
mod fingering;
mod report;
mod rests;
mod shape;
mod slide;

use leadpipe::check::{Finding, Options, Report, Severity, check};
use leadpipe::routine::read;
use leadpipe::score::{Take, unroll};

/// A breathing line, so that what follows is neither first nor last.
const AIR: &str = "on = \"air\"\nnotes = \"in:whole out:whole\"";
/// A last line nobody can find fault with.
const END: &str = "notes = \"p G4:half E4:half | C4:whole\"";

/// A routine at 60 clicks a minute in 4/4: a bar lasts four seconds.
fn routine(top: &str, reach: Option<&str>, lines: &[&str]) -> String {
    let reach = reach.map_or(String::new(), |r| format!("reach = \"{r}\"\n"));
    let mut text = format!(
        "format = 1\ntitle = \"Test\"\ninstrument = \"trumpet in B-flat\"\n\
         comfortable_top = \"{top}\"\n{reach}tempo = 60\n"
    );
    for (i, line) in lines.iter().enumerate() {
        text.push_str(&format!("\n[[line]]\nname = \"L{}\"\n{line}\n", i + 1));
    }
    text
}

fn report_of(text: &str, take: &Take, options: &Options) -> Report {
    let routine = read(text).unwrap_or_else(|faults| panic!("{faults:#?}\n{text}"));
    let score = unroll(&routine, take).expect("the take is within bounds");
    check(&score, options)
}

fn report(text: &str) -> Report {
    report_of(text, &Take::default(), &Options::default())
}

/// Findings of one rule.
fn of_rule(report: &Report, rule: &str) -> Vec<Finding> {
    let findings = report.findings.iter().filter(|f| f.rule == rule);
    findings.cloned().collect()
}

/// The one finding of a rule: severity, message, hint, and the place in the file it points at.
#[track_caller]
fn only(text: &str, rule: &str) -> (Severity, String, String, String) {
    let report = report(text);
    let [finding] = &of_rule(&report, rule)[..] else {
        panic!("one finding of {rule} in {:#?}", report.findings);
    };
    let place = text[finding.span.start..finding.span.end].to_owned();
    let hint = finding.hint.clone().expect("every finding says what to do");
    (
        finding.severity,
        finding.message.to_string(),
        hint.to_string(),
        place,
    )
}

#[track_caller]
fn silent(text: &str, rule: &str) {
    let found = of_rule(&report(text), rule);
    assert!(found.is_empty(), "{found:#?}");
}

/// A line in the middle of a G4 routine.
fn middle(line: &str) -> String {
    routine("G4", None, &[AIR, line, END])
}
