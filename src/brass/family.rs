//! Families of brass instruments: what sounds alike.

/// An instrument's family, by bore and bell. Instruments of one family share a tone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Trumpets of every size.
    Trumpet,
    /// Cornets, the soprano in E-flat among them.
    Cornet,
    /// The flugelhorn.
    Flugelhorn,
    /// Horns in F and in B-flat.
    Horn,
    /// The tenor horn in E-flat and the baritone.
    TenorHorn,
    /// The euphonium.
    Euphonium,
    /// Tenor and bass trombones.
    Trombone,
    /// Tubas of every size.
    Tuba,
}

impl Family {
    /// Every family, high instruments first.
    pub const ALL: [Family; 8] = [
        Family::Trumpet,
        Family::Cornet,
        Family::Flugelhorn,
        Family::Horn,
        Family::TenorHorn,
        Family::Euphonium,
        Family::Trombone,
        Family::Tuba,
    ];

    /// How many times as long as a trumpet's an attack is, apart from its periods. With them, on the notes that each
    /// family plays most, it lies within the times that Meyer gives to full sound (Acoustics and the Performance of
    /// Music; from memory): trumpet 20 to 40 ms, horn 30 to 80, trombone 30 to 60, euphonium 40 to 70, tuba 50 to 90.
    pub fn attack_factor(self) -> f64 {
        match self {
            Family::Trumpet => 1.0,
            Family::Cornet => 1.1,
            Family::Trombone => 1.2,
            Family::Flugelhorn | Family::Tuba => 1.3,
            Family::TenorHorn => 1.4,
            Family::Horn | Family::Euphonium => 1.7,
        }
    }
}
