//! The data for the page's script, in an element that a browser does not run.

use super::bare::bare;
use super::choices::{self, MarkGroup, PageChoice};
use super::content::HandoutPage;
use super::lines::{KeyStrips, WIDTHS};
use crate::handout::escape;
use crate::routine::bounds::LARGEST_FILE;
use crate::sheet::inline::Places;
use crate::sheet::timetable::{TimetableLine, timetable};
use crate::timeline::Settings;
use crate::words::{Language, SCRIPT, say};
use serde::Serialize;
use std::collections::BTreeMap;

/// Width of a line that is drawn large enough to touch its notes, in points.
const WIDTH_TO_TOUCH: f64 = 120.0;

/// The data of a page; `src/handout/engine/protocol.d.ts` declares it for its scripts.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Data<'a> {
    language: &'static str,
    decimal_sign: &'static str,
    words: BTreeMap<&'static str, serde_json::Value>,
    title: &'a str,
    tempo: f64,
    player: Option<&'a str>,
    routine: String,
    pencil: Option<&'a str>,
    sample_rate: u32,
    takes: Vec<Take<'a>>,
    /// By key, then by the index of the line; for a narrow and a wide screen.
    places: BTreeMap<i32, Vec<Option<&'a [Places]>>>,
    widths: Widths,
    keys: Vec<PageChoice>,
    guides: Vec<PageChoice>,
    marks: Vec<MarkGroup>,
    largest_pencil: usize,
}

#[derive(Serialize)]
struct Take<'a> {
    file: String,
    tempo: String,
    key: i32,
    guide: &'a str,
    lines: Vec<TimetableLine>,
}

/// Widths that lines are drawn to, in points.
#[derive(Serialize)]
struct Widths {
    narrow: f64,
    wide: f64,
    touch: f64,
}

/// What the script says, in a language.
fn words(language: Language) -> BTreeMap<&'static str, serde_json::Value> {
    let words = SCRIPT.iter().map(|(key, said)| {
        let words = serde_json::from_str(said[language as usize]);
        (*key, words.expect("the catalogue is written as JSON"))
    });
    words.collect()
}

/// The element that holds the data.
pub fn html(page: &HandoutPage<'_>, strips: &[KeyStrips]) -> String {
    let sample_rate = Settings::default().sample_rate;
    let take = |take: &super::PageTake<'_>| Take {
        file: escape::address(&take.file),
        tempo: take.score.take.tempo.to_string(),
        key: take.score.take.key,
        guide: take.score.take.guide.word(),
        lines: timetable(take.score, sample_rate, |index| take.of[index]),
    };
    let places = strips.iter().map(|strips| {
        let lines = strips
            .lines
            .iter()
            .map(|strip| Some(&*strip.as_ref()?.places));
        (strips.key, lines.collect())
    });
    let language = page.edition.teacher().words_in;
    let data = Data {
        language: language.tag(),
        decimal_sign: say::decimal_sign(language),
        words: words(language),
        title: &page.edition.teacher().title,
        tempo: page.edition.teacher().tempo.as_f64(),
        player: page.whose,
        routine: bare(page.text),
        pencil: page.pencil_text,
        sample_rate,
        takes: page.takes.iter().map(take).collect(),
        places: places.collect(),
        widths: Widths {
            narrow: WIDTHS[0].1,
            wide: WIDTHS[1].1,
            touch: WIDTH_TO_TOUCH,
        },
        keys: choices::keys(language),
        guides: choices::guides(language),
        marks: choices::marks(language),
        largest_pencil: LARGEST_FILE,
    };
    let json = serde_json::to_string(&data).expect("numbers and texts can be written");
    format!(
        "<script type=\"application/json\" id=\"data\">{}</script>\n",
        escape::data(&json)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Keys that a script gives to `phrase`, in whatever way it is written there.
    fn keys_in(script: &str) -> BTreeSet<String> {
        let calls = script.split("phrase(").skip(1);
        let inside = calls.filter_map(|call| call.split([')', '{']).next());
        let quoted = inside.flat_map(|inside| inside.split('"').skip(1).step_by(2));
        quoted.map(str::to_owned).collect()
    }

    #[test]
    fn the_script_says_what_is_in_the_catalogue_and_all_of_it() {
        let script: String = super::super::OWN_SCRIPT.to_owned();
        let there: BTreeSet<String> = SCRIPT.iter().map(|(key, _)| (*key).to_owned()).collect();
        assert_eq!(keys_in(&script), there);
    }

    #[test]
    fn every_language_has_words_for_the_script() {
        for language in Language::ALL {
            let words = words(language);
            assert_eq!(words.len(), SCRIPT.len());
            let forms = &words["so-many-marks"];
            assert_eq!(forms["by"], "n");
            assert!(forms["one"].is_string() && forms["other"].is_string());
        }
    }
}
