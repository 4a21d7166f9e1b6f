//! Whatever is edited, the text is still TOML, and taking everything back restores every byte.

use crate::ODD;
use leadpipe::edit::{Distance, Edit, Value, apply, undo};
use leadpipe::presets::ALL;
use leadpipe::routine;
use proptest::prelude::*;

fn key() -> impl Strategy<Value = String> {
    const KEYS: [&str; 9] = [
        "purpose",
        "say",
        "tempo",
        "times",
        "rest",
        "key",
        "half_steps",
        "name",
        "title",
    ];
    prop::sample::select(&KEYS[..]).prop_map(str::to_owned)
}

fn value() -> impl Strategy<Value = Value> {
    prop_oneof![
        (-3..200i64).prop_map(Value::Whole),
        "\\PC{0,12}".prop_map(Value::Text),
        Just(Value::Text("a \"b\" \\ c\n# d".to_owned())),
        prop::collection::vec((-5..5i64).prop_map(Value::Whole), 0..4).prop_map(Value::List),
    ]
}

fn dynamic() -> impl Strategy<Value = String> {
    prop::sample::select(&["pp", "p", "mp", "mf", "f", "ff", "cresc", "dim"][..])
        .prop_map(str::to_owned)
}

fn notes_edit() -> impl Strategy<Value = Edit> {
    let group = || prop::sample::select(&["slur", "triplet"][..]).prop_map(str::to_owned);
    let length = prop::sample::select(&["half", "quarter.", "eighth"][..]).prop_map(str::to_owned);
    let new = prop::sample::select(&["G4:half", "rest", "A4 Bb4:quarter", "tie:half"][..]);
    let place = || (0..4usize, 0..9usize, 0..4usize);
    prop_oneof![
        (place(), new).prop_map(|((line, at, _), notes)| {
            let notes = notes.to_owned();
            Edit::Insert { line, at, notes }
        }),
        place().prop_map(|(line, first, more)| Edit::Delete {
            line,
            first,
            last: first + more
        }),
        (place(), -9..9i32, 0..3).prop_map(|((line, first, more), n, what)| {
            let by = match what {
                0 => Distance::Steps(n),
                1 => Distance::HalfSteps(n),
                _ => Distance::Octaves(n / 4),
            };
            Edit::Move {
                line,
                first,
                last: first + more,
                by,
            }
        }),
        (place(), -1..=1i8).prop_map(|((line, first, more), alter)| {
            Edit::Accidental {
                line,
                first,
                last: first + more,
                alter,
            }
        }),
        (place(), length).prop_map(|((line, first, more), length)| {
            Edit::Length {
                line,
                first,
                last: first + more,
                length,
            }
        }),
        (place(), group()).prop_map(|((line, first, more), group)| {
            Edit::Group {
                line,
                first,
                last: first + more,
                group,
            }
        }),
        (place(), group()).prop_map(|((line, at, _), group)| Edit::Ungroup { line, at, group }),
        (place(), any::<bool>()).prop_map(|((line, first, more), on)| {
            let mark = "accent".to_owned();
            Edit::Mark {
                line,
                first,
                last: first + more,
                mark,
                on,
            }
        }),
        (place(), prop::option::of(dynamic()))
            .prop_map(|((line, at, _), dynamic)| { Edit::Dynamic { line, at, dynamic } }),
        (place(), any::<bool>()).prop_map(|((line, at, _), on)| Edit::Breath { line, at, on }),
        (place(), any::<bool>()).prop_map(|((line, at, _), on)| Edit::Bar { line, at, on }),
        (place(), prop::option::of(Just("1-2".to_owned()))).prop_map(
            |((line, at, _), fingering)| Edit::Finger {
                line,
                at,
                fingering
            }
        ),
    ]
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let line = || prop::option::of(0..4usize);
    prop_oneof![
        (line(), key(), value()).prop_map(|(line, key, value)| Edit::Set { line, key, value }),
        (line(), key()).prop_map(|(line, key)| Edit::Remove { line, key }),
        (0..5usize, "\\PC{1,9}").prop_map(|(at, name)| {
            let notes = "C4:half D4".to_owned();
            Edit::AddLine { at, name, notes }
        }),
        (0..4usize).prop_map(|line| Edit::RemoveLine { line }),
        (0..4usize, 0..5usize).prop_map(|(line, to)| Edit::MoveLine { line, to }),
        (0..4usize).prop_map(|line| Edit::DuplicateLine { line }),
        notes_edit(),
        notes_edit(),
        notes_edit(),
    ]
}

/// The texts that are edited: built-in ones, one with comments and odd spacing, that one with the row ends of Windows and
/// without a last one.
fn texts() -> Vec<String> {
    let mut texts: Vec<String> = ALL.iter().map(|preset| preset.text.to_owned()).collect();
    texts.push(ODD.to_owned());
    texts.push(ODD.replace('\n', "\r\n"));
    texts.push(ODD.trim_end().to_owned());
    texts
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn all_can_be_taken_back(
        text in prop::sample::select(texts()),
        edits in prop::collection::vec(any_edit(), 1..25),
    ) {
        let mut now = text.clone();
        let mut back = vec![];
        for edit in &edits {
            let Ok(edited) = apply(&now, edit) else { continue };
            prop_assert_eq!(undo(&now, &edited.splices), edited.text.as_str());
            now = edited.text;
            back.push(edited.inverse);
            prop_assert!(toml::de::DeTable::parse(&now).is_ok(), "{:?}\n{}", edit, now);
        }
        // The reader may find faults, a bar that is too long; it must not panic.
        let _ = routine::read(&now);
        for inverse in back.iter().rev() {
            now = undo(&now, inverse);
        }
        prop_assert_eq!(now, text);
    }
}
