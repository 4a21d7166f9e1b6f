//! What a pupil reads in other languages: on the sheet and on the page of every built-in routine.

mod asked;
mod catalogue;
mod named;
mod read;
mod teacher;

use leadpipe::edition::Edition;
use leadpipe::presets;
use leadpipe::words::Language;

/// What a pupil reads of a routine in a language, without the words of its teacher.
fn read_by_a_pupil(text: &str, language: Language) -> Vec<String> {
    let edition = Edition::read(text, None).expect("it is a routine");
    let edition = edition.in_language(language);
    let teacher = read::teachers_words(edition.teacher());
    let mut all = read::sheet(&edition);
    all.extend(read::page(&edition, text));
    all.iter()
        .map(|said| read::without(said, &teacher))
        .collect()
}

/// English words of the catalogue in what a pupil reads in another language.
fn english_in(language: Language) -> Vec<String> {
    let words = catalogue::only_english(language);
    assert!(words.len() > 200, "the catalogue is read");
    let mut found = vec![];
    for preset in &presets::ALL {
        for said in read_by_a_pupil(preset.text, language) {
            let there = words.iter().filter(|words| read::says(&said, words));
            found.extend(there.map(|words| format!("{}: “{words}” in “{said}”", preset.name)));
        }
    }
    found
}

#[test]
fn a_german_sheet_and_page_hold_no_english_word() {
    let found = english_in(Language::De);
    assert!(found.is_empty(), "{:#?}", &found[..found.len().min(20)]);
}

#[test]
fn a_french_sheet_and_page_hold_no_english_word() {
    let found = english_in(Language::Fr);
    assert!(found.is_empty(), "{:#?}", &found[..found.len().min(20)]);
}

#[test]
fn a_built_in_routine_in_german_holds_nothing_english() {
    let words = catalogue::only_english(Language::De);
    for preset in &presets::ALL {
        let text = presets::translated(preset, Language::De).expect("it is translated");
        let edition = Edition::read(&text, None).expect("it is a routine");
        let english = leadpipe::routine::read(preset.text).expect("it is a routine");
        let teacher = read::teachers_words(&english);
        // Not in the text of the routine that the page's engine reads: its keys are English.
        for said in read::sheet(&edition)
            .iter()
            .chain(&read::page(&edition, &text))
        {
            for words in words
                .iter()
                .chain(teacher.iter().filter(|words| words.len() > 8))
            {
                assert!(
                    !read::says(said, words),
                    "{}: “{words}” in “{said}”",
                    preset.name
                );
            }
        }
    }
}

/// What the tests above look for is found where it stands.
#[test]
fn an_english_sheet_and_page_hold_most_of_the_english_words() {
    let words = catalogue::only_english(Language::De);
    let all: Vec<String> = presets::ALL
        .iter()
        .flat_map(|preset| read_by_a_pupil(preset.text, Language::En))
        .collect();
    let there = words
        .iter()
        .filter(|words| all.iter().any(|said| read::says(said, words)));
    let there = there.count();
    assert!(10 * there > 7 * words.len(), "{there} of {}", words.len());
}

#[test]
fn the_words_follow_the_language_of_the_routine_and_of_the_player() {
    let text = presets::named(presets::DEFAULT)
        .expect("it is built in")
        .text;
    let german = text.replacen("tempo =", "language = \"de-AT\"\ntempo =", 1);
    let routine = |text: &str| leadpipe::routine::read(text).expect("it is a routine");
    assert_eq!(routine(text).words_in, Language::En);
    assert_eq!(routine(&german).words_in, Language::De);
    let other = text.replacen("tempo =", "language = \"nl\"\ntempo =", 1);
    assert_eq!(routine(&other).words_in, Language::En);
    let edition = Edition::read(&german, None).expect("it is a routine");
    assert_eq!(
        edition.in_language(Language::Fr).played().words_in,
        Language::Fr
    );
}

#[test]
fn every_instrument_has_a_name_in_every_language() {
    for language in Language::ALL.into_iter().filter(|one| *one != Language::En) {
        let names = catalogue::variants(language, "instruments.ftl", "instrument");
        for instrument in leadpipe::brass::INSTRUMENTS {
            let id = instrument.name.replace(' ', "-");
            assert!(names.contains(&id), "{}: {id}", language.tag());
        }
        assert_eq!(
            names.len(),
            leadpipe::brass::INSTRUMENTS.len() + 1,
            "and “other”"
        );
    }
}
