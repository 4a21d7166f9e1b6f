//! Byte ranges (RFC 9110, section 14).

/// The most ranges of a request. No player needs as many; a request for more gets the whole file.
const MOST: usize = 8;

/// The part of a file that is requested.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RequestedRange {
    /// The whole file.
    All,
    /// These ranges, each as its first byte and one past its last, in the requested order. Never empty.
    Parts(Vec<(u64, u64)>),
    /// Only bytes beyond the end of the file.
    Unsatisfiable,
}

/// Parses the field for a file of `length` bytes. A value that is not a valid byte range is ignored.
pub fn parse(field: &str, length: u64) -> RequestedRange {
    let Some((unit, set)) = field.split_once('=') else {
        return RequestedRange::All;
    };
    if !unit.trim().eq_ignore_ascii_case("bytes") {
        return RequestedRange::All;
    }
    let mut parts = vec![];
    for spec in set
        .split(',')
        .map(str::trim)
        .filter(|spec| !spec.is_empty())
    {
        let Some(part) = spec_of(spec, length) else {
            return RequestedRange::All;
        };
        parts.push(part);
        if parts.len() > MOST {
            return RequestedRange::All;
        }
    }
    if parts.is_empty() {
        return RequestedRange::All;
    }
    let parts: Vec<(u64, u64)> = parts.into_iter().filter(|(from, to)| from < to).collect();
    // Ranges that overlap so much that their sum exceeds the file are answered with the whole file.
    let sum: u128 = parts.iter().map(|(from, to)| u128::from(to - from)).sum();
    match parts.len() {
        0 => RequestedRange::Unsatisfiable,
        _ if sum > u128::from(length) => RequestedRange::All,
        _ => RequestedRange::Parts(parts),
    }
}

/// The range meant by `0-99`, `100-` or `-100`, empty if it is beyond the file; `None` if it is not a range.
fn spec_of(spec: &str, length: u64) -> Option<(u64, u64)> {
    let (first, last) = spec.split_once('-')?;
    let (first, last) = (first.trim(), last.trim());
    if first.is_empty() {
        let suffix = number(last)?.min(length);
        return Some((length - suffix, length));
    }
    let first = number(first)?;
    let end = if last.is_empty() {
        length
    } else {
        let last = number(last)?;
        if last < first {
            return None;
        }
        last.saturating_add(1).min(length)
    };
    Some((first.min(end), end))
}

/// A number of any length; one beyond 64 bits becomes the largest.
fn number(text: &str) -> Option<u64> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    digits.then(|| text.parse().unwrap_or(u64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of RFC 9110, section 14.1.2, for a file of 10,000 bytes, and edge cases.
    #[test]
    fn ranges_are_read_as_the_standard_says() {
        let parts = |parts: &[(u64, u64)]| RequestedRange::Parts(parts.to_vec());
        for (field, expected) in [
            ("bytes=0-499", parts(&[(0, 500)])),
            ("bytes=500-999", parts(&[(500, 1000)])),
            ("bytes=-500", parts(&[(9500, 10_000)])),
            ("bytes=9500-", parts(&[(9500, 10_000)])),
            ("bytes=0-0,-1", parts(&[(0, 1), (9999, 10_000)])),
            (
                "bytes= 0-999, 4500-5499, -1000",
                parts(&[(0, 1000), (4500, 5500), (9000, 10_000)]),
            ),
            ("bytes=9999-", parts(&[(9999, 10_000)])),
            ("bytes=9999-20000", parts(&[(9999, 10_000)])),
            ("bytes=-20000", parts(&[(0, 10_000)])),
            ("bytes=0-99999999999999999999999", parts(&[(0, 10_000)])),
            ("Bytes=0-0", parts(&[(0, 1)])),
            ("bytes=10000-", RequestedRange::Unsatisfiable),
            ("bytes=10000-10001", RequestedRange::Unsatisfiable),
            (
                "bytes=99999999999999999999999-",
                RequestedRange::Unsatisfiable,
            ),
            ("bytes=-0", RequestedRange::Unsatisfiable),
            ("bytes=20000-, 0-1", parts(&[(0, 2)])),
            ("bytes=5-4", RequestedRange::All),
            ("bytes=a-b", RequestedRange::All),
            ("bytes=-", RequestedRange::All),
            ("bytes=", RequestedRange::All),
            ("bytes", RequestedRange::All),
            ("bytes=+1-2", RequestedRange::All),
            ("bytes=1--2", RequestedRange::All),
            ("lines=0-1", RequestedRange::All),
            ("bytes=0-,0-", RequestedRange::All),
            (
                "bytes=0-1,0-1,0-1,0-1,0-1,0-1,0-1,0-1,0-1",
                RequestedRange::All,
            ),
        ] {
            assert_eq!(parse(field, 10_000), expected, "{field}");
        }
        assert_eq!(parse("bytes=0-", 0), RequestedRange::Unsatisfiable);
        assert_eq!(parse("bytes=-1", 0), RequestedRange::Unsatisfiable);
    }
}
