//! The routines that come with the program.

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

/// All built-in routines, easiest first.
pub const ALL: [Preset; 6] = presets![
    "first-sounds",
    "first-steps",
    "second-steps",
    "third-steps",
    "fourth-steps",
    "fifth-steps",
];

/// The routine that is rendered or copied if none is named. Most pupils can play it.
pub const DEFAULT: &str = "second-steps";

/// The routine of that name.
pub fn named(name: &str) -> Option<&'static Preset> {
    ALL.iter().find(|preset| preset.name == name)
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
