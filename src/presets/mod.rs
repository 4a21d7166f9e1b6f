//! The routines that come with the program, what their notes ask for, and which of them suits a player.

pub mod choose;
pub mod facts;
pub mod one_note;

use crate::brass::Level;
use facts::Facts;
use std::sync::OnceLock;

/// A built-in routine.
#[derive(Clone, Copy, Debug)]
pub struct Preset {
    /// Its name.
    pub name: &'static str,
    /// Its file.
    pub text: &'static str,
}

macro_rules! presets {
    ($($name:literal),* $(,)?) => {
        [$(Preset {
            name: $name,
            text: include_str!(concat!("../../presets/", $name, ".toml")),
        }),*]
    };
}

/// All built-in routines, the easiest level first; of a level the usual one first. `-b` is the same level with other
/// lines, `-short` takes five minutes, `-young` is for ages 8 to 10.
pub const ALL: [Preset; 28] = presets![
    "first-sounds",
    "first-sounds-b",
    "first-sounds-short",
    "first-sounds-young",
    "first-steps",
    "first-steps-b",
    "first-steps-short",
    "first-steps-young",
    "second-steps",
    "second-steps-b",
    "second-steps-short",
    "second-steps-young",
    "tongue-speed",
    "soft-and-loud",
    "third-steps",
    "third-steps-b",
    "third-steps-short",
    "third-steps-young",
    "scales",
    "minor",
    "songs",
    "double-and-triple",
    "fourth-steps",
    "fourth-steps-b",
    "fourth-steps-short",
    "fifth-steps",
    "fifth-steps-b",
    "fifth-steps-short",
];

/// The routine that is rendered or copied if none is named. Most pupils can play it.
pub const DEFAULT: &str = "second-steps";

/// The routine of that name.
pub fn named(name: &str) -> Option<&'static Preset> {
    ALL.iter().find(|preset| preset.name == name)
}

/// The facts of all built-in routines, in their order. They are computed once.
pub fn facts() -> &'static [Facts] {
    static ALL_FACTS: OnceLock<Vec<Facts>> = OnceLock::new();
    ALL_FACTS.get_or_init(|| ALL.iter().map(Facts::of).collect())
}

/// The usual routine of each level, the easiest first. Tests that render, and benches, keep to these six: the others
/// hold nothing that sounds or is printed in another way.
pub fn usual() -> impl Iterator<Item = &'static Preset> {
    let levels = Level::all().map(choose::routine_of);
    let names = std::iter::once(choose::STARTER).chain(levels);
    names.map(|name| named(name).expect("a test names it"))
}

/// True for routines of players who have not reached level 1 yet.
pub fn is_starter(preset: &Preset) -> bool {
    preset.name.starts_with(choose::STARTER)
}

/// The whole warm-ups of a level, `None` being before level 1.
fn whole(level: Option<Level>) -> impl Iterator<Item = &'static Facts> {
    facts().iter().filter(move |facts| {
        let starts = is_starter(&facts.preset);
        let of_level = if starts { None } else { Some(facts.level()) };
        facts.is_whole() && of_level == level
    })
}

/// The routine for players who have not reached level 1 yet.
fn starter() -> &'static Facts {
    let mut all = facts().iter();
    all.find(|facts| facts.preset.name == choose::STARTER)
        .expect("a test names it")
}

/// The built-in name that is most like `name`.
pub fn suggestion(name: &str) -> Option<&'static str> {
    let name = name.trim().to_lowercase().replace([' ', '_'], "-");
    let name = name.strip_suffix(".toml").unwrap_or(&name);
    ALL.iter()
        .map(|preset| (strsim::damerau_levenshtein(name, preset.name), preset.name))
        .filter(|(distance, _)| *distance <= 2)
        .min()
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_misses_are_suggested() {
        assert_eq!(suggestion("Second Steps"), Some("second-steps"));
        assert_eq!(suggestion("secnod-steps.toml"), Some("second-steps"));
        assert_eq!(suggestion("anna"), None);
        assert!(named(DEFAULT).is_some());
    }
}
