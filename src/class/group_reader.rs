//! Reads the groups of a class list.

use super::list::{Group, Named};
use super::takes_reader::{Takes, read_takes};
use crate::routine::fields::Fields;
use crate::routine::{Fault, Span};
use crate::words::list;
use toml::de::DeValue;

/// Entries of a group.
const GROUP_KEYS: [&str; 8] = [
    "name", "routine", "together", "tempo", "key", "guide", "carry", "language",
];

/// Entries of a player.
pub const PLAYER_KEYS: [&str; 12] = [
    "name",
    "group",
    "routine",
    "pencil",
    "instrument",
    "carry",
    "tempo",
    "key",
    "guide",
    "language",
    "age",
    "comfortable_top",
];

/// A group, and the takes of its players.
pub struct ReadGroup {
    pub group: Group,
    pub takes: Takes,
}

pub fn read_groups(head: &mut Fields<'_, '_>, of_all: &Takes) -> Vec<ReadGroup> {
    let mut groups: Vec<ReadGroup> = vec![];
    let Some(entry) = head.get("group") else {
        return groups;
    };
    let DeValue::Array(array) = entry.value else {
        head.wrong(
            entry,
            "a group is opened by [[group]], with two brackets on each side".to_owned(),
            "write [[group]] in a row of its own; players name it: group = \"Tuesday brass\"",
        );
        return groups;
    };
    for item in array.iter() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults.push(
                Fault::new(span, "a group is opened by [[group]]")
                    .hint("write [[group]] in a row of its own"),
            );
            continue;
        };
        let mut fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &GROUP_KEYS,
            broken: head.broken,
            faults: Vec::new(),
        };
        let read = read_group(&mut fields, of_all, &groups);
        head.faults.append(&mut fields.faults);
        groups.extend(read);
    }
    groups
}

fn read_group(
    fields: &mut Fields<'_, '_>,
    of_all: &Takes,
    others: &[ReadGroup],
) -> Option<ReadGroup> {
    fields.unknown((&PLAYER_KEYS, "to a player: put it under a [[player]]"));
    let name = fields.text("name", "Tuesday brass");
    if fields.get("name").is_none() {
        fields.missing(
            "name",
            "this group has no name",
            "its players name it: name = \"Tuesday brass\"",
        );
    }
    let routine = fields.text("routine", "second-steps");
    let together = match fields.get("together") {
        None => false,
        Some(entry) => match entry.value {
            DeValue::Boolean(together) => *together,
            _ => {
                let message = "together is true or false".to_owned();
                fields.wrong(
                    entry,
                    message,
                    "write together = true, without quotation marks",
                );
                false
            }
        },
    };
    let takes = read_takes(fields, of_all);
    let (name, span) = name?;
    if let Some(other) = (others.iter()).find(|read| same_name(&read.group.name, &name)) {
        fields.faults.push(
            Fault::new(span, format!("two groups are called {name}"))
                .also(other.group.span, "the first")
                .hint("give one of them another name"),
        );
        return None;
    }
    let group = Group {
        name,
        span,
        routine: routine.map(|(name, span)| Named { name, span }),
        together,
    };
    Some(ReadGroup { group, takes })
}

fn same_name(a: &str, b: &str) -> bool {
    a.to_lowercase() == b.to_lowercase()
}

/// The group that a player names, as an index.
pub fn group_of(fields: &mut Fields<'_, '_>, groups: &[ReadGroup]) -> Option<usize> {
    let (name, span) = fields.text("group", "Tuesday brass")?;
    let found = groups
        .iter()
        .position(|read| same_name(&read.group.name, &name));
    if found.is_none() {
        let names: Vec<&str> = groups.iter().map(|read| read.group.name.as_str()).collect();
        let hint = match names.as_slice() {
            [] => format!("write [[group]] above the players, and under it name = \"{name}\""),
            names => format!("the groups of this list are {}", list::and(names)),
        };
        fields
            .faults
            .push(Fault::new(span, format!("there is no group called {name}")).hint(hint));
    }
    found
}

/// What a player may not have of their own who plays together with others.
pub fn play_together(fields: &mut Fields<'_, '_>, group: &Group) {
    for key in ["routine", "pencil", "tempo", "key", "guide", "carry"] {
        let Some(at) = fields.key_span(key) else {
            continue;
        };
        let message = format!(
            "players of {} play together, so {key} is the same for all",
            group.name
        );
        fields.faults.push(
            Fault::new(at, message)
                .also(group.span, "the group")
                .hint(match key {
                    "pencil" => "leave pencil out, or write the marks into the routine".to_owned(),
                    "carry" => "leave carry out: they play at one concert pitch".to_owned(),
                    key => format!("leave {key} out here, and write it under the [[group]]"),
                }),
        );
    }
}
