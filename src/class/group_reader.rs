//! Reads the groups of a class list.

use super::list::{Group, Named};
use super::takes_reader::{Takes, read_takes};
use crate::routine::fields::Fields;
use crate::routine::{Fault, Span};
use crate::words::{Words, list, tell};
use toml::de::DeValue;

/// Entries of a group.
const GROUP_KEYS: [&str; 8] = [
    "name", "routine", "together", "tempo", "key", "guide", "carry", "language",
];

/// Entries of a player.
pub const PLAYER_KEYS: [&str; 13] = [
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
    "names",
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
            tell::group_opened_twice(),
            tell::group_own_row_named(),
        );
        return groups;
    };
    for item in array.iter() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults
                .push(Fault::new(span, tell::group_opened()).hint(tell::group_own_row()));
            continue;
        };
        let mut fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &GROUP_KEYS,
            broken: head.broken,
            names: head.names,
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
    fields.unknown((&PLAYER_KEYS, tell::to_a_player()));
    let name = fields.text("name", "Tuesday brass");
    if fields.get("name").is_none() {
        fields.missing("name", tell::group_without_name(), tell::players_name_it());
    }
    let routine = fields.text("routine", "second-steps");
    let together = match fields.get("together") {
        None => false,
        Some(entry) => match entry.value {
            DeValue::Boolean(together) => *together,
            _ => {
                let message = tell::together_is();
                fields.wrong(entry, message, tell::write_together());
                false
            }
        },
    };
    let takes = read_takes(fields, of_all);
    let (name, span) = name?;
    if let Some(other) = (others.iter()).find(|read| same_name(&read.group.name, &name)) {
        fields.faults.push(
            Fault::new(span, tell::two_groups_called(&name))
                .also(other.group.span, tell::the_first_group())
                .hint(tell::another_group_name()),
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
            [] => tell::write_group(&name),
            names => tell::groups_are(Words::of(|l| list::and_in(l, names))),
        };
        fields
            .faults
            .push(Fault::new(span, tell::no_group_called(&name)).hint(hint));
    }
    found
}

/// What a player may not have of their own who plays together with others.
pub fn play_together(fields: &mut Fields<'_, '_>, group: &Group) {
    for key in ["routine", "pencil", "tempo", "key", "guide", "carry"] {
        let Some(at) = fields.key_span(key) else {
            continue;
        };
        let message = tell::play_together(&group.name, key);
        fields.faults.push(
            Fault::new(at, message)
                .also(group.span, tell::the_group())
                .hint(match key {
                    "pencil" => tell::leave_pencil_out(),
                    "carry" => tell::leave_carry_out(),
                    key => tell::under_the_group(key),
                }),
        );
    }
}
