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
}
