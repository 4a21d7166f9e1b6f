//! Reads a class list.

use super::bounds::{FARTHEST_KEY, MOST_OF_EACH, MOST_PLAYERS};
use super::list::{ClassList, Group, Listed, Named, NotUnderstood, Player};
use crate::brass::{AgeBand, Instrument};
use crate::carry::CarryRule;
use crate::music::{Decimal, Tempo};
use crate::routine::broken_row::Dialect;
use crate::routine::fields::{Entry, Fields, whole_number};
use crate::routine::reader::unknown_instrument;
use crate::routine::{Fault, Guide, Span, document};
use crate::score::TakeTempo;
use crate::words::{Language, list};
use toml::de::DeValue;

const HEAD_KEYS: [&str; 9] = [
    "format", "title", "tempo", "key", "guide", "carry", "language", "group", "player",
];

const GROUP_KEYS: [&str; 8] = [
    "name", "routine", "together", "tempo", "key", "guide", "carry", "language",
];

const PLAYER_KEYS: [&str; 12] = [
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

const CLASS: Dialect = Dialect {
    file: "class list",
    opens: "[[player]]",
    table: "a player",
    keys: [&HEAD_KEYS, &PLAYER_KEYS],
};

/// The result of reading a class list.
#[derive(Clone, Debug)]
pub struct ClassRead {
    /// The list; `None` if the file as a whole is not understood.
    pub list: Option<ClassList>,
    /// Every fault in order of place.
    pub faults: Vec<Fault>,
}

/// Reads the text of a class list.
pub fn read(text: &str) -> ClassRead {
    let (list, faults) = document::read(text, &CLASS, read_head);
    ClassRead { list, faults }
}

/// The takes of players without their own.
#[derive(Clone)]
struct Takes {
    tempos: Vec<TakeTempo>,
    keys: Vec<i32>,
    guides: Vec<Guide>,
    carry: CarryRule,
    language: Option<Language>,
}

fn read_head(mut head: Fields<'_, '_>, valid: bool, faults: &mut Vec<Fault>) -> Option<ClassList> {
    if head.table.is_empty() {
        if valid {
            faults.push(
                Fault::new(head.at, "there is no class list in this file").hint(
                    "a class list begins with format = 1; then comes a [[player]] for each player",
                ),
            );
        }
        return None;
    }
    head.unknown((&PLAYER_KEYS, "to a player: put it under a [[player]]"));
    document::format(&mut head);
    let format = head.get("format").and_then(|e| whole_number(e.value));
    let title = head.text("title", "Tuesday brass").map(|(title, _)| title);
    let defaults = Takes {
        tempos: vec![TakeTempo::AS_WRITTEN],
        keys: vec![0],
        guides: vec![Guide::Together],
        carry: CarryRule::Partials,
        language: None,
    };
    let of_all = read_takes(&mut head, &defaults);
    let groups = read_groups(&mut head, &of_all);
    let players = read_players(&mut head, &of_all, &groups);
    faults.append(&mut head.faults);
    let groups = groups.into_iter().map(|read| read.group).collect();
    (format == Some(1)).then_some(ClassList {
        title,
        groups,
        players,
    })
}

/// A group, and the takes of its players.
struct ReadGroup {
    group: Group,
    takes: Takes,
}

fn read_groups(head: &mut Fields<'_, '_>, of_all: &Takes) -> Vec<ReadGroup> {
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
fn group_of(fields: &mut Fields<'_, '_>, groups: &[ReadGroup]) -> Option<usize> {
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
fn play_together(fields: &mut Fields<'_, '_>, group: &Group) {
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

fn read_players(head: &mut Fields<'_, '_>, of_all: &Takes, groups: &[ReadGroup]) -> Vec<Listed> {
    let mut players: Vec<Listed> = Vec::new();
    let Some(entry) = head.get("player") else {
        head.missing(
            "player",
            "there are no players in this list",
            "write [[player]] in a row of its own, and under it name = \"…\" and routine = \"…\"",
        );
        return players;
    };
    let DeValue::Array(array) = entry.value else {
        head.wrong(
            entry,
            "a player is opened by [[player]], with two brackets on each side".to_owned(),
            "write [[player]] in a row of its own",
        );
        return players;
    };
    if array.len() > MOST_PLAYERS {
        head.wrong(
            entry,
            format!(
                "this list has {} players; {MOST_PLAYERS} are the most",
                array.len()
            ),
            "make a list for each class",
        );
        return players;
    }
    let mut names: Vec<(String, Span)> = Vec::new();
    for item in array.iter() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults.push(
                Fault::new(span, "a player is opened by [[player]]")
                    .hint("write [[player]] in a row of its own"),
            );
            continue;
        };
        let fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &PLAYER_KEYS,
            broken: head.broken,
            faults: Vec::new(),
        };
        let (player, mut faults) = read_player(fields, (of_all, groups), &mut names);
        head.faults.append(&mut faults);
        players.push(player);
    }
    players
}

fn read_player(
    mut fields: Fields<'_, '_>,
    (of_all, groups): (&Takes, &[ReadGroup]),
    names: &mut Vec<(String, Span)>,
) -> (Listed, Vec<Fault>) {
    fields.unknown((&HEAD_KEYS[..2], "to the head of the file"));
    let name = read_name(&mut fields, names);
    let group = group_of(&mut fields, groups);
    let of_group = group.map(|index| &groups[index]);
    if let Some(read) = of_group.filter(|read| read.group.together) {
        play_together(&mut fields, &read.group);
    }
    let routine = fields.text("routine", "second-steps");
    let of_the_group = of_group.and_then(|read| read.group.routine.clone());
    if fields.get("routine").is_none() && of_the_group.is_none() {
        fields.missing(
            "routine",
            "this player has no routine",
            "name a built-in one or a file beside this list: routine = \"second-steps\"",
        );
    }
    let pencil = fields.text("pencil", "anna.pencil.toml");
    let instrument = read_instrument(&mut fields);
    let takes = read_takes(&mut fields, of_group.map_or(of_all, |read| &read.takes));
    let age = read_age(&mut fields);
    let top = fields
        .pitch("comfortable_top", "G4")
        .map(|(pitch, _)| pitch);
    let whole = fields.faults.is_empty();
    let named = |(name, span): (String, Span)| Named { name, span };
    let routine = routine.map(named).or(of_the_group);
    let listed = match (name, routine) {
        (Some((name, span)), Some(routine)) if whole => Listed::Player(Player {
            name,
            span,
            group,
            routine,
            pencil: pencil.map(named),
            instrument,
            carry: takes.carry,
            tempos: takes.tempos,
            keys: takes.keys,
            guides: takes.guides,
            language: takes.language,
            age,
            comfortable_top: top,
        }),
        (name, routine) => Listed::NotUnderstood(NotUnderstood {
            name: name.map(|(name, _)| name),
            routine,
            pencil: pencil.map(named),
        }),
    };
    (listed, fields.faults)
}

/// The name of a player, which no other player has.
fn read_name(
    fields: &mut Fields<'_, '_>,
    names: &mut Vec<(String, Span)>,
) -> Option<(String, Span)> {
    let name = fields.text("name", "Anna");
    if fields.get("name").is_none() {
        fields.missing(
            "name",
            "this player has no name",
            "a nickname is enough: name = \"Anna\"",
        );
    }
    if let Some((name, span)) = &name {
        let small = name.to_lowercase();
        if let Some((_, first)) = names.iter().find(|(other, _)| *other == small) {
            fields.faults.push(
                Fault::new(*span, format!("two players are called {name}"))
                    .also(*first, "the first")
                    .hint("tell them apart with a nickname: each has a folder of that name"),
            );
        }
        names.push((small, *span));
    }
    name
}

fn read_takes(fields: &mut Fields<'_, '_>, defaults: &Takes) -> Takes {
    let tempos = each(fields, "tempo", "[\"100%\", \"85%\"]", tempo);
    let keys = each(fields, "key", "[0, -1]", |_, entry| {
        whole_number(entry.value)
            .filter(|n| n.abs() <= FARTHEST_KEY)
            .map(|n| n as i32)
            .ok_or_else(|| {
                (
                    "a key is a number of half steps up or down".to_owned(),
                    format!("for instance key = [0, -1]; {FARTHEST_KEY} are the most"),
                )
            })
    });
    let guides = each(fields, "guide", "[\"together\", \"echo\"]", |_, entry| {
        let text = match entry.value {
            DeValue::String(text) => text.trim(),
            _ => "",
        };
        let known = Guide::WORDS.iter().find(|(word, _)| *word == text);
        known.map(|(_, guide)| *guide).ok_or_else(|| {
            (
                "this is no guide mode".to_owned(),
                "it can be \"together\", \"echo\" or \"off\"".to_owned(),
            )
        })
    });
    Takes {
        tempos: tempos.unwrap_or_else(|| defaults.tempos.clone()),
        keys: keys.unwrap_or_else(|| defaults.keys.clone()),
        guides: guides.unwrap_or_else(|| defaults.guides.clone()),
        carry: fields
            .choice("carry", &CarryRule::WORDS)
            .unwrap_or(defaults.carry),
        language: read_language(fields).or(defaults.language),
    }
}

/// The language of the words for a player.
fn read_language(fields: &mut Fields<'_, '_>) -> Option<Language> {
    let (tag, span) = fields.text("language", "de")?;
    let language = Language::of(&tag);
    if language.is_none() {
        let all = Language::ALL.map(|one| format!("\"{}\" for {}", one.tag(), one.name()));
        let fault = Fault::new(span, format!("leadpipe does not speak “{tag}”"));
        fields
            .faults
            .push(fault.hint(format!("write {}", list::or(&all))));
    }
    language
}

/// Reads every entry of a list with `one`, which returns message and hint for an invalid one.
fn each<T: PartialEq>(
    fields: &mut Fields<'_, '_>,
    key: &str,
    example: &str,
    one: impl Fn(&str, Entry<'_, '_>) -> Result<T, (String, String)>,
) -> Option<Vec<T>> {
    let (entries, span) = fields.list(key)?;
    if entries.is_empty() || entries.len() > MOST_OF_EACH {
        fields.faults.push(
            Fault::new(
                span,
                format!("{key} holds from 1 to {MOST_OF_EACH} entries"),
            )
            .hint(format!("for instance {key} = {example}")),
        );
        return None;
    }
    let mut found = Vec::new();
    for entry in entries {
        match one(fields.source, entry) {
            // A duplicate is rendered once.
            Ok(value) if found.contains(&value) => {}
            Ok(value) => found.push(value),
            Err((message, hint)) => fields.wrong(entry, message, &hint),
        }
    }
    Some(found)
}

fn tempo(source: &str, entry: Entry<'_, '_>) -> Result<TakeTempo, (String, String)> {
    let wrong = |_| {
        (
            "this is no tempo".to_owned(),
            "write clicks a minute from 20 to 300 (72), or a part of what is written (\"85%\")"
                .to_owned(),
        )
    };
    let clicks = |text: &str| {
        let clicks = Decimal::parse(&text.replace('_', "")).map_err(|_| ())?;
        Tempo::from_decimal(clicks).map_err(|_| ())?;
        Ok(TakeTempo::Clicks(clicks))
    };
    match entry.value {
        DeValue::Integer(_) | DeValue::Float(_) => {
            clicks(&source[entry.span.start..entry.span.end]).map_err(wrong)
        }
        DeValue::String(text) => match text.trim().strip_suffix('%') {
            Some(part) => Decimal::parse(part.trim_end())
                .ok()
                .filter(|part| part.is_positive())
                .map(TakeTempo::Percent)
                .ok_or(())
                .map_err(wrong),
            None => clicks(text.trim()).map_err(wrong),
        },
        _ => Err(wrong(())),
    }
}

fn read_instrument(fields: &mut Fields<'_, '_>) -> Option<&'static Instrument> {
    let (placed, span) = fields.placed("instrument", "trombone")?;
    let found = Instrument::named(&placed.text);
    if found.is_none() {
        fields.faults.push(unknown_instrument(&placed.text, span));
    }
    found
}

fn read_age(fields: &mut Fields<'_, '_>) -> Option<AgeBand> {
    let (placed, span) = fields.placed("age", "11-13")?;
    let age = AgeBand::parse(&placed.text);
    if age.is_none() {
        fields.faults.push(
            Fault::new(span, format!("age cannot be \"{}\"", placed.text.trim()))
                .hint("it can be \"8-10\", \"11-13\", \"14-16\" or \"adult\""),
        );
    }
    age
}
