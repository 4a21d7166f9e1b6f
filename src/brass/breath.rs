//! How long one breath lasts: lung volumes by age, and how much air a note takes.
//!
//! Lung volumes: J. L. Hankinson et al., Am. J. Respir. Crit. Care Med. 159:179 (1999). Flows:
//! V. Fréour et al. (2010), mean flows of trumpet players between 0.18 and 0.63 L/s. Those players were
//! adults, so the figures for children are estimates: good enough for advice, never for an error.

use super::{comfort::Level, instrument::Instrument};
use crate::music::{Dynamic, WrittenPitch};
use crate::words::{Words, tell};
use std::fmt;

/// The age of a player, as precisely as the length of a breath depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AgeBand {
    /// 8 to 10 years.
    EightToTen,
    /// 11 to 13 years.
    ElevenToThirteen,
    /// 14 to 16 years.
    FourteenToSixteen,
    /// 17 years and older, and the default.
    Adult,
}

/// The part of the forced vital capacity that a player uses in comfort. A choice of ours: nobody plays
/// from full lungs to empty ones.
pub const COMFORTABLE_PART: f64 = 0.5;

/// Mean flow in litres a second at each dynamic mark, softest first. The ends are Fréour's range. The
/// steps between them are a choice: each louder mark adds more than the one before it.
const FLOW: [(Dynamic, f64); 6] = [
    (Dynamic::Pp, 0.18),
    (Dynamic::P, 0.20),
    (Dynamic::Mp, 0.22),
    (Dynamic::Mf, 0.25),
    (Dynamic::F, 0.38),
    (Dynamic::Ff, 0.63),
];

/// How much more air notes below the lowest easy one take, on a trumpet those below C4. A choice: Fréour measured the highest flow on a low and loud note.
const LOW_FACTOR: f64 = 1.1;

impl AgeBand {
    /// The words on the command line.
    pub const WORDS: [(&'static str, AgeBand); 4] = [
        ("8-10", AgeBand::EightToTen),
        ("11-13", AgeBand::ElevenToThirteen),
        ("14-16", AgeBand::FourteenToSixteen),
        ("adult", AgeBand::Adult),
    ];

    /// Reads one of [`AgeBand::WORDS`].
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim().replace('–', "-");
        let word = Self::WORDS.iter().find(|(word, _)| *word == text);
        word.map(|&(_, band)| band)
    }

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            AgeBand::EightToTen => "8-10",
            AgeBand::ElevenToThirteen => "11-13",
            AgeBand::FourteenToSixteen => "14-16",
            AgeBand::Adult => "adult",
        }
    }

    /// The player in a sentence: "a pupil of 8–10".
    pub fn who(self) -> Words {
        tell::whose_breath(self.word().replace('-', "–"))
    }

    /// The age in years and the height in cm that the band is calculated with: the middle year (18 for
    /// adults) and the median height of girls of that age in the growth charts of the CDC (2000), quoted
    /// from memory.
    pub fn years_and_height_cm(self) -> (f64, f64) {
        match self {
            AgeBand::EightToTen => (9.0, 133.1),
            AgeBand::ElevenToThirteen => (12.0, 151.2),
            AgeBand::FourteenToSixteen => (15.0, 161.8),
            AgeBand::Adult => (18.0, 163.2),
        }
    }

    /// Litres of air in one comfortable breath.
    pub fn breath_litres(self) -> f64 {
        let (years, cm) = self.years_and_height_cm();
        COMFORTABLE_PART * vital_capacity_litres(years, cm)
    }
}

impl fmt::Display for AgeBand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Forced vital capacity in litres at an age of `years` and a height of `cm`, from 8 to 18 years:
/// Hankinson's curve for girls. At these ages it is the lower of the two, so nobody is asked for more air
/// than they have, and nobody is asked for their sex.
pub fn vital_capacity_litres(years: f64, cm: f64) -> f64 {
    -1.2082 + 0.05916 * years + 0.000_148_15 * cm * cm
}

/// Litres of air a second that a note takes on an instrument at a loudness of `level_db` (relative to forte, see
/// [`Dynamic::level_db`]). Between two marks the flow is interpolated linearly over the decibels. A note
/// without pitch counts as one in the middle register.
pub fn flow_litres_a_second(
    instrument: &Instrument,
    level_db: f64,
    pitch: Option<WrittenPitch>,
) -> f64 {
    let lowest_easy = Level::all().next().map(|level| level.open_top(instrument));
    let low = pitch
        .zip(lowest_easy)
        .is_some_and(|(pitch, easy)| pitch.number() < easy.number());
    instrument.air * flow_at(level_db) * if low { LOW_FACTOR } else { 1.0 }
}

fn flow_at(level_db: f64) -> f64 {
    let (softest, loudest) = (FLOW[0], FLOW[FLOW.len() - 1]);
    if level_db <= softest.0.level_db() {
        return softest.1;
    }
    let step = FLOW
        .windows(2)
        .find(|pair| level_db <= pair[1].0.level_db());
    step.map_or(loudest.1, |pair| {
        let (from, to) = (pair[0].0.level_db(), pair[1].0.level_db());
        let part = (level_db - from) / (to - from);
        pair[0].1 + part * (pair[1].1 - pair[0].1)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flow(level_db: f64, pitch: Option<WrittenPitch>) -> f64 {
        let trumpet = Instrument::named("trumpet").unwrap();
        flow_litres_a_second(trumpet, level_db, pitch)
    }

    #[test]
    fn louder_and_lower_take_more_air_and_nothing_leaves_the_published_range() {
        let flows: Vec<f64> = Dynamic::ALL
            .iter()
            .map(|d| flow(d.level_db(), None))
            .collect();
        assert!(flows.windows(2).all(|w| w[0] < w[1]));
        assert_eq!((flows[0], flows[5]), (0.18, 0.63));
        assert_eq!(flow(-60.0, None), 0.18);
        assert_eq!(flow(20.0, None), 0.63);
        let low = WrittenPitch::parse("A3");
        let middle = WrittenPitch::parse("C4");
        let mf = Dynamic::Mf.level_db();
        assert!(flow(mf, low) > flow(mf, middle));
        assert_eq!(flow(mf, middle), 0.25);
    }

    #[test]
    fn a_hairpin_lies_between_its_ends() {
        let half_way = (Dynamic::Mf.level_db() + Dynamic::F.level_db()) / 2.0;
        assert!((flow(half_way, None) - 0.315).abs() < 1e-9);
    }

    #[test]
    fn older_pupils_have_longer_breaths() {
        let litres: Vec<f64> = AgeBand::WORDS.iter().map(|b| b.1.breath_litres()).collect();
        assert!(litres.windows(2).all(|w| w[0] < w[1]), "{litres:?}");
    }

    #[test]
    fn bands_print_as_they_are_read() {
        for (word, band) in AgeBand::WORDS {
            assert_eq!(AgeBand::parse(word), Some(band));
            assert_eq!(band.to_string(), word);
        }
        assert_eq!(AgeBand::parse("8–10"), Some(AgeBand::EightToTen));
        assert_eq!(AgeBand::parse("12"), None);
    }
}
