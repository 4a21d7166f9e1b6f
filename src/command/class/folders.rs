//! Assigns folders to players. A folder keeps its owner when other players join the class.

use crate::class::{ClassList, Listed};
use crate::command::console::Console;
use crate::edition::name::{self, Names};
use crate::handout::owner;
use crate::render::RenderFailure;
use crate::words::tell;
use std::path::Path;

/// The folder of each player in the list, `None` for a player without a name. Players who are not understood get one too,
/// so that correcting them moves no other folder. Says who gets a folder other than the name would give.
///
/// # Errors
/// If it cannot be read whose a folder is.
pub fn give(
    console: &mut Console,
    list: &ClassList,
    out: &Path,
) -> Result<Vec<Option<String>>, RenderFailure> {
    let owned = owner::folders(out)?;
    let own = |player: &str| owned.iter().find(|(_, owner)| owner == player);
    let players: Vec<Option<&str>> = list.players.iter().map(named).collect();
    let mut names = Names::default();
    // Players who have a folder keep it.
    let mut folders: Vec<Option<String>> = players
        .iter()
        .map(|player| player.and_then(own).map(|(folder, _)| names.give(folder)))
        .collect();
    for (player, folder) in players.iter().zip(&mut folders) {
        let (Some(player), None) = (player, &folder) else {
            continue;
        };
        let wanted = name::player_slug(player);
        let owner_of = |name: &str| owned.iter().find(|(folder, _)| folder == name);
        let given = names.give_free(&wanted, |name| owner_of(name).is_none());
        if let (true, Some((_, owner))) = (given != wanted, owner_of(&wanted)) {
            console.say(tell::gets_folder(player, &given, &wanted, owner));
        }
        *folder = Some(given);
    }
    Ok(folders)
}

fn named(listed: &Listed) -> Option<&str> {
    match listed {
        Listed::Player(player) => Some(&player.name),
        Listed::NotUnderstood(player) => player.name.as_deref(),
    }
}
