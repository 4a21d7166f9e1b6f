//! Removes the comments of a routine's text: they are the teacher's own notes, and the page goes to a pupil.

/// The same text, row by row, without what follows a `#` outside of quotes (TOML 1.0).
pub fn bare(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['#', '"', '\'']) {
        out.push_str(&rest[..at]);
        rest = &rest[at..];
        let skipped = if rest.starts_with('#') {
            let end = rest.find(['\n', '\r']).unwrap_or(rest.len());
            let kept = out.trim_end_matches([' ', '\t']).len();
            out.truncate(kept);
            rest = &rest[end..];
            continue;
        } else {
            quoted(rest)
        };
        out.push_str(&rest[..skipped]);
        rest = &rest[skipped..];
    }
    out + rest
}

/// Length in bytes of the string at the beginning of `text`, with its quotes.
fn quoted(text: &str) -> usize {
    let quote = &text[..1];
    let long = quote.repeat(3);
    let (opened, closing) = if text.starts_with(&long) {
        (3, long.as_str())
    } else {
        (1, quote)
    };
    let mut at = opened;
    while at < text.len() {
        let rest = &text[at..];
        if quote == "\"" && rest.starts_with('\\') {
            // An escaped character does not close the string.
            at += 1 + rest[1..].chars().next().map_or(0, char::len_utf8);
        } else if rest.starts_with(closing) {
            at += closing.len();
            // Up to two quotes may come right before the closing ones.
            while opened == 3 && text[at..].starts_with(quote) {
                at += 1;
            }
            return at;
        } else if opened == 1 && rest.starts_with('\n') {
            // The string is not closed. The routine reader reports that; the next row is read as usual.
            return at;
        } else {
            at += rest.chars().next().map_or(1, char::len_utf8);
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Examples for TOML 1.0, sections on comments and strings.
    #[test]
    fn comments_go_and_strings_stay() {
        let text = "a = 1 # mine\n# Anna is shy\nb = \"#\\\"#\" # x\nc = 'C:\\#' #y\r\nd = \"\"\"one # two\n\
                    \"# three\"\"\"\"# z\ne = '''#'''#\nf = [1, # one\n 2]\n";
        let bare = bare(text);
        assert_eq!(
            bare,
            "a = 1\n\nb = \"#\\\"#\"\nc = 'C:\\#'\r\nd = \"\"\"one # two\n\"# three\"\"\"\"\ne = '''#'''\nf = [1,\n 2]\n"
        );
        for text in [text, &bare] {
            assert!(toml::de::DeTable::parse(text).is_ok(), "{text}");
        }
        assert_eq!(super::bare(&bare), bare);
    }

    #[test]
    fn built_in_routines_sound_as_before() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/presets");
        let mut seen = 0;
        for entry in std::fs::read_dir(folder).expect("it is there") {
            let path = entry.expect("it can be listed").path();
            let text = std::fs::read_to_string(path).expect("it can be read");
            let bare = bare(&text);
            assert!(text.contains("leadpipe does not read it") && !bare.contains("leadpipe"));
            let sound = |text: &str| {
                let routine = crate::routine::read(text).expect("it is a routine");
                let said: Vec<_> = routine
                    .lines
                    .iter()
                    .map(|l| (l.name.clone(), l.say.clone()))
                    .collect();
                let score = crate::score::unroll(&routine, &crate::score::Take::default());
                let settings = crate::timeline::compile::Settings {
                    sample_rate: 44_100,
                    signs: true,
                };
                let timeline =
                    crate::timeline::compile::compile(&score.expect("it unrolls"), &settings);
                (
                    said,
                    crate::render::reuse::fingerprint::Fingerprint::of(&timeline).whole,
                )
            };
            assert_eq!(sound(&text), sound(&bare));
            seen += 1;
        }
        assert_eq!(seen, crate::presets::ALL.len());
    }
}
