//! The end of a class: a table by player, and what may be suggested to the teacher.

use super::roster::Ready;
use crate::command::Failure;
use crate::command::console::Console;
use crate::command::table::Table;
use crate::command::text::{count, duration};
use crate::render::batch::End;
use crate::render::{Finished, Made};

/// Writes the table, and says what was done and what may be suggested.
pub fn tell(console: &mut Console, ready: &[Ready], end: &End) -> Result<(), Failure> {
    let mut table = Table::new(&[
        ("Player", false),
        ("Routine", false),
        ("Marks", true),
        ("Tracks", true),
        ("Length", true),
        ("Lines rendered", true),
        ("", false),
    ]);
    let (mut rendered, mut lines) = (0, 0);
    for player in ready {
        let of_player = |f: &&Finished| {
            let mut files = f.files.iter();
            files.any(|(path, _)| path.starts_with(&player.folder))
        };
        let done: Vec<&Finished> = end.finished.iter().filter(of_player).collect();
        let of = |number: fn(&Finished) -> usize| done.iter().map(|f| number(f)).sum::<usize>();
        let (its_rendered, its_lines) = (of(|f| f.rendered), of(|f| f.lines));
        rendered += its_rendered;
        lines += its_lines;
        table.row(vec![
            player.name.clone(),
            player.version.routine.title.clone(),
            player.version.marks().len().to_string(),
            format!("{} of {}", done.len(), player.takes.len()),
            player
                .takes
                .first()
                .map_or_else(String::new, |take| duration(take.summary.seconds)),
            format!("{its_rendered} of {its_lines}"),
            made(&done),
        ]);
    }
    console.data(&table.lines())?;
    let tracks = count(end.finished.len(), "track", "tracks");
    let players = count(ready.len(), "player", "players");
    console.say(&format!(
        "{tracks} of {players}: {rendered} of {} rendered, the others shared or there already.",
        count(lines, "line", "lines")
    ));
    for player in ready {
        if let Some(advice) = &player.advice {
            console.say(&format!(
                "A suggestion: {} {}.",
                player.name,
                advice.words()
            ));
        }
    }
    Ok(())
}

/// `2 new`, `1 unchanged, 1 again`.
fn made(done: &[&Finished]) -> String {
    let number = |of: fn(&Made) -> bool| done.iter().filter(|f| of(&f.made)).count();
    let parts = [
        (number(|m| *m == Made::Unchanged), "unchanged"),
        (number(|m| *m == Made::New), "new"),
        (number(|m| matches!(m, Made::Again { .. })), "again"),
    ];
    let parts = parts.iter().filter(|(n, _)| *n > 0);
    let parts: Vec<String> = parts.map(|(n, what)| format!("{n} {what}")).collect();
    parts.join(", ")
}
