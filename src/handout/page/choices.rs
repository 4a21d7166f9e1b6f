//! What a pupil can choose on the page: each choice as the engine reads it, and its label.

use crate::words::{Language, key, say};
use serde::Serialize;

/// Half steps that a take can be moved by on the page, up and down.
const FARTHEST_KEY: i32 = 6;

/// A choice: the value for the engine, and the label on the page.
#[derive(Debug, Serialize)]
pub struct PageChoice {
    value: String,
    words: String,
}

/// A mark that a pupil can make by touching a button.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct MarkChoice {
    kind: &'static str,
    typed: &'static str,
    words: &'static str,
}

/// Marks that are shown together under a title.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct MarkGroup {
    title: &'static str,
    /// True for marks of a single line, false for marks of the whole routine.
    of_a_line: bool,
    marks: Vec<MarkChoice>,
}

/// Keys, highest first.
pub fn keys(language: Language) -> Vec<PageChoice> {
    let keys = (-FARTHEST_KEY..=FARTHEST_KEY).rev();
    keys.map(|key| PageChoice {
        value: key.to_string(),
        words: key::moved(language, key),
    })
    .collect()
}

/// The guide modes.
pub fn guides(language: Language) -> Vec<PageChoice> {
    let guides = [
        ("together", say::choose_guide_along(language)),
        ("echo", say::choose_guide_first(language)),
        ("off", say::choose_guide_silent(language)),
    ];
    let choice = |(value, words): (&str, &str)| PageChoice {
        value: value.to_owned(),
        words: words.to_owned(),
    };
    guides.map(choice).into()
}

/// Marks under a title: each of one kind, as it is typed and as it is shown.
fn group(
    title: &'static str,
    kind: &'static str,
    marks: &[(&'static str, &'static str)],
) -> MarkGroup {
    let mark = |(typed, words): &(&'static str, &'static str)| MarkChoice { kind, typed, words };
    MarkGroup {
        title,
        of_a_line: false,
        marks: marks.iter().map(mark).collect(),
    }
}

/// The marks of the pencil, in the order of the page.
pub fn marks(language: Language) -> Vec<MarkGroup> {
    let l = language;
    let rest = [
        ("rest longer", say::mark_longer(l)),
        ("rest shorter", say::mark_shorter(l)),
    ];
    let between = [
        ("between longer", say::mark_longer(l)),
        ("between shorter", say::mark_shorter(l)),
    ];
    let articulation = [
        ("tongued", say::mark_tongued(l)),
        ("slurred", say::mark_slurred(l)),
        ("both", say::mark_both(l)),
        ("as written", say::as_written(l)),
    ];
    let times = [
        ("times 1", "1"),
        ("times 2", "2"),
        ("times 3", "3"),
        ("times 4", "4"),
        ("times 5", "5"),
    ];
    let drone = [
        ("drone off", say::mark_off(l)),
        ("drone tonic", say::mark_tonic(l)),
        ("drone tonic and fifth", say::mark_tonic_and_fifth(l)),
    ];
    let guide = [
        ("guide together", say::mark_guide_along(l)),
        ("guide echo", say::mark_guide_first(l)),
        ("guide off", say::mark_off(l)),
    ];
    let tempo = [
        ("slower", say::mark_slower(l)),
        ("faster", say::mark_faster(l)),
    ];
    let loudness = [
        ("softer", say::mark_softer(l)),
        ("louder", say::mark_louder(l)),
    ];
    let mut whole_line = group(
        say::marks_whole_line(l),
        "leave_out",
        &[("leave out", say::mark_leave_out(l))],
    );
    whole_line.of_a_line = true;
    let bend = group("", "bend", &[("bend", say::mark_bend(l))]);
    whole_line.marks.extend(bend.marks);
    vec![
        group(say::marks_tempo(l), "tempo", &tempo),
        group(say::marks_rest(l), "rest", &rest),
        group(say::marks_between(l), "between", &between),
        group(say::marks_articulation(l), "articulation", &articulation),
        group(say::marks_times(l), "times", &times),
        group(say::marks_loudness(l), "loudness", &loudness),
        group(say::marks_drone(l), "drone", &drone),
        group(say::marks_guide(l), "guide", &guide),
        whole_line,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pencil::{self, spoken};
    use crate::routine::Guide;

    #[test]
    fn the_pencil_reads_every_mark_and_types_it_the_same_way() {
        for mark in marks(Language::En).iter().flat_map(|group| &group.marks) {
            let row = spoken::parse(mark.typed).expect(mark.typed);
            assert_eq!(row.kind, mark.kind, "{}", mark.typed);
            let text = format!(
                "format = 1\n[[mark]]\nline = 1\n{} = {}\n",
                row.kind, row.value
            );
            let read = pencil::read(&text);
            assert!(read.faults.is_empty(), "{}", mark.typed);
            let change = &read.pencil.expect(mark.typed).marks[0].change;
            assert_eq!(spoken::typed(change), mark.typed);
            assert_eq!(change.kind(), mark.kind, "{}", mark.typed);
        }
    }

    #[test]
    fn every_guide_can_be_chosen_and_keys_go_both_ways() {
        let values: Vec<String> = guides(Language::En)
            .into_iter()
            .map(|guide| guide.value)
            .collect();
        assert_eq!(values, Guide::WORDS.map(|(word, _)| word));
        let keys = keys(Language::En);
        assert_eq!(keys.len(), 13);
        assert_eq!((&*keys[0].value, &*keys[0].words), ("6", "6 half steps up"));
        assert_eq!((&*keys[6].value, &*keys[6].words), ("0", "as written"));
    }
}
