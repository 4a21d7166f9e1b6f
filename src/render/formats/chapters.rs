//! Chapter times in milliseconds.

/// The millisecond nearest to a frame.
pub fn milliseconds(frame: u64, sample_rate: u32) -> u64 {
    let rate = u64::from(sample_rate);
    (frame * 1000 + rate / 2) / rate
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_go_to_the_nearest_millisecond() {
        assert_eq!(milliseconds(0, 44_100), 0);
        assert_eq!(milliseconds(22_050, 44_100), 500);
        assert_eq!(milliseconds(22, 44_100), 0);
        assert_eq!(milliseconds(23, 44_100), 1);
        assert_eq!(milliseconds(4 * 3600 * 48_000, 48_000), 4 * 3_600_000);
    }
}
