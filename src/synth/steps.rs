//! From frames to the whole steps that stand in a file.

/// The nearest of 2^16 steps, full scale at ±1, halves to even, without dither; what is beyond full scale stays there.
///
/// Adding one and a half times 2^23 to an `f32` below 2^22 rounds it to a whole number, halves to
/// even, and leaves that number in the lowest bits: many frames go through at once, which they do not
/// through `round` and a cast.
#[inline]
pub fn to_sixteen(frame: f32) -> i16 {
    const ROUND: f32 = 12_582_912.0;
    let scaled = (frame * 32_768.0).clamp(-32_768.0, 32_767.0);
    (scaled + ROUND).to_bits() as i16
}

/// The nearest of 2^24 steps, as above with the constant of an `f64`.
#[inline]
pub fn to_twenty_four(frame: f32) -> i32 {
    const ROUND: f64 = 6_755_399_441_055_744.0;
    let scaled = (f64::from(frame) * 8_388_608.0).clamp(-8_388_608.0, 8_388_607.0);
    (scaled + ROUND).to_bits() as i32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_are_rounded_to_the_nearest_step_and_stay_in_scale() {
        for (frame, step) in [
            (0.0, 0),
            (1.0, 32_767),
            (-1.0, -32_768),
            (7.5, 32_767),
            (-7.5, -32_768),
            (f32::INFINITY, 32_767),
            (1.49 / 32_768.0, 1),
            (1.51 / 32_768.0, 2),
            (-1.51 / 32_768.0, -2),
            (0.5, 16_384),
        ] {
            assert_eq!(to_sixteen(frame), step, "{frame}");
        }
        assert_eq!(to_sixteen(f32::NAN), 0);
        assert_eq!(to_twenty_four(1.0), 8_388_607);
        assert_eq!(to_twenty_four(-2.0), -8_388_608);
        assert_eq!(to_twenty_four(-3.4 / 8_388_608.0), -3);
    }
}
