//! Lists: `a, b and c`.

use super::{Language, Words, say, tell};

/// `a`, `a and b`, `a, b and c`, in English.
pub fn and(items: &[impl AsRef<str>]) -> String {
    and_in(Language::En, items)
}

/// `a`, `a and b`, `a, b and c`, for a player.
pub fn and_in(language: Language, items: &[impl AsRef<str>]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => say::list_and(language, commas(most), last.as_ref()),
    }
}

/// `a`, `a or b`, `a, b or c`.
pub fn or(items: &[impl AsRef<str>]) -> Words {
    match items {
        [] => Words::default(),
        [one] => one.as_ref().into(),
        [most @ .., last] => tell::list_or(commas(most), last.as_ref()),
    }
}

/// `a`, `a and b`, `a, b and c`, for a teacher.
pub fn all(items: &[Words]) -> Words {
    match items {
        [] => Words::default(),
        [one] => one.clone(),
        [most @ .., last] => tell::list_all(Words::joined(most, ", "), last),
    }
}

/// `a`, `a or b`, `a, b or c`, for a teacher.
pub fn any(items: &[Words]) -> Words {
    match items {
        [] => Words::default(),
        [one] => one.clone(),
        [most @ .., last] => tell::list_or(Words::joined(most, ", "), last),
    }
}

/// No more than `most` of them: `a, b and c`, `a, b, c and 5 more`.
pub fn and_more(items: &[impl AsRef<str>], most: usize) -> Words {
    match items.len().saturating_sub(most) {
        0 => Words::of(|language| and_in(language, items)),
        more => tell::list_more(commas(&items[..most]), more),
    }
}

fn commas(items: &[impl AsRef<str>]) -> String {
    let items: Vec<&str> = items.iter().map(AsRef::as_ref).collect();
    items.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_of_a_list_is_joined_by_a_word() {
        assert_eq!(and(&[] as &[&str]), "");
        assert_eq!(and(&["a"]), "a");
        assert_eq!(and(&["a", "b"]), "a and b");
        assert_eq!(
            or(&["a".to_owned(), "b".to_owned(), "c".to_owned()]),
            "a, b or c"
        );
    }

    #[test]
    fn a_long_list_ends_in_how_many_are_left() {
        assert_eq!(and_more(&["a", "b", "c"], 3), "a, b and c");
        assert_eq!(
            and_more(&["a", "b", "c", "d", "e"], 3),
            "a, b, c and 2 more"
        );
    }
}
