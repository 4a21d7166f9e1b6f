//! How loud everything is: set once here, never measured or changed per take.
//!
//! Loudness is K-weighted (ITU-R BS.1770-5), of one channel; played on both loudspeakers a track reads
//! 3 LU more. While it sounds, the guide at mf reads about −17.5 LUFS; a routine at mostly mf, with its
//! gaps and softer lines, about −19, which is −16 on two loudspeakers: the built-in ones read −15.6 to −16.6
//! (`tests/tracks/built_in.rs`).
//!
//! The drone lies 17 LU below the guide at mf: in the ear, never in the way. It may not be much louder:
//! the meter leaves out what is 10 LU below the mean, and where a line rests with click and drone for as long
//! as it plays the mean is some 4 LU below the guide. Louder than −31.5 LUFS together, click and drone would
//! count, and such a routine would read 2 LU less than one that rests in silence.
//!
//! Clicks are short, −38 LUFS; what counts is their peak, in a region where the guide has little.
//!
//! | voice | level | peak |
//! |---|---|---|
//! | guide, mf | −17.5 LUFS, RMS 0.116 | 0.2 |
//! | guide, the loudest there is | 8.6 dB above mf | 0.56 |
//! | drone | −34.5 LUFS | 0.05 |
//! | click | | 0.19 |
//! | accented click | | 0.27 |
//! | signs | | 0.10 |
//!
//! The peaks of guide, drone and accented click together, 0.889, stay below −1 dBTP (0.891) with no limiter.

/// RMS of the guide held at forte (0 dB in the timeline): 5 dB above mf.
pub const FORTE_RMS: f64 = 0.116 * 1.778_279_41;
/// The mouthpiece against the horn, dB: alone it is a small sound.
pub const MOUTHPIECE_DB: f64 = -4.0;
/// dB against forte up to which loudness is as written; above it saturates (Fletcher and Tarnopolsky,
/// JASA 105:874, 1999: level rises no more than 3 dB once the player is loud).
const SATURATION_DB: f64 = 3.0;
/// What saturation lets through at most, dB.
const SATURATION_ROOM_DB: f64 = 0.65;
/// Loudness of the drone, LUFS in one channel.
pub const DRONE_LUFS: f64 = -34.5;
/// Peak of a click.
pub const CLICK_PEAK: f64 = 0.19;
/// Peak of an accented click.
pub const ACCENTED_PEAK: f64 = 0.27;
/// Peak of a sign's tones.
pub const SIGN_PEAK: f64 = 0.10;
/// RMS of a breath of the air lines at its height.
pub const SWELL_RMS: f64 = 0.04;

/// The level that sounds, dB against forte, for one that is asked for with all its accents and drift.
pub fn saturated_db(db: f64) -> f64 {
    let over = db - SATURATION_DB;
    if over <= 0.0 {
        db
    } else {
        SATURATION_DB + over / (1.0 + over / SATURATION_ROOM_DB)
    }
}

/// Loudness in LUFS of a steady tone in one channel, from its partials' peak amplitudes.
pub fn tone_lufs(f0: f64, amplitudes: &[f64]) -> f64 {
    let power: f64 = amplitudes
        .iter()
        .enumerate()
        .map(|(i, a)| k_weight((i + 1) as f64 * f0) * a * a / 2.0)
        .sum();
    -0.691 + 10.0 * libm::log10(power)
}

/// Gain in power of K-weighting at `hz`: the two filters of BS.1770 as printed, for 48 kHz.
pub fn k_weight(hz: f64) -> f64 {
    let shelf = power_gain(
        [
            1.535_124_859_586_97,
            -2.691_696_189_406_38,
            1.198_392_810_852_85,
        ],
        [1.0, -1.690_659_293_182_41, 0.732_480_774_215_85],
        hz,
    );
    let high_pass = power_gain(
        [1.0, -2.0, 1.0],
        [1.0, -1.990_047_454_833_98, 0.990_072_250_366_21],
        hz,
    );
    shelf * high_pass
}

/// |H|² at `hz` of a filter of second order at 48 kHz.
fn power_gain(above: [f64; 3], below: [f64; 3], hz: f64) -> f64 {
    let w = 2.0 * std::f64::consts::PI * hz / 48_000.0;
    let power = |c: [f64; 3]| {
        let (s1, c1) = libm::sincos(w);
        let (s2, c2) = libm::sincos(2.0 * w);
        let re = c[0] + c[1] * c1 + c[2] * c2;
        let im = c[1] * s1 + c[2] * s2;
        re * re + im * im
    };
    power(above) / power(below)
}

/// Scales `sound` to a peak, a linear level.
pub fn scaled(mut sound: Vec<f32>, peak: f64) -> Vec<f32> {
    let now = sound.iter().fold(0.0f32, |m, x| m.max(x.abs()));
    let gain = peak as f32 / now;
    sound.iter_mut().for_each(|x| *x *= gain);
    sound
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ITU-R BS.1770-5: a sine of 997 Hz at 0 dBFS in one channel reads −3.01 LKFS.
    #[test]
    fn k_weighting_reads_as_the_standard_says() {
        assert!((tone_lufs(997.0, &[1.0]) + 3.01).abs() < 0.005);
        assert!((tone_lufs(997.0, &[0.1]) + 23.01).abs() < 0.005);
    }

    #[test]
    fn loudness_saturates_only_above_forte() {
        assert_eq!(saturated_db(-18.0), -18.0);
        assert_eq!(saturated_db(3.0), 3.0);
        let mut last = 3.0;
        for tenth in 31..400 {
            let now = saturated_db(f64::from(tenth) / 10.0);
            assert!(now > last && now < 4.5);
            last = now;
        }
    }
}
