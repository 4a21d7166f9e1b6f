//! `class`: whose folder is whose.

use super::class::{again, class};
use super::{Ran, names};

/// Names that fold to one folder: whoever had it keeps it, wherever the other one stands in the list.
#[test]
fn a_folder_stays_its_players() {
    let one = |name: &str| format!("[[player]]\nname = \"{name}\"\nroutine = \"a.toml\"\n\n");
    let list = |players: &[&str]| {
        let players: String = players.iter().map(|name| one(name)).collect();
        format!("format = 1\n\n{players}")
    };
    let title = |ran: &Ran, folder: &str| {
        let page = ran.read(&format!("to/{folder}/index.html"));
        let start = page.find("<title>").unwrap() + 7;
        page[start..][..page[start..].find('<').unwrap()].to_owned()
    };
    let ran = class(&[])
        .file("lists/tuesday.toml", list(&["Anna", "🎺"]))
        .run();
    assert_eq!(names(&ran.path("to")), ["anna", "player"]);
    let ran = again(ran, &[])
        .file("lists/tuesday.toml", list(&["Änna", "Anna", "🎷", "🎺"]))
        .run();
    assert_eq!(
        names(&ran.path("to")),
        ["anna", "anna-2", "player", "player-2"]
    );
    assert!(
        ran.stderr
            .contains("Änna gets the folder anna-2: anna is Anna's.\n"),
        "{}",
        ran.stderr
    );
    for (folder, player) in [
        ("anna", "Anna"),
        ("anna-2", "Änna"),
        ("player", "🎺"),
        ("player-2", "🎷"),
    ] {
        assert_eq!(title(&ran, folder), format!("{player}: Short"), "{folder}");
    }
    // Even when Anna has left the class: her page's address never shows another's.
    let ran = again(ran, &[])
        .file("lists/tuesday.toml", list(&["ANNA", "Änna"]))
        .run();
    assert_eq!(title(&ran, "anna"), "Anna: Short");
    assert_eq!(title(&ran, "anna-2"), "Änna: Short");
    assert_eq!(title(&ran, "anna-3"), "ANNA: Short");
}
