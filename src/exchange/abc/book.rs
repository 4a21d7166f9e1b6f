//! The tunes of a file.

use crate::problem::Problem;

/// The most tunes.
const MOST_TUNES: usize = 20_000;

/// True if a text begins as ABC does, or has the two fields that every tune has.
pub(super) fn is_abc(text: &str) -> bool {
    let mut rows = rows(text).map(|(_, row)| row);
    if text.trim_start().starts_with("%abc") {
        return true;
    }
    rows.any(|row| row.starts_with("X:")) && self::rows(text).any(|(_, row)| row.starts_with("K:"))
}

/// Rows with their numbers from 1, whatever ends them.
fn rows(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let rows = text.split('\n').flat_map(|row| {
        let row = row.strip_suffix('\r').unwrap_or(row);
        row.split('\r')
    });
    (1..).zip(rows)
}

/// A tune: its rows, from the field of its number on.
pub(super) struct Tune<'t> {
    /// The number in its field `X:`, as it is written.
    number: &'t str,
    title: &'t str,
    /// What the whole file says before the first tune.
    pub shared: Vec<&'t str>,
    pub rows: Vec<&'t str>,
}

/// All tunes of a file.
pub(super) struct Book<'t> {
    tunes: Vec<Tune<'t>>,
}

impl<'t> Book<'t> {
    pub fn of(text: &'t str) -> Result<Self, Problem> {
        let mut tunes: Vec<Tune<'t>> = vec![];
        let mut shared = vec![];
        // Between an empty row and the next number there is free text.
        let mut over = false;
        for (_, row) in rows(text) {
            if let Some(number) = row.strip_prefix("X:") {
                over = false;
                tunes.push(Tune {
                    number: plain(number),
                    title: "",
                    shared: vec![],
                    rows: vec![],
                });
                if tunes.len() > MOST_TUNES {
                    return Err(Problem::error(format!(
                        "it holds more than {MOST_TUNES} tunes, which no warm-up needs"
                    )));
                }
                continue;
            }
            let Some(tune) = tunes.last_mut() else {
                shared.push(row);
                continue;
            };
            over |= row.trim().is_empty();
            if over {
                continue;
            }
            if let (Some(title), "") = (row.strip_prefix("T:"), tune.title) {
                tune.title = plain(title);
            }
            tune.rows.push(row);
        }
        // Fields before the first number hold for all tunes, up to the first empty row.
        let end = shared.iter().position(|row| row.trim().is_empty());
        shared.truncate(end.unwrap_or(shared.len()));
        if tunes.is_empty() {
            // A tune alone may have no number.
            let rows = shared.clone();
            let titles = rows.iter().find_map(|row| row.strip_prefix("T:"));
            if !rows.iter().any(|row| row.starts_with("K:")) {
                return Err(Problem::error("there is no tune in it")
                    .hint("a tune in ABC begins with a row X: and its number"));
            }
            tunes.push(Tune {
                number: "1",
                title: titles.map_or("", plain),
                shared: vec![],
                rows,
            });
        } else {
            for tune in &mut tunes {
                tune.shared.clone_from(&shared);
                // Many tunes do not copy a long head each.
                tune.shared.truncate(50);
            }
        }
        Ok(Self { tunes })
    }

    /// The tune that is wanted.
    pub fn choose(&self, wanted: Option<&str>) -> Result<&Tune<'t>, Problem> {
        let Some(wanted) = wanted.map(str::trim) else {
            return match self.tunes.as_slice() {
                [one] => Ok(one),
                _ => Err(
                    Problem::error(format!("it holds several tunes: {}", self.list()))
                        .hint("choose with --part, by number or title: --part 1"),
                ),
            };
        };
        let number = |tune: &&Tune<'_>| same_number(tune.number, wanted);
        let title = |tune: &&Tune<'_>| tune.title.to_lowercase() == wanted.to_lowercase();
        let several = |what: &str| {
            Problem::error(format!(
                "several tunes have the {what} {wanted}: {}",
                self.list()
            ))
        };
        let mut numbered = self.tunes.iter().filter(number);
        match (numbered.next(), numbered.next()) {
            (Some(tune), None) => return Ok(tune),
            (Some(_), Some(_)) => {
                return Err(several("number").hint("choose by title: --part \"Title\""));
            }
            (None, _) => {}
        }
        let mut titled = self.tunes.iter().filter(title);
        match (titled.next(), titled.next()) {
            (Some(tune), None) => Ok(tune),
            (Some(_), Some(_)) => Err(several("title").hint("choose by number: --part 1")),
            (None, _) => Err(Problem::error(format!("there is no tune “{wanted}” in it"))
                .hint(format!("there is {}", self.list()))),
        }
    }

    fn list(&self) -> String {
        const MOST: usize = 40;
        let shown = self.tunes.iter().take(MOST).map(|tune| {
            let title: String = tune.title.chars().take(60).collect();
            let number: String = tune.number.chars().take(12).collect();
            format!("{number} {title}").trim().to_owned()
        });
        let mut shown: Vec<String> = shown.collect();
        if self.tunes.len() > MOST {
            shown.push(format!("and {} more", self.tunes.len() - MOST));
        }
        shown.join("; ")
    }
}

/// True for one number, whatever zeros it begins with.
fn same_number(a: &str, b: &str) -> bool {
    let plain = |text: &str| text.trim_start_matches('0').to_owned();
    let number = b.chars().all(|c| c.is_ascii_digit()) && !b.is_empty();
    number && plain(a) == plain(b)
}

/// The value of a field, without the comment after it.
pub(super) fn plain(text: &str) -> &str {
    let end = text
        .char_indices()
        .find(|(at, c)| *c == '%' && !text[..*at].ends_with('\\'))
        .map_or(text.len(), |(at, _)| at);
    text[..end].trim()
}
