//! What a pupil can choose on the page: each choice as the engine reads it, and its label.

use crate::words::key;
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
    marks: &'static [MarkChoice],
}

/// Keys, highest first.
pub fn keys() -> Vec<PageChoice> {
    let keys = (-FARTHEST_KEY..=FARTHEST_KEY).rev();
    keys.map(|key| PageChoice {
        value: key.to_string(),
        words: key::moved(key),
    })
    .collect()
}

/// The guide modes.
pub fn guides() -> Vec<PageChoice> {
    let guides = [
        ("together", "plays along"),
        ("echo", "plays first, then leaves you the time"),
        ("off", "silent"),
    ];
    let choice = |(value, words): (&str, &str)| PageChoice {
        value: value.to_owned(),
        words: words.to_owned(),
    };
    guides.map(choice).into()
}

/// A mark of `kind` that is typed `typed`, shown as `words`.
const fn mark(kind: &'static str, typed: &'static str, words: &'static str) -> MarkChoice {
    MarkChoice { kind, typed, words }
}

const fn group(title: &'static str, marks: &'static [MarkChoice]) -> MarkGroup {
    MarkGroup {
        title,
        of_a_line: false,
        marks,
    }
}

/// The marks of the pencil, in the order of the page.
pub const MARKS: [MarkGroup; 9] = [
    group(
        "Tempo",
        &[
            mark("tempo", "slower", "slower"),
            mark("tempo", "faster", "faster"),
        ],
    ),
    group(
        "Rest after it",
        &[
            mark("rest", "rest longer", "longer"),
            mark("rest", "rest shorter", "shorter"),
        ],
    ),
    group(
        "Rest between the times",
        &[
            mark("between", "between longer", "longer"),
            mark("between", "between shorter", "shorter"),
        ],
    ),
    group(
        "Tongue or slur",
        &[
            mark("articulation", "tongued", "tongued"),
            mark("articulation", "slurred", "slurred"),
            mark("articulation", "both", "both"),
            mark("articulation", "as written", "as written"),
        ],
    ),
    group(
        "How often",
        &[
            mark("times", "times 1", "1"),
            mark("times", "times 2", "2"),
            mark("times", "times 3", "3"),
            mark("times", "times 4", "4"),
            mark("times", "times 5", "5"),
        ],
    ),
    group(
        "How loud",
        &[
            mark("loudness", "softer", "softer"),
            mark("loudness", "louder", "louder"),
        ],
    ),
    group(
        "Held note",
        &[
            mark("drone", "drone off", "off"),
            mark("drone", "drone tonic", "key note"),
            mark("drone", "drone tonic and fifth", "key note and fifth"),
        ],
    ),
    group(
        "Guide",
        &[
            mark("guide", "guide together", "plays along"),
            mark("guide", "guide echo", "plays first"),
            mark("guide", "guide off", "off"),
        ],
    ),
    MarkGroup {
        title: "The whole line",
        of_a_line: true,
        marks: &[
            mark("leave_out", "leave out", "leave out"),
            mark("bend", "bend", "bend half steps down"),
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pencil::{self, spoken};
    use crate::routine::Guide;

    #[test]
    fn the_pencil_reads_every_mark_and_types_it_the_same_way() {
        for mark in MARKS.iter().flat_map(|group| group.marks) {
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
        let values: Vec<String> = guides().into_iter().map(|guide| guide.value).collect();
        assert_eq!(values, Guide::WORDS.map(|(word, _)| word));
        let keys = keys();
        assert_eq!(keys.len(), 13);
        assert_eq!((&*keys[0].value, &*keys[0].words), ("6", "6 half steps up"));
        assert_eq!((&*keys[6].value, &*keys[6].words), ("0", "as written"));
    }
}
