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
use crate::words::{Words, count, duration, tell};
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
        (tell::heading_player(), false),
        (tell::heading_routine(), false),
        (tell::heading_marks(), true),
        (tell::heading_tracks(), true),
        (tell::heading_length(), true),
        (Words::default(), false),
    ];
    if verbose {
        columns.push((tell::heading_lines_rendered(), true));
    }
    let mut table = Table::new(&columns);
    for LeftOut { name, why, .. } in left_out {
        let mut row = vec![Words::default(); columns.len()];
        row[0] = name.into();
        row[5] = tell::left_out_because(why);
        table.row(row);
    }
    for (player, done) in ready.iter().zip(done) {
        let of = |number: fn(&Finished) -> usize| done.iter().map(|f| number(f)).sum::<usize>();
        let mut row = row(player, done);
        if verbose {
            row.push(tell::some_of(of(|f| f.rendered), of(|f| f.lines)));
        }
        table.row(row);
    }
    console.data(&table.lines(console.language()))?;
    console.say(in_all(ready.len(), &done.concat(), verbose));
    for player in ready {
        if let Some(advice) = &player.advice {
            console.say(tell::suggestion(&player.name, advice.words()));
        }
    }
    Ok(())
}

/// What a player's row says: name, routine, marks, tracks, length, and what was done.
pub fn row(player: &Ready<'_>, done: &[&Finished]) -> Vec<Words> {
    let marks = match player.edition().marks().len() {
        0 => String::new(),
        marks => marks.to_string(),
    };
    let (there, all) = (done.len(), player.plan.takes.len());
    let tracks = if there == all {
        all.to_string().into()
    } else {
        tell::some_of(there, all)
    };
    let first = player.plan.takes.first();
    vec![
        player.name.clone().into(),
        player.edition().played().title.clone().into(),
        marks.into(),
        tracks,
        first.map_or_else(Words::default, |take| {
            duration(take.report.summary.seconds).into()
        }),
        made(done),
    ]
}

/// `80 tracks of 40 players: 12 new, 68 unchanged.`; with `verbose` also how many lines were rendered and files packed.
fn in_all(players: usize, done: &[&Finished], verbose: bool) -> Words {
    let tracks = count::tracks(done.len());
    let players = count::players(players);
    if !verbose {
        let made = made(done);
        return match made.is_empty() {
            true => tell::tracks_of_players(tracks, players),
            false => tell::tracks_of_players_made(tracks, players, made),
        };
    }
    let rendered: usize = done.iter().map(|f| f.rendered).sum();
    let lines: usize = done.iter().map(|f| f.lines).sum();
    let lines = count::lines(lines);
    let mut said = tell::lines_rendered(&tracks, &players, rendered, &lines);
    let files = done.iter().flat_map(|f| &f.files);
    let packed: Vec<bool> = files.filter_map(|file| file.packed).collect();
    if !packed.is_empty() {
        let anew = packed.iter().filter(|packed| **packed).count();
        let files = count::files(packed.len());
        said = said.then(tell::files_packed(anew, files));
    }
    said.then(tell::others_shared())
}

/// `2 new`, `1 unchanged, 1 again`.
fn made(done: &[&Finished]) -> Words {
    let number = |of: fn(&TrackOutcome) -> bool| done.iter().filter(|f| of(&f.made)).count();
    let (unchanged, new) = (
        number(|m| *m == TrackOutcome::Unchanged),
        number(|m| *m == TrackOutcome::New),
    );
    let again = number(|m| matches!(m, TrackOutcome::Again { .. }));
    let parts = [
        (unchanged, tell::n_unchanged(unchanged)),
        (new, tell::n_new(new)),
        (again, tell::n_again(again)),
    ];
    let parts = parts.into_iter().filter(|(n, _)| *n > 0);
    let parts: Vec<Words> = parts.map(|(_, said)| said).collect();
    Words::joined(&parts, ", ")
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
            .map(|(player, others)| format!("{} {others}", player.name).into());
        console.say(tell::tracks_stay(count::tracks(others), named(whose)));
    }
    let mut strangers = strangers(out, known)?;
    if !strangers.is_empty() {
        strangers.sort();
        console.say(tell::strangers_folders(
            out.display().to_string(),
            strangers.len(),
            named(strangers.into_iter().map(Into::into)),
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
        let players = players.map(|left| tell::name_and_why(&left.name, &left.why));
        parts.push(tell::no_tracks_for(named(players)));
    }
    if !roster.unfit.is_empty() {
        parts.push(tell::marks_of_players(named(
            roster.unfit.iter().map(Into::into),
        )));
    }
    if list_too {
        parts.push(tell::not_understood_in_list());
    }
    console.complain(tell::left_out_parts(Words::joined(&parts, "; ")), None);
}

fn named(names: impl Iterator<Item = Words>) -> Words {
    let names: Vec<Words> = names.collect();
    let more = names.len().saturating_sub(MOST_NAMED);
    let said = Words::joined(&names[..names.len() - more], ", ");
    match more {
        0 => said,
        more => tell::and_more_of(said, more),
    }
}
