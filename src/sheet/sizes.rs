//! How large things are printed.

use crate::brass::Instrument;

/// Length of a staff space of a staff of 7 mm, as in printed parts, which reads from a music stand.
pub const SPACE: f64 = 4.96;
/// The smallest staff that is still read from a stand.
pub const SMALLEST_STAFF_MM: f64 = 6.0;

/// How much larger positions are on a phone than on paper.
const POSITIONS_ON_PHONE: f64 = 1.6;

const POINTS_IN_MM: f64 = 72.0 / 25.4;

/// Sizes in points. A size of text is that of its font.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// A staff space.
    pub space: f64,
    /// The title.
    pub title: f64,
    /// The purpose under it.
    pub purpose: f64,
    /// Instrument, tempo and length.
    pub facts: f64,
    /// The name of a line.
    pub name: f64,
    /// How to play a line, and its rests.
    pub said: f64,
    /// What is read while playing: tempo, words at notes and over passes.
    pub at_notes: f64,
    /// Fingerings and positions at notes.
    pub fingerings: f64,
    /// The caution and the words in the routine's shape.
    pub small: f64,
    /// A staff space of the small staff of the head and of the fingering chart.
    pub small_space: (f64, f64),
    /// Height of the routine's shape.
    pub shape: f64,
    /// What greys are taken times: less than 1 darkens them.
    pub greys: f64,
    /// What an uneven system costs: less than 1 lets them be uneven.
    pub evenness: f64,
    /// The empty border of a page, and the one at its foot, where the number of the page stands.
    pub margins: (f64, f64),
    /// True if as many bars as can be read go into a system.
    pub tight: bool,
}

impl Sizes {
    /// For a music stand, 70 cm away.
    pub const NORMAL: Sizes = Sizes {
        space: SPACE,
        title: 24.0,
        purpose: 12.0,
        facts: 10.0,
        name: 12.5,
        said: 10.0,
        at_notes: 9.5,
        fingerings: 9.5,
        small: 8.0,
        small_space: (4.0, 3.4),
        shape: 128.0,
        greys: 1.0,
        evenness: 1.0,
        margins: (40.0, 48.0),
        tight: false,
    };

    /// Large print: a staff of 9 mm, no text smaller than 14 points, darker greys.
    pub const LARGE: Sizes = Sizes {
        space: 9.0 / 4.0 * POINTS_IN_MM,
        title: 30.0,
        purpose: 16.0,
        facts: 14.0,
        name: 18.0,
        said: 14.0,
        at_notes: 14.0,
        fingerings: 14.0,
        small: 14.0,
        small_space: (5.6, 5.0),
        shape: 220.0,
        greys: 0.6,
        evenness: 0.25,
        margins: (40.0, 48.0),
        tight: false,
    };

    /// The same with a staff of another height, and everything near together.
    pub fn tight(self, staff_mm: f64) -> Self {
        Sizes {
            space: staff_mm / 4.0 * POINTS_IN_MM,
            title: self.title * 0.85,
            name: self.name * 0.92,
            said: self.said * 0.95,
            shape: self.shape * 0.7,
            margins: (28.0, 36.0),
            tight: true,
            ..self
        }
    }

    /// For a phone: positions of a slide are read at arm's length, with a trombone between.
    pub fn on_phone(self, instrument: &Instrument) -> Self {
        let fingerings = match instrument.has_slide() {
            true => POSITIONS_ON_PHONE * self.fingerings,
            false => self.fingerings,
        };
        Sizes { fingerings, ..self }
    }

    /// Size of what is read while playing, in staff spaces.
    pub fn words(self) -> f64 {
        self.at_notes / self.space
    }

    /// A grey as it is printed.
    pub fn grey(self, shade: u8) -> u8 {
        (f64::from(shade) * self.greys) as u8
    }
}
