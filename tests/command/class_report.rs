//! `class --report`: a page for the teacher.

use super::class::{LIST, again, class};
use std::fs;

/// A page for the teacher: what is wrong first, then who plays what, and nothing of lines and packed files.
#[test]
fn the_report_is_a_page_with_problems_first() {
    let list = LIST.replace("name = \"Cem\"", "name = \"Cem & Co\"");
    let ran = class(&["--report", "tuesday.html"])
        .file("lists/tuesday.toml", list)
        .run();
    assert!(
        ran.stderr.contains("The report is in tuesday.html.\n"),
        "{}",
        ran.stderr
    );
    let page = ran.read("tuesday.html");
    let at = |what: &str| {
        page.find(what)
            .unwrap_or_else(|| panic!("no {what} in {page}"))
    };
    assert!(at("<h2>Suggestions</h2>") < at("<h2>Who plays what</h2>"));
    assert!(at("Cem &amp; Co plays up to C4") < at("<table>"));
    assert!(page.contains("<td>Bo</td><td>Short</td>"), "{page}");
    assert!(
        !page.contains("rendered") && !page.contains("packed"),
        "{page}"
    );
    assert!(!page.contains("To look at"), "nothing is wrong: {page}");
    // A file of the teacher's own stays.
    fs::write(ran.path("tuesday.html"), "mine").unwrap();
    let ran = again(ran, &["--report", "tuesday.html"]).exit(1).run();
    assert_eq!(ran.read("tuesday.html"), "mine");
}
