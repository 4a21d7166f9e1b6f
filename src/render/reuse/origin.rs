//! Which routine a track belongs to, so that it never replaces a track of another routine with the same title.
//!
//! A routine is identified by the relative path from the folder of the tracks to its file, so that both can be
//! moved together. A routine that is not a file is identified by its name.

use super::record::Record;
use crate::edition::Plan;
use crate::edition::name::Names;
use crate::render::failure::RenderFailure;
use std::cell::OnceCell;
use std::path::{Component, Path, PathBuf};

/// The origin of the routine in `file`, for records in `folder`.
pub fn of_file(file: &Path, folder: &Path) -> String {
    let absolute = |path: &Path| std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    // The folder may not exist yet: links are resolved in the part of the path that exists.
    let file = file.canonicalize().unwrap_or_else(|_| absolute(file));
    let folder = existing(&absolute(folder));
    let way = between(&folder, &file).unwrap_or(file);
    way.to_string_lossy().replace('\\', "/")
}

/// True if the record of the track called `name` in `folder` says that it belongs to another routine than
/// `origin`. If that routine's file no longer exists, it was moved or renamed: then any routine of its title
/// may replace the track.
///
/// # Errors
/// If there is a record that cannot be read.
fn is_of_another(folder: &Path, name: &str, origin: &str) -> Result<bool, RenderFailure> {
    let Some(recorded) = Record::load(folder, name)?.and_then(|record| record.origin) else {
        return Ok(false);
    };
    if recorded == origin {
        return Ok(false);
    }
    let is_file = recorded.ends_with(".toml") || recorded.contains('/');
    Ok(!is_file || folder.join(&recorded).exists())
}

/// The first of the names `wanted`, `wanted-2`, … that gives no take of the plan the name of a track in `folder` that
/// belongs to another routine than `origin`.
///
/// # Errors
/// If there is a record that cannot be read.
pub fn free_name(
    names: &mut Names,
    wanted: &str,
    plan: &Plan<'_>,
    folder: &Path,
    origin: &str,
) -> Result<String, RenderFailure> {
    let unread = OnceCell::new();
    let is_taken = |name: String| {
        is_of_another(folder, &name, origin).unwrap_or_else(|failure| {
            let _ = unread.set(failure);
            false
        })
    };
    let name = names.give_free(wanted, |stem| !plan.names(stem).any(is_taken));
    match unread.into_inner() {
        Some(failure) => Err(failure),
        None => Ok(name),
    }
}

/// The path, with links resolved in the part of it that exists.
fn existing(path: &Path) -> PathBuf {
    for there in path.ancestors() {
        if let Ok(followed) = there.canonicalize() {
            let rest = path.strip_prefix(there).unwrap_or(Path::new(""));
            return followed.join(rest);
        }
    }
    path.to_owned()
}

/// The relative path from one absolute path to another, or `None` if they have no common root.
fn between(from: &Path, to: &Path) -> Option<PathBuf> {
    let (from, to): (Vec<Component<'_>>, Vec<Component<'_>>) =
        (from.components().collect(), to.components().collect());
    let common = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    if common == 0 {
        return None;
    }
    let up = from[common..].iter().map(|_| Component::ParentDir);
    Some(up.chain(to[common..].iter().copied()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_routine_is_named_by_the_way_to_its_file() {
        let way = |from: &str, to: &str| {
            let way = between(Path::new(from), Path::new(to));
            way.map(|way| way.to_string_lossy().into_owned())
        };
        assert_eq!(way("/a/out", "/a/b.toml").as_deref(), Some("../b.toml"));
        assert_eq!(way("/a", "/a/b.toml").as_deref(), Some("b.toml"));
        assert_eq!(way("/a/b/c", "/d/e").as_deref(), Some("../../../d/e"));
    }

    #[test]
    fn the_folder_need_not_be_there() {
        let place = tempfile::tempdir().unwrap();
        let file = place.path().join("a.toml");
        std::fs::write(&file, "").unwrap();
        let folder = place.path().join("new/tracks");
        assert_eq!(of_file(&file, &folder), "../../a.toml");
        std::fs::create_dir_all(&folder).unwrap();
        assert_eq!(of_file(&file, &folder), "../../a.toml");
    }
}
