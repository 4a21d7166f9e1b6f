//! How bright each family sounds.
//!
//! Source: G. Sandell, SHARC timbre data set, steady tones from the McGill University recordings, one player an
//! instrument: medians over pitch of the centroid of harmonics weighted by amplitude, computed from its tables of
//! harmonics (computed). Dynamics are not stated there; the guide is read at mf. A loose check: ±30 %.

use leadpipe::brass::Family;
use leadpipe::synth::spectrum::Timbre;

/// Brightness of the guide at mf, 5 dB below forte.
const MF: f64 = 0.81;

fn centroid(family: Family, midi: i32) -> f64 {
    let f0 = 440.0 * (f64::from(midi - 69) / 12.0).exp2();
    let amplitudes = Timbre::Horn(family).amplitudes(f0, MF, (16_000.0 / f0) as usize);
    let sum: f64 = amplitudes.iter().sum();
    let weighted: f64 = (1..)
        .zip(&amplitudes)
        .map(|(k, a)| f64::from(k) * f0 * a)
        .sum();
    weighted / sum
}

#[test]
fn centroids_are_near_the_published_ones() {
    // Lowest and highest sounding note measured, MIDI, and the median in Hz.
    for (family, low, high, published) in [
        (Family::Trumpet, 54, 87, 1_880.0), // F#3 to E-flat 6
        (Family::Trombone, 40, 75, 930.0),  // E2 to E-flat 5
        (Family::Horn, 38, 74, 720.0),      // D2 to D5
        (Family::Tuba, 36, 67, 380.0),      // C2 to G4
    ] {
        let mut all: Vec<f64> = (low..=high).map(|midi| centroid(family, midi)).collect();
        all.sort_unstable_by(f64::total_cmp);
        let median = all[all.len() / 2];
        let apart = median / published - 1.0;
        println!(
            "{family:?}: {median:.0} Hz, published {published} Hz, {:+.0} %",
            100.0 * apart
        );
        assert!(apart.abs() < 0.3, "{family:?}: {median:.0} Hz");
    }
}

/// No figures were found for the euphonium; it is expected between tuba and trombone.
#[test]
fn a_euphonium_lies_between_tuba_and_trombone() {
    for midi in 40..=70 {
        let [tuba, euphonium, trombone] = [Family::Tuba, Family::Euphonium, Family::Trombone]
            .map(|family| centroid(family, midi));
        assert!(
            1.2 * tuba < euphonium && 1.2 * euphonium < trombone,
            "{midi}"
        );
    }
}
