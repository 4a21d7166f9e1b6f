//! The closing report of a class: a table by player, files of earlier runs, who was left out, and advice for the
//! teacher.

use super::roster::{LeftOut, Ready, Roster};
use crate::command::Failure;
use crate::command::console::Console;
use crate::command::table::Table;
use crate::handout::folder;
use crate::render::batch::End;
use crate::render::reuse::record::Record;
use crate::render::{Finished, RenderFailure, TrackOutcome};
use crate::words::{count, duration};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// The most names that are listed; more are counted.
const MOST_NAMED: usize = 8;

/// The finished tracks of each player.
pub fn by_player<'e>(ready: &[&Ready<'_>], end: &'e End) -> Vec<Vec<&'e Finished>> {
    let mut finished = end.finished.iter().peekable();
    let mut next = 0;
    let of_player = |player: &&Ready<'_>| {
        next += player.plan.takes.len();
        let mut its = vec![];
        while let Some(track) = finished.next_if(|track| track.track < next) {
            its.push(track);
        }
        its
    };
    ready.iter().map(of_player).collect()
}

/// Writes the table, whoever is left out first, and says what was done and what is advised. What the machine saved is
/// said only if `verbose`.
pub fn tell(
    console: &mut Console,
    ready: &[&Ready<'_>],
    done: &[Vec<&Finished>],
    left_out: &[&LeftOut],
    verbose: bool,
) -> Result<(), Failure> {
    let mut columns = vec![
        ("Player", false),
        ("Routine", false),
        ("Marks", true),
        ("Tracks", true),
        ("Length", true),
        ("", false),
    ];
    if verbose {
        columns.push(("Lines rendered", true));
    }
    let mut table = Table::new(&columns);
    for LeftOut { name, why, .. } in left_out {
        let mut row = vec![String::new(); columns.len()];
        row[0].clone_from(name);
        row[5] = format!("left out: {why}");
        table.row(row);
    }
    for (player, done) in ready.iter().zip(done) {
        let of = |number: fn(&Finished) -> usize| done.iter().map(|f| number(f)).sum::<usize>();
        let mut row = row(player, done);
        if verbose {
            row.push(format!("{} of {}", of(|f| f.rendered), of(|f| f.lines)));
        }
        table.row(row);
    }
    console.data(&table.lines())?;
    console.say(&in_all(ready.len(), &done.concat(), verbose));
    for player in ready {
        if let Some(advice) = &player.advice {
            console.say(format!("A suggestion: {} {}.", player.name, advice.words()));
        }
    }
    Ok(())
}

/// What a player's row says: name, routine, marks, tracks, length, and what was done.
pub fn row(player: &Ready<'_>, done: &[&Finished]) -> Vec<String> {
    let marks = match player.edition().marks().len() {
        0 => String::new(),
        marks => marks.to_string(),
    };
    let (there, all) = (done.len(), player.plan.takes.len());
    let tracks = if there == all {
        all.to_string()
    } else {
        format!("{there} of {all}")
    };
    let first = player.plan.takes.first();
    vec![
        player.name.clone(),
        player.edition().played().title.clone(),
        marks,
        tracks,
        first.map_or_else(String::new, |take| duration(take.report.summary.seconds)),
        made(done),
    ]
}

/// `80 tracks of 40 players: 12 new, 68 unchanged.`; with `verbose` also how many lines were rendered and files packed.
fn in_all(players: usize, done: &[&Finished], verbose: bool) -> String {
    let tracks = count(done.len(), "track", "tracks");
    let players = count(players, "player", "players");
    if !verbose {
        return match made(done).as_str() {
            "" => format!("{tracks} of {players}."),
            made => format!("{tracks} of {players}: {made}."),
        };
    }
    let rendered: usize = done.iter().map(|f| f.rendered).sum();
    let lines: usize = done.iter().map(|f| f.lines).sum();
    let lines = count(lines, "line", "lines");
    let mut said = format!("{tracks} of {players}: {rendered} of {lines} rendered");
    let files = done.iter().flat_map(|f| &f.files);
    let packed: Vec<bool> = files.filter_map(|file| file.packed).collect();
    if !packed.is_empty() {
        let anew = packed.iter().filter(|packed| **packed).count();
        let files = count(packed.len(), "file", "files");
        said += &format!(", {anew} of {files} packed");
    }
    said + ", the others shared or there already."
}

/// `2 new`, `1 unchanged, 1 again`.
fn made(done: &[&Finished]) -> String {
    let number = |of: fn(&TrackOutcome) -> bool| done.iter().filter(|f| of(&f.made)).count();
    let parts = [
        (number(|m| *m == TrackOutcome::Unchanged), "unchanged"),
        (number(|m| *m == TrackOutcome::New), "new"),
        (number(|m| matches!(m, TrackOutcome::Again { .. })), "again"),
    ];
    let parts = parts.iter().filter(|(n, _)| *n > 0);
    let parts: Vec<String> = parts.map(|(n, what)| format!("{n} {what}")).collect();
    parts.join(", ")
}

/// Reports tracks of earlier runs in players' folders that are no longer wanted, and folders in `out` of players who are
/// not in the list. `known` are the names of all players' folders.
pub fn earlier_runs(
    console: &mut Console,
    ready: &[&Ready<'_>],
    known: &[String],
    out: &Path,
) -> Result<(), RenderFailure> {
    let mut left: Vec<(&&Ready<'_>, usize)> = vec![];
    for player in ready {
        let names = player.plan.takes.iter().map(|take| take.name.as_str());
        let others = folder::others(&player.folder, names)?;
        if others > 0 {
            left.push((player, others));
        }
    }
    if !left.is_empty() {
        let others: usize = left.iter().map(|(_, others)| others).sum();
        let whose = left
            .iter()
            .map(|(player, others)| format!("{} {others}", player.name));
        console.say(format!(
            "{} of earlier runs, not asked for now and not on the pages: {}. They stay until you take them away.",
            count(others, "track", "tracks"),
            named(whose)
        ));
    }
    let mut strangers = strangers(out, known)?;
    if !strangers.is_empty() {
        strangers.sort();
        console.say(format!(
            "In {} {} of players who are not in this list: {}.",
            out.display(),
            count(strangers.len(), "is a folder", "folders are"),
            named(strangers.into_iter())
        ));
    }
    Ok(())
}

/// Folders with leadpipe's tracks that belong to no player in the list.
fn strangers(out: &Path, known: &[String]) -> Result<Vec<String>, RenderFailure> {
    let mut strangers = vec![];
    let entries = match fs::read_dir(out) {
        // Nobody has a folder.
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(strangers),
        entries => entries.map_err(RenderFailure::reading(out))?,
    };
    for entry in entries {
        let entry = entry.map_err(RenderFailure::reading(out))?;
        let Ok(name) = entry.file_name().into_string() else {
            continue;
        };
        if !known.contains(&name) && !Record::tracks(&entry.path())?.is_empty() {
            strangers.push(name);
        }
    }
    Ok(strangers)
}

/// Names the players who were left out, at the very end: their problems were shown far above.
pub fn left_out(console: &mut Console, roster: &Roster<'_>, list_too: bool) {
    let mut parts = vec![];
    if !roster.left_out.is_empty() {
        let players = roster.left_out.iter();
        let players = players.map(|left| format!("{} ({})", left.name, left.why));
        parts.push(format!("no tracks for {}", named(players)));
    }
    if !roster.unfit.is_empty() {
        parts.push(format!("marks of {}", named(roster.unfit.iter().cloned())));
    }
    if list_too {
        parts.push("what is not understood in the list".to_owned());
    }
    console.complain(format!("left out: {}", parts.join("; ")), None);
}

fn named(names: impl Iterator<Item = String>) -> String {
    let names: Vec<String> = names.collect();
    let more = names.len().saturating_sub(MOST_NAMED);
    let said = names[..names.len() - more].join(", ");
    match more {
        0 => said,
        more => format!("{said} and {more} more"),
    }
}
