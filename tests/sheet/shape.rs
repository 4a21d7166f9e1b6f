//! The routine's shape: one bar a note played, told apart without colour.

use super::{built_in, check_page, of_kind, routine_of, texts, unroll, usual};
use leadpipe::sheet::page::{DrawnKind, Page, Role, Shape};
use leadpipe::sheet::shape;
use std::collections::HashSet;

fn page_of(line: &str) -> Page {
    shape::page(
        &unroll(&routine_of(&[line, "on = \"air\"\nnotes = \"in:whole\""])),
        700.0,
        220.0,
    )
}

/// Filled areas by their grey and number of corners; the key's own are among them.
fn forms(page: &Page) -> HashSet<(u8, usize)> {
    of_kind(page, DrawnKind::Picture)
        .into_iter()
        .filter_map(|mark| match &mark.shape {
            Shape::Area(steps) => Some((mark.shade, steps.len())),
            _ => None,
        })
        .collect()
}

#[test]
fn distance_from_comfort_is_told_by_grey_and_by_form() {
    // G4 is easy and C6 the reach of these routines.
    let easy = forms(&page_of("notes = \"C4:whole\""));
    let reach = forms(&page_of("notes = \"C5:whole\""));
    let only_reach: Vec<_> = reach.difference(&easy).collect();
    assert_eq!(only_reach.len(), 1);
    let (shade, corners) = only_reach[0];
    // Neither its grey nor its form is one that easy notes or rests have.
    assert!(easy.iter().all(|(s, c)| s != shade && c != corners));
    assert_eq!(
        texts(&page_of("notes = \"C5:whole\""), DrawnKind::Text)
            .iter()
            .filter(|t| *t == "a stretch")
            .count(),
        1
    );
}

#[test]
fn playing_and_rest_of_each_line_stand_under_it() {
    // At 72, eight beats last 6.7 seconds; a rest of the same follows.
    let page = page_of("notes = \"C4:whole | D4:whole\"");
    let Role::Figure(said) = &page.blocks[0].role else {
        panic!("it is a figure")
    };
    assert!(
        said.contains("line 1 0:07 playing, 0:07 rest; line 2 0:03 playing, 0:00 rest"),
        "{said}"
    );
    let shown = texts(&page, DrawnKind::Text);
    assert_eq!(shown.iter().filter(|t| *t == "0:07").count(), 2);
}

#[test]
fn every_note_played_has_a_bar() {
    for (name, routine) in built_in() {
        let score = unroll(&routine);
        let page = shape::page(&score, 760.0, 230.0);
        check_page(&page);
        let played = score
            .lines
            .iter()
            .flat_map(|l| &l.passes)
            .flat_map(|p| &p.notes);
        let pitched = played
            .filter(|n| matches!(n.played, leadpipe::score::Played::Pitch { .. }))
            .count();
        let areas = of_kind(&page, DrawnKind::Picture)
            .into_iter()
            .filter(|m| matches!(&m.shape, Shape::Area(_)) && m.shade != 0xe6)
            .count();
        // One of each kind that occurs stands in the key.
        assert!(
            (pitched + 1..=pitched + 2).contains(&areas),
            "{name}: {areas} for {pitched}"
        );
    }
}

/// A routine of many short lines.
fn many(count: usize) -> Page {
    let lines = vec!["notes = \"C4:quarter\"\nrest = \"1 s\""; count];
    shape::page(&unroll(&routine_of(&lines)), 760.0, 230.0)
}

#[test]
fn the_number_of_every_line_is_there_however_many_there_are() {
    for (name, routine) in built_in() {
        let shown = texts(
            &shape::page(&unroll(&routine), 500.0, 150.0),
            DrawnKind::Text,
        );
        for number in 1..=routine.lines.len() {
            assert!(shown.contains(&number.to_string()), "{name}: {number}");
        }
    }
    let page = many(120);
    check_page(&page);
    let shown = texts(&page, DrawnKind::Text);
    for number in 1..=120 {
        assert!(shown.contains(&number.to_string()), "{number}");
    }
    // None stands on another.
    let boxes: Vec<_> = of_kind(&page, DrawnKind::Text)
        .iter()
        .map(|m| m.bounds())
        .collect();
    for (index, one) in boxes.iter().enumerate() {
        assert!(
            boxes[index + 1..]
                .iter()
                .all(|other| !one.overlaps(other, 0.6)),
            "{one:?}"
        );
    }
}

#[test]
fn time_is_written_under_the_picture_and_words_can_be_read() {
    // Longer than ten minutes.
    let (_, routine) = &usual()[2];
    let page = shape::page(&unroll(routine), 760.0, 230.0);
    let shown = texts(&page, DrawnKind::Text);
    for minute in ["time", "0:00", "1:00", "5:00", "10:00"] {
        assert!(
            shown.iter().any(|text| text == minute),
            "{minute}: {shown:?}"
        );
    }
    for mark in of_kind(&page, DrawnKind::Text) {
        assert!(
            matches!(mark.shape, Shape::Text { size, .. } if size >= 8.0),
            "{mark:?}"
        );
    }
}
