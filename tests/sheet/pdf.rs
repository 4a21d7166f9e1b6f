//! The PDF, read by somebody else's reader: pages, embedded fonts, text, tags.

use super::{built_in, unroll, usual};
use leadpipe::print::pdf::pdf;
use leadpipe::sheet::{Paper, SheetOptions, engrave};
use lopdf::{Dictionary, Document, Object};

fn followed<'d>(document: &'d Document, object: &'d Object) -> &'d Object {
    document.dereference(object).expect("it can be followed").1
}

fn fonts(document: &Document) -> Vec<&Dictionary> {
    let of_type = |object: &'_ &Object| {
        let dictionary = object.as_dict().ok()?;
        let is = dictionary.get(b"Type").ok()?.as_name().ok()? == b"Font";
        is.then_some(())
    };
    let all = document.objects.values().filter(|o| of_type(o).is_some());
    all.map(|o| o.as_dict().expect("fonts are dictionaries"))
        .collect()
}

#[test]
fn pages_fonts_text_and_tags_are_there() {
    for (name, routine) in usual() {
        let score = unroll(&routine);
        let sheet = engrave(&score, &SheetOptions::default());
        let document = Document::load_mem(&pdf(&sheet).expect("it is made")).expect("it is read");
        let pages = document.get_pages();
        assert_eq!(pages.len(), sheet.pages.len(), "{name}");

        // Every font with outlines of its own carries them.
        let descendants: Vec<_> = fonts(&document)
            .into_iter()
            .filter(|f| f.has(b"FontDescriptor"))
            .collect();
        assert!(descendants.len() >= 2, "{name}");
        for font in descendants {
            let descriptor = followed(&document, font.get(b"FontDescriptor").unwrap());
            let descriptor = descriptor.as_dict().unwrap();
            let embedded = [b"FontFile3".as_slice(), b"FontFile2", b"FontFile"];
            assert!(embedded.iter().any(|key| descriptor.has(key)), "{name}");
        }

        let numbers: Vec<u32> = pages.keys().copied().collect();
        let text = document.extract_text(&numbers).expect("it has text");
        let squeezed = |s: &str| s.split_whitespace().collect::<String>();
        let text = squeezed(&text);
        let line = &routine.lines[0];
        let last = format!("page {} of {}", pages.len(), pages.len());
        for wanted in [
            routine.title.as_str(),
            &line.name,
            line.say.as_deref().unwrap(),
            &last,
        ] {
            assert!(text.contains(&squeezed(wanted)), "{name}: {wanted}\n{text}");
        }

        let catalogue = document.catalog().expect("there is one");
        let marks = followed(&document, catalogue.get(b"MarkInfo").expect("it is tagged"));
        assert!(
            marks
                .as_dict()
                .unwrap()
                .get(b"Marked")
                .unwrap()
                .as_bool()
                .unwrap()
        );
        assert!(
            catalogue.has(b"StructTreeRoot") && catalogue.has(b"Lang"),
            "{name}"
        );
    }
}

#[test]
fn the_paper_is_the_one_asked_for_and_the_file_the_same_each_time() {
    let (_, routine) = &usual()[5];
    let score = unroll(routine);
    for (paper, width, height) in [(Paper::A4, 595.3, 841.9), (Paper::Letter, 612.0, 792.0)] {
        let options = SheetOptions {
            paper,
            ..SheetOptions::default()
        };
        let sheet = engrave(&score, &options);
        let made = pdf(&sheet).unwrap();
        assert!(made == pdf(&sheet).unwrap(), "no clock is in it");
        let document = Document::load_mem(&made).unwrap();
        for page in document.get_pages().values() {
            let page = document.get_object(*page).unwrap().as_dict().unwrap();
            let area = followed(&document, page.get(b"MediaBox").unwrap())
                .as_array()
                .unwrap();
            let sides: Vec<f32> = area.iter().map(|n| n.as_float().unwrap()).collect();
            assert!(
                (sides[2] - width).abs() < 0.1 && (sides[3] - height).abs() < 0.1,
                "{sides:?}"
            );
        }
    }
}

/// The texts of a document's bookmarks, in order.
fn bookmarks(document: &Document) -> Vec<String> {
    let catalogue = document.catalog().unwrap();
    let outlines = followed(
        document,
        catalogue.get(b"Outlines").expect("there are bookmarks"),
    );
    let mut next = outlines.as_dict().unwrap().get(b"First").ok();
    let mut all = vec![];
    while let Some(item) = next {
        let item = followed(document, item).as_dict().unwrap();
        let title = item.get(b"Title").unwrap();
        all.push(lopdf::decode_text_string(title).unwrap());
        next = item.get(b"Next").ok();
    }
    all
}

#[test]
fn a_reader_shows_the_title_and_a_bookmark_for_every_line() {
    for (name, routine) in built_in() {
        let made = pdf(&engrave(&unroll(&routine), &SheetOptions::default())).unwrap();
        let document = Document::load_mem(&made).unwrap();
        let catalogue = document.catalog().unwrap();
        let wishes = followed(
            &document,
            catalogue.get(b"ViewerPreferences").expect("it has some"),
        );
        let shown = wishes.as_dict().unwrap().get(b"DisplayDocTitle").unwrap();
        assert!(shown.as_bool().unwrap(), "{name}");
        let marks = bookmarks(&document);
        assert_eq!(marks[0], routine.title, "{name}");
        for (index, line) in routine.lines.iter().enumerate() {
            assert_eq!(
                marks[index + 1],
                format!("{} {}", index + 1, line.name),
                "{name}"
            );
        }
        assert_eq!(marks.last().unwrap(), "Before you play");
        // Readers disagree on this key, and it says nothing.
        let marked = followed(&document, catalogue.get(b"MarkInfo").unwrap());
        assert!(!marked.as_dict().unwrap().has(b"Suspects"), "{name}");
    }
}

#[test]
fn the_language_is_the_routines() {
    let language = |head: &str| {
        let text = format!(
            "format = 1\ntitle = \"T\"\n{head}instrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 72\n\
             [[line]]\nname = \"L\"\nnotes = \"C4:whole\"\n"
        );
        let routine = leadpipe::routine::read(&text).unwrap();
        let made = pdf(&engrave(&unroll(&routine), &SheetOptions::default())).unwrap();
        let document = Document::load_mem(&made).unwrap();
        let tag = document.catalog().unwrap().get(b"Lang").unwrap().clone();
        lopdf::decode_text_string(&tag).unwrap()
    };
    assert_eq!(language(""), "en");
    assert_eq!(language("language = \"de\"\n"), "de");
    assert_eq!(language("language = \"pt-BR\"\n"), "pt-BR");
}

#[test]
fn letters_that_the_font_has_not_make_no_failure() {
    let text = "format = 1\ntitle = \"練習\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 72\n\
                [[line]]\nname = \"L\"\nnotes = \"C4:whole\"\n";
    let routine = leadpipe::routine::read(text).unwrap();
    let made = pdf(&engrave(&unroll(&routine), &SheetOptions::default())).unwrap();
    assert!(Document::load_mem(&made).is_ok());
}
