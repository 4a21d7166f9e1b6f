//! Suggestions for what is not understood.

/// The known word nearest to `word`, if it is near enough to be a typing error.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let longest_slip = match word.chars().count() {
        0..=2 => 1,
        3..=5 => 2,
        _ => 3,
    };
    let distance = |k: &str| {
        if word.chars().count() >= 3 && k.starts_with(word.as_str()) {
            return 1;
        }
        strsim::damerau_levenshtein(&word, &k.to_lowercase())
    };
    known
        .into_iter()
        .map(|k| (distance(k), k))
        .filter(|(d, k)| *d <= longest_slip && *d < k.chars().count())
        .min_by_key(|(d, _)| *d)
        .map(|(_, k)| k)
}

/// The only number in a text, as it is written.
pub fn number_in(text: &str) -> Option<&str> {
    let digit = |c: char| c.is_ascii_digit();
    let start = text.find(digit)?;
    let end = text[start..]
        .find(|c: char| !digit(c) && c != '.')
        .map_or(text.len(), |i| start + i);
    (!text[end..].contains(digit)).then(|| text[start..end].trim_end_matches('.'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_understood_and_other_words_are_not() {
        let known = ["whole", "half", "quarter", "eighth", "sixteenth"];
        assert_eq!(nearest("haf", known), Some("half"));
        assert_eq!(nearest("quater", known), Some("quarter"));
        assert_eq!(nearest("eigth", known), Some("eighth"));
        assert_eq!(nearest("six", known), Some("sixteenth"));
        assert_eq!(nearest("trombone", known), None);
    }
}
