//! The texts of the built-in routines, by name.

use super::levels::{self, STARTER};
use crate::brass::Level;

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
pub const ALL: [Preset; 29] = presets![
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
    "pedal-tones",
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

/// The usual routine of each level, the easiest first. Tests that render, and benches, keep to these six: the others
/// hold nothing that sounds or is printed in another way.
pub fn usual() -> impl Iterator<Item = &'static Preset> {
    let levels = Level::all().map(levels::routine_of);
    let names = std::iter::once(STARTER).chain(levels);
    names.map(|name| named(name).expect("a test names it"))
}

/// True for routines of players who have not reached level 1 yet.
pub fn is_starter(preset: &Preset) -> bool {
    preset.name.starts_with(STARTER)
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
