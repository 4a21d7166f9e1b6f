//! Reads a class list.

use super::bounds::MOST_PLAYERS;
use super::group_reader::{PLAYER_KEYS, ReadGroup, group_of, play_together, read_groups};
use super::list::{ClassList, Listed, Named, NotUnderstood, Player};
use super::takes_reader::{Takes, read_takes};
use crate::brass::{AgeBand, Instrument};
use crate::carry::CarryRule;
use crate::routine::broken_row::Dialect;
use crate::routine::fields::{Fields, whole_number};
use crate::routine::reader::unknown_instrument;
use crate::routine::{Fault, Guide, Span, document};
use crate::score::TakeTempo;
use crate::words::tell;
use toml::de::DeValue;

const HEAD_KEYS: [&str; 10] = [
    "format", "title", "tempo", "key", "guide", "carry", "language", "names", "group", "player",
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

fn read_head(mut head: Fields<'_, '_>, valid: bool, faults: &mut Vec<Fault>) -> Option<ClassList> {
    if head.table.is_empty() {
        if valid {
            faults.push(Fault::new(head.at, tell::no_class_list()).hint(tell::class_list_begins()));
        }
        return None;
    }
    head.unknown((&PLAYER_KEYS, tell::to_a_player()));
    document::format(&mut head);
    let format = head.get("format").and_then(|e| whole_number(e.value));
    let title = head.text("title", "Tuesday brass").map(|(title, _)| title);
    let defaults = Takes {
        tempos: vec![TakeTempo::AS_WRITTEN],
        keys: vec![0],
        guides: vec![Guide::Together],
        carry: CarryRule::Partials,
        language: None,
        names: None,
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

fn read_players(head: &mut Fields<'_, '_>, of_all: &Takes, groups: &[ReadGroup]) -> Vec<Listed> {
    let mut players: Vec<Listed> = Vec::new();
    let Some(entry) = head.get("player") else {
        head.missing("player", tell::no_players(), tell::write_a_player());
        return players;
    };
    let DeValue::Array(array) = entry.value else {
        head.wrong(entry, tell::player_opened_twice(), tell::player_own_row());
        return players;
    };
    if array.len() > MOST_PLAYERS {
        head.wrong(
            entry,
            tell::too_many_players(array.len(), MOST_PLAYERS),
            tell::list_for_each_class(),
        );
        return players;
    }
    let mut names: Vec<(String, Span)> = Vec::new();
    for item in array.iter() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults
                .push(Fault::new(span, tell::player_opened()).hint(tell::player_own_row()));
            continue;
        };
        let fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &PLAYER_KEYS,
            broken: head.broken,
            names: head.names,
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
    fields.unknown((&HEAD_KEYS[..2], tell::to_head_of_file()));
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
            tell::no_routine_of_player(),
            tell::name_a_routine(),
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
            names: takes.names,
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
        fields.missing("name", tell::player_without_name(), tell::nickname_enough());
    }
    if let Some((name, span)) = &name {
        let small = name.to_lowercase();
        if let Some((_, first)) = names.iter().find(|(other, _)| *other == small) {
            fields.faults.push(
                Fault::new(*span, tell::two_players_called(name))
                    .also(*first, tell::the_first_player())
                    .hint(tell::tell_them_apart()),
            );
        }
        names.push((small, *span));
    }
    name
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
            Fault::new(span, tell::age_cannot_be(placed.text.trim())).hint(tell::age_can_be()),
        );
    }
    age
}
