//! How long a breath lasts.

use crate::{near, trumpet};
use leadpipe::brass::AgeBand;
use leadpipe::brass::breath::{COMFORTABLE_PART, flow_litres_a_second, vital_capacity_litres};
use leadpipe::music::Dynamic;

/// Age in years; median height of girls in cm (growth charts of the CDC, 2000; memory); seconds on
/// one breath at 0.18 and at 0.30 L/s with half the vital capacity (computed from Hankinson et al.,
/// Am. J. Respir. Crit. Care Med. 159:179 (1999): girls under 18
/// −1.2082 + 0.05916a + 0.00014815h², coefficients seen in published code).
const SECONDS: [(f64, f64, f64, f64); 6] = [
    (8.0, 128.0, 4.7, 2.8),
    (10.0, 138.2, 6.1, 3.7),
    (12.0, 151.2, 8.0, 4.8),
    (14.0, 160.2, 9.5, 5.7),
    (16.0, 162.3, 10.1, 6.1),
    (18.0, 163.2, 10.6, 6.3),
];

#[test]
fn seconds_on_one_breath_are_those_of_the_printed_table() {
    for (years, cm, soft, middle) in SECONDS {
        let litres = COMFORTABLE_PART * vital_capacity_litres(years, cm);
        // Heights are medians of memory: a centimetre is a tenth of a second.
        near(litres / 0.18, soft, 0.06);
        near(litres / 0.30, middle, 0.06);
    }
}

/// The boys' curve of the same paper, under 20: −0.2584 − 0.20415a + 0.010133a² + 0.00018642h².
fn boys(years: f64, cm: f64) -> f64 {
    -0.2584 - 0.20415 * years + 0.010133 * years * years + 0.000_186_42 * cm * cm
}

#[test]
fn the_curve_that_is_used_is_the_lower_one() {
    for (years, cm, ..) in SECONDS {
        assert!(
            vital_capacity_litres(years, cm) <= boys(years, cm),
            "at {years}"
        );
    }
}

/// V. Fréour et al. (2010), trumpet: mean flows of 0.18 to 0.63 L/s, a peak of 0.95 (seen).
#[test]
fn flows_stay_within_what_was_measured() {
    let flows = Dynamic::ALL.map(|d| flow_litres_a_second(trumpet(), d.level_db(), None));
    assert_eq!((flows[0], flows[5]), (0.18, 0.63));
    assert!(flows.windows(2).all(|pair| pair[0] < pair[1]));
    let low_and_loud = flow_litres_a_second(
        trumpet(),
        Dynamic::Ff.level_db(),
        leadpipe::music::WrittenPitch::parse("F#3"),
    );
    assert!(low_and_loud <= 0.95);
}

/// A band's breath lies between those of the ages at its ends.
#[test]
fn age_bands_lie_within_the_table() {
    for (band, from, to) in [
        (AgeBand::EightToTen, 0, 1),
        (AgeBand::ElevenToThirteen, 1, 3),
        (AgeBand::FourteenToSixteen, 3, 4),
    ] {
        let seconds = band.breath_litres() / 0.30;
        assert!(
            (SECONDS[from].3..=SECONDS[to].3).contains(&seconds),
            "{band}"
        );
    }
    near(AgeBand::Adult.breath_litres() / 0.30, 6.3, 0.06);
}
