//! Head, foot and the words between the lines.

use super::{built_in, routine_of, texts, unroll};
use leadpipe::brass::caution;
use leadpipe::sheet::page::{DrawnKind, Page, Role};
use leadpipe::sheet::{Sheet, SheetOptions, engrave};

fn sheet_of(lines: &[&str]) -> Sheet {
    engrave(&unroll(&routine_of(lines)), &SheetOptions::default())
}

fn text(page: &Page) -> String {
    texts(page, DrawnKind::Text).join(" ")
}

#[test]
fn every_sheet_says_for_whom_it_is_when_to_stop_and_where_it_ends() {
    for (name, routine) in built_in() {
        let score = unroll(&routine);
        let sheet = engrave(&score, &SheetOptions::default());
        let first = text(&sheet.pages[0]);
        assert!(first.starts_with(&routine.title), "{name}");
        // Whoever has no C4 yet reads what is enough to begin.
        let needed = match name.strip_prefix("first-sounds") {
            Some("-b") => "Ab3 on 2-3 is enough to begin".to_owned(),
            Some(_) => "A3 on 1-2 is enough to begin".to_owned(),
            None => format!("{} should be easy", routine.comfortable_top),
        };
        assert!(first.contains(&needed), "{name}: {first}");
        let whose = format!("{} · ", routine.instrument.name);
        assert!(first.contains(&whose), "{name}");
        let all: String = sheet.pages.iter().map(|p| text(p) + " ").collect();
        for paragraph in caution::long(leadpipe::words::Language::En) {
            assert!(all.contains(paragraph), "{name}: {paragraph}");
        }
        let count = sheet.pages.len();
        for (index, page) in sheet.pages.iter().enumerate() {
            let number = format!("{} · page {} of {count}", routine.title, index + 1);
            assert!(text(page).ends_with(&number), "{name}");
        }
        for (index, line) in routine.lines.iter().enumerate() {
            for said in [&line.purpose, &line.say].into_iter().flatten() {
                assert!(all.contains(said.as_str()), "{name}: {said}");
            }
            assert!(
                all.contains(&format!("{} {}", index + 1, line.name)),
                "{name}"
            );
        }
    }
}

#[test]
fn rests_are_said_in_words() {
    let sheet = sheet_of(&[
        "notes = \"C4:whole\"\ntimes = 3\nbetween = \"2 bars\"\nrest = \"20 s\"",
        "notes = \"C4:whole\"\ntimes = 2\nbetween = \"none\"\nrest = \"90 s\"",
        "notes = \"C4:whole\"",
    ]);
    let said = text(&sheet.pages[0]);
    assert!(
        said.contains("After each time rest 2 bars, the click goes on. Then rest 20 seconds."),
        "{said}"
    );
    assert!(
        said.contains("No rest between the times. Then rest 1:30 minutes."),
        "{said}"
    );
}

#[test]
fn the_length_of_a_short_routine_is_said_in_seconds() {
    let three_bars = "notes = \"C4:whole | C4:whole | C4:whole\"";
    let sheet = sheet_of(&[three_bars, three_bars]);
    let said = text(&sheet.pages[0]);
    assert!(
        said.contains("72 clicks a minute · about 34 seconds, 20 of them playing"),
        "{said}"
    );
}

#[test]
fn lengths_over_an_hour_are_said_in_hours() {
    let sheet = sheet_of(&[
        "notes = \"C4:whole\"\nrest = \"3600 s\"",
        "notes = \"C4:whole\"",
    ]);
    let said: String = sheet.pages.iter().map(|p| text(p) + " ").collect();
    assert!(
        said.contains("about 1 hour, 7 seconds of it playing"),
        "{said}"
    );
    assert!(said.contains("Then rest 1 hour."), "{said}");
    // Under the line in the picture of the routine's shape.
    assert!(said.contains(" 1:00:00 "), "{said}");
}

#[test]
fn the_fingering_chart_has_each_note_once_for_each_of_its_fingerings() {
    let sheet = sheet_of(&["notes = \"G4:quarter E4:quarter G4:quarter[1-3] G4:quarter\""]);
    let chart = sheet.pages[0]
        .blocks
        .iter()
        .find_map(|block| match &block.role {
            Role::Figure(words) => words.strip_prefix("Fingerings: ").map(str::to_owned),
            _ => None,
        });
    assert_eq!(chart.as_deref(), Some("E4 1-2, G4 0, G4 1-3"));
    // On air and mouthpiece alone there is nothing to finger.
    let sheet = sheet_of(&["on = \"air\"\nnotes = \"in:half out:half\""]);
    assert!(!text(&sheet.pages[0]).contains("Fingerings"));
}
