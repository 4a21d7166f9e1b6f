//! How a language is asked for: on the command line, and in a class list.

use assert_cmd::Command;
use leadpipe::class::{self, Listed};
use leadpipe::words::Language;
use std::fs;

fn leadpipe(folder: &tempfile::TempDir, arguments: &str) -> (bool, String) {
    let mut command = Command::cargo_bin("leadpipe").expect("it is built");
    let command = command.current_dir(folder.path());
    let done = command
        .args(arguments.split(' '))
        .output()
        .expect("it runs");
    (
        done.status.success(),
        String::from_utf8(done.stderr).expect("it is text"),
    )
}

#[test]
fn a_sheet_is_made_in_the_language_that_is_asked_for() {
    let folder = tempfile::tempdir().expect("there is room");
    let sheet = |arguments: &str, out: &str| {
        let command = format!("sheet second-steps --format svg --out {out}{arguments}");
        let (made, said) = leadpipe(&folder, &command);
        assert!(made, "{said}");
        let pages = fs::read_dir(folder.path().join(out)).expect("the folder is there");
        let pages = pages.map(|page| page.expect("it is there").path());
        let pages = pages.filter(|page| page.extension().is_some_and(|end| end == "svg"));
        let pages = pages.map(|page| fs::read_to_string(page).expect("it is text"));
        pages.collect::<String>()
    };
    let german = sheet(" --language de", "de");
    assert!(german.contains("Griffe: ") && !german.contains("Fingerings: "));
    assert!(german.contains("Zweite Schritte") && !german.contains("Second steps"));
    let english = sheet("", "en");
    assert!(english.contains("Fingerings: ") && !english.contains("Griffe: "));
}

#[test]
fn a_language_that_leadpipe_does_not_speak_is_told() {
    let folder = tempfile::tempdir().expect("there is room");
    let (made, said) = leadpipe(&folder, "sheet second-steps --language nl");
    assert!(!made);
    assert!(
        said.contains("English (en), Deutsch (de) and Français (fr)"),
        "{said}"
    );
}

#[test]
fn each_player_of_a_class_has_a_language() {
    let text = "format = 1\nlanguage = \"de\"\n\
        [[player]]\nname = \"Ada\"\nroutine = \"first-steps\"\n\
        [[player]]\nname = \"Bo\"\nroutine = \"first-steps\"\nlanguage = \"fr\"\n";
    let list = class::read(text).list.expect("it is a class list");
    let languages = list.players.iter().map(|listed| match listed {
        Listed::Player(player) => player.language,
        Listed::NotUnderstood(_) => panic!("it is understood"),
    });
    let right = [Some(Language::De), Some(Language::Fr)];
    assert_eq!(languages.collect::<Vec<_>>(), right);
    let faults = class::read(&text.replace("\"fr\"", "\"nl\"")).faults;
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].message, "leadpipe does not speak “nl”");
    let hint = "write \"en\" for English, \"de\" for Deutsch or \"fr\" for Français";
    assert_eq!(faults[0].hint.as_deref(), Some(hint));
}
