//! What a teacher is told, in their own language.

use assert_cmd::Command;
use leadpipe::words::Language;
use std::fs;

/// Runs the program with this locale; what it says on both streams.
fn said(locale: &str, arguments: &[&str], routine: &str) -> String {
    let folder = tempfile::tempdir().expect("there is room");
    fs::write(folder.path().join("anna.toml"), routine).expect("there is room");
    let mut command = Command::cargo_bin("leadpipe").expect("it is built");
    command.current_dir(folder.path()).env_remove("LANG");
    let command = command.env_remove("LC_MESSAGES").env("LC_ALL", locale);
    let done = command.args(arguments).output().expect("it runs");
    let text = |bytes| String::from_utf8(bytes).expect("it is text");
    text(done.stderr) + &text(done.stdout)
}

const SHORT: &str = "format = 1\ntitle = \"Kurz\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\n\
    tempo = 72\n[[line]]\nname = \"A\"\nnotes = \"C4:half D4:half | E4:half. | G5:whole\"\n";

#[test]
fn the_command_line_speaks_the_language_of_the_system() {
    let german = said("de_DE.UTF-8", &["check", "anna.toml"], SHORT);
    assert!(
        german.contains("Fehler: Takt 2 ist um einen Schlag zu kurz"),
        "{german}"
    );
    assert!(
        german.contains("Hilfe: ein Takt in 4/4 hat 4 Viertel"),
        "{german}"
    );
    assert!(german.contains("anna.toml: 1 Fehler."), "{german}");
    for other in ["C", "nl_NL.UTF-8", "fr_FR.UTF-8"] {
        let english = said(other, &["check", "anna.toml"], SHORT);
        assert!(
            english.contains("error: bar 2 is one beat short"),
            "{english}"
        );
        assert!(english.contains("anna.toml: 1 fault."), "{english}");
    }
}

#[test]
fn an_option_asks_for_a_language_before_the_system_does() {
    let german = said("C", &["check", "anna.toml", "--language", "de"], SHORT);
    assert!(german.contains("Takt 2"), "{german}");
    let english = said(
        "de_DE.UTF-8",
        &["check", "anna.toml", "--language", "en"],
        SHORT,
    );
    assert!(english.contains("bar 2"), "{english}");
    let german = said("de_DE.UTF-8", &["chekc", "anna.toml"], SHORT);
    assert!(
        german.contains("einen Befehl chekc gibt es nicht"),
        "{german}"
    );
}

#[test]
fn findings_choices_and_tables_are_german() {
    let whole = SHORT.replace("E4:half. |", "E4:whole |");
    let german = said("de_DE.UTF-8", &["check", "anna.toml"], &whole);
    assert!(german.contains("Warnung"), "{german}");
    assert!(german.contains("liegt höher, als mit G4"), "{german}");
    assert!(german.contains("Schläge pro Minute"), "{german}");
    let named = said(
        "de_DE.UTF-8",
        &["check", "anna.toml", "--names", "solfege"],
        &whole,
    );
    assert!(named.contains("sol4"), "{named}");
    let choice = said(
        "de_DE.UTF-8",
        &["choose", "B4", "--names", "german"],
        &whole,
    );
    assert!(choice.contains("Fang an mit"), "{choice}");
    assert!(choice.starts_with("B4, "), "{choice}");
    let list = said("de_DE.UTF-8", &["list"], &whole);
    assert!(list.contains("Stufe") && list.contains("Zweck"), "{list}");
}

/// A class of two: one plays something too hard, one does well.
const CLASS: &str = "format = 1\ntitle = \"Dienstag\"\n[[player]]\nname = \"Anna\"\nroutine = \"second-steps\"\n\
    comfortable_top = \"C4\"\nlanguage = \"de\"\n[[player]]\nname = \"Ben\"\nroutine = \"nirgends\"\n";

#[test]
fn a_class_report_is_german() {
    let folder = tempfile::tempdir().expect("there is room");
    fs::write(folder.path().join("class.toml"), CLASS).expect("there is room");
    let mut command = Command::cargo_bin("leadpipe").expect("it is built");
    command
        .current_dir(folder.path())
        .env("LC_ALL", "de_DE.UTF-8");
    let arguments = "class class.toml --keep-going --format mp3 --report bericht.html";
    let done = command
        .args(arguments.split(' '))
        .output()
        .expect("it runs");
    let said = String::from_utf8(done.stderr).expect("it is text");
    assert!(
        said.contains("Ben bekommt keine Aufnahmen: die Übungsfolge kann nicht gelesen werden"),
        "{said}"
    );
    let page = fs::read_to_string(folder.path().join("bericht.html")).expect("it is written");
    assert!(page.contains("<html lang=\"de\">"), "{page}");
    for (german, english) in [
        ("Wer was spielt", "Who plays what"),
        ("Ben hat keine Aufnahmen", "has no tracks"),
        ("spielt bis C4 mühelos", "plays up to"),
        ("Übungsfolge", "Routine"),
    ] {
        assert!(page.contains(german) && !page.contains(english), "{page}");
    }
}

#[test]
fn letters_that_run_leftwards_are_refused_on_the_sheet() {
    let hebrew = SHORT
        .replace("E4:half. |", "E4:whole |")
        .replace("Kurz", "שלום");
    let told = said("C", &["sheet", "anna.toml"], &hebrew);
    assert!(
        told.contains("is written from right to left, which the sheet cannot draw"),
        "{told}"
    );
    assert!(told.contains("Latin, Greek or Cyrillic"), "{told}");
}

#[test]
fn a_language_without_words_for_teachers_is_spoken_to_in_english() {
    assert_eq!(Language::De.to_teachers(), Language::De);
    assert_eq!(Language::Fr.to_teachers(), Language::En);
}
