//! Sizes of files.

/// A size on disk: `48.2 MB`.
pub fn size(bytes: u64) -> String {
    format!("{:.1} MB", bytes as f64 / 1e6)
}

#[cfg(test)]
mod tests {
    use super::size;

    #[test]
    fn sizes_are_in_megabytes() {
        assert_eq!(size(48_150_000), "48.1 MB");
        assert_eq!(size(0), "0.0 MB");
    }
}
