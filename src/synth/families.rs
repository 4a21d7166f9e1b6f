//! The tone of each family of horns, one row of numbers each.
//!
//! Four rows are fitted to recorded notes (`tests/recordings`, which says to which, how, and how well each row holds
//! for sets that it never saw). Of cornet, flugelhorn, tenor horn and euphonium no open recordings were found: each
//! of these rows lies between its neighbours, frequencies in octaves and everything else straight, so that they stand
//! in the order that published measurements give for the brassiness of their bores (Myers, Gilbert, Pyle and
//! Campbell, 2007). Their attack and noise, and the mouthpieces of all, are choices by the same order.

use crate::brass::Family;

/// The spectrum of a family over frequency, pitch and brightness, and what else tells it from another. The shape is
/// Fletcher and Tarnopolsky's (JASA 105:874, 1999): an envelope that stands still in frequency while the note moves
/// under it, so that a higher note has fewer strong partials, and that loudness lifts at its upper end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HornTone {
    /// The lowest pitch of its tables, a MIDI note number, a little below its lowest note.
    pub lowest_midi: u8,
    /// Below this the bell radiates 6 dB an octave less, Hz (its radiation as a small source).
    pub bell_hz: f64,
    /// Above this the bell's cutoff and the source's own fall act together, Hz.
    pub fall_hz: f64,
    /// Their fall in dB an octave at sounding B-flat 4, and by how much it is gentler an octave up.
    pub fall_db: f64,
    /// See `fall_db`.
    pub fall_gentler_db: f64,
    /// The formant that mouthpiece and bell add: its middle in Hz.
    pub formant_hz: f64,
    /// Its width in octaves.
    pub formant_octaves: f64,
    /// Its height in dB.
    pub formant_db: f64,
    /// What softness takes away: dB an octave at brightness 0. So each partial grows faster than the one below
    /// (Risset, JASA 38:912, 1965; Beauchamp, 1975), and a narrow bore faster than a wide one.
    pub darkening_db: f64,
    /// Above what frequency softness takes it, Hz.
    pub darkening_hz: f64,
    /// High notes darken less: lips that swing faster need more pressure to swing at all (threshold pressure grows
    /// with frequency: Fletcher and Tarnopolsky). Where it begins to show, Hz.
    pub darkening_less_hz: f64,
    /// The mouthpiece's own resonance, Hz: the larger the cup, the lower.
    pub mouthpiece_hz: f64,
    /// Level against the trumpet's in dB, so that all families are equally loud (K-weighted) at mf. At fortissimo it
    /// saturates as loudness does, which leaves the headroom as it is.
    pub level_db: f64,
    /// How much higher the peaks of its cycles are than there is room for, dB: what saturates is so much lower.
    pub crest_db: f64,
    /// Noise against the trumpet's, dB.
    pub noise_db: f64,
    /// Between what frequencies a tone's noise lies, Hz: it has the shape of the formant.
    pub noise_band_hz: (f64, f64),
    /// Starting phases of the partials, radians.
    pub phases: &'static [f64],
}

impl HornTone {
    /// The tone of a family.
    pub fn of(family: Family) -> &'static HornTone {
        match family {
            Family::Trumpet => &TRUMPET,
            Family::Cornet => &CORNET,
            Family::Flugelhorn => &FLUGELHORN,
            Family::Horn => &HORN,
            Family::TenorHorn => &TENOR_HORN,
            Family::Euphonium => &EUPHONIUM,
            Family::Trombone => &TROMBONE,
            Family::Tuba => &TUBA,
        }
    }
}

/// Starting phases in radians of the first partials, found by a search (steepest descent from random starts) for the
/// lowest peaks over all pitches and layers of the trumpet. They keep the peak of every cycle within 1.83 of its RMS
/// (in use, 1.75), which leaves room for loudness: the ear does not hear these phases.
#[rustfmt::skip]
pub const HIGH_PHASES: [f64; 24] = [
    1.772, 2.458, 6.134, 3.689, 4.662, 5.555, 5.942, 4.819, 3.305, 5.784, 3.060, 0.643,
    2.611, 3.971, 0.019, 4.917, 4.532, 0.482, 0.800, 5.296, 4.191, 5.753, 1.190, 4.859,
];

/// The same for horns whose notes lie lower and have more strong partials, found over all of them for the lowest peaks
/// where they are loud: within 1.7 of the RMS.
#[rustfmt::skip]
const LOW_PHASES: [f64; 64] = [
    2.055, 3.277, 1.896, 4.840, 3.886, 4.430, 0.812, 2.574, 0.983, 6.248, 2.145, 0.649,
    1.322, 4.559, 3.687, 5.083, 1.366, 1.780, 0.198, 3.486, 5.936, 2.999, 2.616, 5.915,
    1.889, 3.453, 5.404, 0.150, 0.406, 0.366, 0.216, 0.018, 1.673, 5.033, 3.303, 3.077,
    1.197, 1.188, 2.384, 3.779, 2.363, 5.955, 3.253, 2.250, 0.635, 5.415, 1.513, 1.086,
    0.045, 3.261, 5.659, 2.335, 0.004, 0.908, 6.093, 4.428, 1.821, 4.683, 5.775, 6.035,
    1.718, 6.081, 3.237, 0.887,
];

