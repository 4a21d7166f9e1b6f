//! Which one in order: `3rd`, "third".

use super::{Language, Words, say, tell};

/// In figures: `1st`, `2nd`, `3rd`, `11th`.
pub fn in_figures(n: usize) -> Words {
    tell::nth_in_figures(english(n), n)
}

fn english(n: usize) -> String {
    let ending = match (n % 100, n % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{n}{ending}")
}

/// In words up to the fifth, then in figures: "first", "second", "6th".
pub fn in_words(n: usize) -> String {
    nth(Language::En, n)
}

/// In words up to the twelfth, then in figures: "sixth", "eleventh", "13th".
pub fn written_out(n: usize) -> Words {
    tell::nth_written_out(all_letters(n), n)
}

/// The same in English.
pub fn all_letters(n: usize) -> String {
    const MORE: [&str; 7] = [
        "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth",
    ];
    match n.checked_sub(6).and_then(|at| MORE.get(at)) {
        Some(word) => (*word).to_owned(),
        None => in_words(n),
    }
}

/// For a player, as the language writes it: "first", "2nd", "3.".
pub fn nth(language: Language, n: usize) -> String {
    say::nth(language, n, english(n))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_follow_the_last_word_of_the_number() {
        let said: Vec<String> = [1, 2, 3, 4, 11, 12, 13, 21, 102, 111]
            .map(|n| in_figures(n).to_string())
            .to_vec();
        let right = "1st 2nd 3rd 4th 11th 12th 13th 21st 102nd 111th";
        assert_eq!(said.join(" "), right);
        assert_eq!(
            [1, 5, 6, 21].map(in_words),
            ["first", "fifth", "6th", "21st"]
        );
    }
}
