//! Edits that mend what reader and checker find: each does what it says, and nothing is offered that does not help.

use leadpipe::edition::Judge;
use leadpipe::mend::{Mend, Mended, mends};
use leadpipe::presets::ALL;
use leadpipe::score::Take;

/// A routine with one line, or with lines of the given texts.
fn routine(lines: &[&str]) -> String {
    let head = "format = 1\ntitle = \"Mended\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 60\n\
                meter = \"4/4\"\n";
    let lines = lines
        .iter()
        .enumerate()
        .map(|(n, line)| format!("\n[[line]]\nname = \"Line {}\"\n{line}\n", n + 1));
    head.to_owned() + &lines.collect::<String>()
}

fn found(text: &str) -> Vec<Mended> {
    mends(text, &[Take::default()], &Judge::default())
}

/// What is offered for the problems of a rule.
fn offered(text: &str, rule: Option<&str>) -> Vec<Mend> {
    let all = found(text);
    assert!(
        all.iter().any(|one| one.problem.rule == rule),
        "{rule:?} is not found: {all:#?}"
    );
    let of_rule = all.into_iter().filter(|one| one.problem.rule == rule);
    of_rule.flat_map(|one| one.mends).collect()
}

/// Holds that the first offer says this, and changes only this.
fn mended(text: &str, rule: Option<&str>, says: &str, before: &str, after: &str) {
    let offers = offered(text, rule);
    let one = offers.iter().find(|mend| mend.says == says);
    let one = one.unwrap_or_else(|| panic!("{says} is not offered: {offers:#?}"));
    assert_eq!(one.text, text.replacen(before, after, 1));
    let left = found(&one.text);
    let left = left.iter().filter(|one| one.problem.rule == rule).count();
    let there = found(text);
    let there = there.iter().filter(|one| one.problem.rule == rule).count();
    assert!(left < there, "{says}: {left} of {there} are left");
}

#[test]
fn a_word_that_was_meant() {
    let text = routine(&["notes = \"G4:whole\""]).replace("meter", "metre");
    mended(
        &text,
        None,
        "Write meter instead of metre",
        "metre",
        "meter",
    );
    let text = routine(&["notes = \"G4:hlaf G4:half\""]);
    let offers = offered(&text, None);
    assert!(
        offers.iter().all(|mend| !mend.text.contains("hlaf")),
        "{offers:#?}"
    );
}

#[test]
fn rests() {
    let text = routine(&[
        "notes = \"C4:whole D4:whole E4:whole D4:whole\"\nrest = \"1 bar\"",
        "notes = \"C4:whole\"",
    ]);
    mended(
        &text,
        Some("short-rest"),
        "Write rest = \"same\"",
        "rest = \"1 bar\"",
        "rest = \"same\"",
    );
}

#[test]
fn fingerings() {
    let text = routine(&["notes = \"C4:half[1-2] G4:half\""]);
    mended(
        &text,
        Some("silent-fingering"),
        "Take its fingering out",
        "[1-2]",
        "",
    );
    mended(
        &text,
        Some("silent-fingering"),
        "Finger it 0",
        "[1-2]",
        "[0]",
    );
}

#[test]
fn bends() {
    let text = routine(&["notes = \"F#4:half(bend) G4:half\""]);
    mended(&text, None, "Finger it instead of bending it", "(bend)", "");
}

#[test]
fn walks() {
    let text = routine(&["notes = \"G3:whole\"\nhalf_steps = [0, -1, -2]"]);
    mended(
        &text,
        Some("off-compass"),
        "Write half_steps = [0, -1]",
        "[0, -1, -2]",
        "[0, -1]",
    );
}

#[test]
fn breaths() {
    let text = routine(&["notes = \"C4:whole D4:whole E4:whole F4:whole\"\nrest = \"none\""]);
    let offers = offered(&text, Some("long-breath"));
    assert!(!offers.is_empty(), "nothing is offered");
    for offer in offers {
        assert!(offer.says.starts_with("Breathe after note"), "{offer:?}");
        assert!(offer.text.contains(" breath "), "{}", offer.text);
    }
}

#[test]
fn what_no_edit_mends_is_left_alone() {
    let text = routine(&["notes = \"G4:half X9 A4:half\""]);
    for one in found(&text) {
        for mend in one.mends {
            assert!(found(&mend.text).len() < found(&text).len(), "{mend:?}");
        }
    }
}

/// Whatever is offered for a built-in routine with something taken from it, it helps and nothing new is wrong.
#[test]
fn every_offer_helps() {
    let spoils = [
        ("purpose = ", "purpoose = "),
        ("notes = ", "nots = "),
        ("[[line]]\n", "[[line]]\nrest = \"none\"\n"),
        (" breath", ""),
        ("half_steps = [0, ", "half_steps = [0, -19, "),
    ];
    let mut offers = 0;
    for preset in ALL.iter().step_by(3) {
        for (from, to) in spoils {
            let spoilt = preset.text.replacen(from, to, 2);
            for one in found(&spoilt) {
                for mend in one.mends {
                    offers += 1;
                    let rule = one.problem.rule;
                    let count = |text: &str| {
                        let all = found(text);
                        all.iter().filter(|one| one.problem.rule == rule).count()
                    };
                    assert!(
                        count(&mend.text) < count(&spoilt),
                        "{}: {} for {}",
                        preset.name,
                        mend.says,
                        one.problem.message
                    );
                }
            }
        }
    }
    assert!(offers > 10, "only {offers} offers");
}