/// Trumpets. Fitted to recorded trumpets; Benade put the bell's cutoff at about 1.5 kHz.
static TRUMPET: HornTone = HornTone {
    lowest_midi: 50,
    bell_hz: 500.0,
    fall_hz: 3_150.0,
    fall_db: 22.5,
    fall_gentler_db: 1.75,
    formant_hz: 1_310.0,
    formant_octaves: 0.48,
    formant_db: 3.9,
    darkening_db: 20.0,
    darkening_hz: 600.0,
    darkening_less_hz: 900.0,
    mouthpiece_hz: 850.0,
    level_db: 0.0,
    crest_db: 0.0,
    noise_db: 0.0,
    noise_band_hz: (1_000.0, 3_500.0),
    phases: &HIGH_PHASES,
};

/// Cornets: no recordings. Two fifths of the way from trumpet to flugelhorn.
static CORNET: HornTone = HornTone {
    lowest_midi: 50,
    bell_hz: 420.0,
    fall_hz: 2_625.0,
    fall_db: 23.3,
    fall_gentler_db: 1.61,
    formant_hz: 1_035.0,
    formant_octaves: 0.5,
    formant_db: 4.28,
    darkening_db: 17.0,
    darkening_hz: 540.0,
    darkening_less_hz: 780.0,
    mouthpiece_hz: 800.0,
    level_db: 0.4,
    crest_db: 0.0,
    noise_db: 0.0,
    noise_band_hz: (800.0, 2_900.0),
    phases: &HIGH_PHASES,
};

/// The flugelhorn: no recordings. Half of the way from trumpet to tenor horn.
static FLUGELHORN: HornTone = HornTone {
    lowest_midi: 50,
    bell_hz: 325.0,
    fall_hz: 2_000.0,
    fall_db: 24.5,
    fall_gentler_db: 1.41,
    formant_hz: 725.0,
    formant_octaves: 0.52,
    formant_db: 4.85,
    darkening_db: 14.0,
    darkening_hz: 460.0,
    darkening_less_hz: 630.0,
    mouthpiece_hz: 720.0,
    level_db: 1.1,
    crest_db: 0.0,
    noise_db: 0.0,
    noise_band_hz: (550.0, 2_200.0),
    phases: &HIGH_PHASES,
};

/// Horns. Fitted to three sets, judged by five others.
static HORN: HornTone = HornTone {
    lowest_midi: 26,
    bell_hz: 320.0,
    fall_hz: 730.0,
    fall_db: 14.8,
    fall_gentler_db: 2.2,
    formant_hz: 475.0,
    formant_octaves: 0.45,
    formant_db: 5.6,
    darkening_db: 14.5,
    darkening_hz: 260.0,
    darkening_less_hz: 400.0,
    mouthpiece_hz: 620.0,
    level_db: 1.7,
    crest_db: 0.2,
    noise_db: -4.0,
    noise_band_hz: (360.0, 1_500.0),
    phases: &LOW_PHASES,
};

/// Tenor horn and baritone: no recordings. Three quarters of the way from tuba to trombone.
static TENOR_HORN: HornTone = HornTone {
    lowest_midi: 32,
    bell_hz: 210.0,
    fall_hz: 1_265.0,
    fall_db: 26.5,
    fall_gentler_db: 1.07,
    formant_hz: 400.0,
    formant_octaves: 0.56,
    formant_db: 5.8,
    darkening_db: 14.5,
    darkening_hz: 355.0,
    darkening_less_hz: 440.0,
    mouthpiece_hz: 600.0,
    level_db: 1.6,
    crest_db: 0.0,
    noise_db: 0.0,
    noise_band_hz: (310.0, 1_400.0),
    phases: &LOW_PHASES,
};

/// The euphonium: no recordings. Half of the way from tuba to trombone.
static EUPHONIUM: HornTone = HornTone {
    lowest_midi: 26,
    bell_hz: 175.0,
    fall_hz: 895.0,
    fall_db: 27.1,
    fall_gentler_db: 0.75,
    formant_hz: 265.0,
    formant_octaves: 0.66,
    formant_db: 5.1,
    darkening_db: 11.5,
    darkening_hz: 245.0,
    darkening_less_hz: 385.0,
    mouthpiece_hz: 500.0,
    level_db: 1.8,
    crest_db: 0.0,
    noise_db: 1.0,
    noise_band_hz: (200.0, 1_000.0),
    phases: &LOW_PHASES,
};

/// Trombones. Fitted to two sets, judged by two others, one of them a bass trombone's.
static TROMBONE: HornTone = HornTone {
    lowest_midi: 26,
    bell_hz: 250.0,
    fall_hz: 1_790.0,
    fall_db: 25.8,
    fall_gentler_db: 1.4,
    formant_hz: 610.0,
    formant_octaves: 0.46,
    formant_db: 6.5,
    darkening_db: 22.0,
    darkening_hz: 510.0,
    darkening_less_hz: 500.0,
    mouthpiece_hz: 520.0,
    level_db: 1.4,
    crest_db: 0.0,
    noise_db: 0.0,
    noise_band_hz: (460.0, 2_000.0),
    phases: &LOW_PHASES,
};

/// Tubas. Fitted to two sets, judged by a third.
static TUBA: HornTone = HornTone {
    lowest_midi: 20,
    bell_hz: 125.0,
    fall_hz: 450.0,
    fall_db: 28.4,
    fall_gentler_db: 0.1,
    formant_hz: 115.0,
    formant_octaves: 0.86,
    formant_db: 3.7,
    darkening_db: 11.0,
    darkening_hz: 120.0,
    darkening_less_hz: 300.0,
    mouthpiece_hz: 350.0,
    level_db: 2.0,
    crest_db: 0.0,
    noise_db: 2.0,
    noise_band_hz: (120.0, 700.0),
    phases: &LOW_PHASES,
};
