//! Compressed and oddly encoded files: what is taken, and what is refused in which words.

use super::documents::{measure, note, opening, score};
use super::{adopted, choice};
use leadpipe::exchange::{adopt, midi, musicxml};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

const CONTAINER: &str = "META-INF/container.xml";

fn container(path: &str) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><container><rootfiles><rootfile full-path=\"{path}\"/>\
         </rootfiles></container>"
    )
}

fn packed(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(vec![]));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    for (name, content) in entries {
        writer.start_file(*name, options).unwrap();
        writer.write_all(content).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

fn one_note() -> String {
    score(&measure(1, &(opening(4, 4) + &note("C4 whole"))))
}

fn refused(bytes: &[u8]) -> String {
    musicxml::container::unpack(bytes)
        .unwrap_err()
        .message
        .to_string()
}

#[test]
fn a_packed_score_is_the_same_as_one_that_is_not() {
    let text = one_note();
    let inside = container("music/score.xml");
    let bytes = packed(&[
        (CONTAINER, inside.as_bytes()),
        ("music/score.xml", text.as_bytes()),
    ]);
    assert!(musicxml::container::is_packed(&bytes));
    assert_eq!(
        musicxml::container::unpack(&bytes).unwrap(),
        text.as_bytes()
    );
    // Without a container there must be one score.
    let bytes = packed(&[("score.musicxml", text.as_bytes()), ("picture.png", b"...")]);
    assert_eq!(
        musicxml::container::unpack(&bytes).unwrap(),
        text.as_bytes()
    );
}

#[test]
fn a_path_out_of_the_file_is_only_a_name_that_is_not_in_it() {
    for path in [
        "../../etc/passwd",
        "/etc/passwd",
        "C:\\\\secret",
        "nothing.xml",
    ] {
        let inside = container(path);
        let bytes = packed(&[(CONTAINER, inside.as_bytes())]);
        assert_eq!(
            refused(&bytes),
            format!("it says that its music is in {path}, and there is no such entry in it")
        );
    }
}

#[test]
fn what_grows_beyond_all_measure_is_refused() {
    // Sixty-four mebibytes of blanks pack into a few kilobytes.
    let blanks = vec![b' '; 64 << 20];
    let inside = container("a.xml");
    let bytes = packed(&[(CONTAINER, inside.as_bytes()), ("a.xml", &blanks)]);
    assert!(bytes.len() < 1 << 20);
    assert_eq!(
        refused(&bytes),
        "unpacked, its music is larger than 32 MiB, which no warm-up needs"
    );
    // Entities that would grow, and one from outside.
    let bomb = "<!DOCTYPE a [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">\
                <!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\"><!ENTITY d \"&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;\">\
                <!ENTITY e \"&d;&d;&d;&d;&d;&d;&d;&d;&d;&d;\"><!ENTITY f \"&e;&e;&e;&e;&e;&e;&e;&e;&e;&e;\">\
                <!ENTITY g \"&f;&f;&f;&f;&f;&f;&f;&f;&f;&f;\"><!ENTITY h \"&g;&g;&g;&g;&g;&g;&g;&g;&g;&g;\">\
                <!ENTITY i \"&h;&h;&h;&h;&h;&h;&h;&h;&h;&h;\">]><score-partwise><work><work-title>&i;</work-title>\
                </work></score-partwise>";
    let outside = "<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]><score-partwise><work><work-title>&x;\
                   </work-title></work></score-partwise>";
    let said = "line 1 of it defines words of its own that stand for other text (entities), so it is no score from a \
                notation program";
    for text in [bomb, outside] {
        let message = musicxml::read(text, None).unwrap_err().message;
        assert_eq!(message, said);
        // In the list of what is in a packed file too.
        let bytes = packed(&[(CONTAINER, text.as_bytes())]);
        assert_eq!(
            refused(&bytes),
            format!("its {CONTAINER} cannot be used: {said}")
        );
    }
    let bytes = packed(&[(CONTAINER, &blanks)]);
    assert_eq!(
        refused(&bytes),
        "unpacked, META-INF/container.xml is larger than 1 MiB, which no warm-up needs"
    );
}

#[test]
fn utf_16_is_read_as_utf_8_is() {
    let text = one_note()
        .replace("UTF-8", "UTF-16")
        .replace("Trumpet", "Trömpet 🎺");
    let wide: Vec<u8> = [0xff, 0xfe]
        .into_iter()
        .chain(text.encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    let decoded = musicxml::text::decode(&wide).unwrap();
    assert_eq!(decoded, text);
    let piece = musicxml::read(&decoded, None).unwrap();
    assert_eq!(piece.part.as_deref(), Some("Trömpet 🎺"));
}

#[test]
fn both_ways_of_writing_a_score_are_read() {
    let partwise = one_note();
    let timewise = partwise
        .replace("score-partwise", "score-timewise")
        .replace(
            "<part id=\"P1\"><measure number=\"1\">",
            "<measure number=\"1\"><part id=\"P1\">",
        )
        .replace("</measure></part>", "</part></measure>");
    let notes = |text: &str| adopted(&musicxml::read(text, None).unwrap()).text;
    assert_eq!(notes(&partwise), notes(&timewise));
}

#[test]
fn what_is_no_music_is_refused_in_words() {
    let message = |text: &str| musicxml::read(text, None).unwrap_err().message;
    assert_eq!(
        message("<html/>"),
        "it is a page or a drawing, but no score in MusicXML"
    );
    assert_eq!(
        message("<opus/>"),
        "it is a list of several scores, not a score"
    );
    assert_eq!(message(&score("")), "there is no note in it");
    assert_eq!(
        message("<score-partwise>\n<part"),
        "it is cut short, damaged or no MusicXML: line 1 cannot be read"
    );
    let silent = score(&measure(1, &(opening(4, 4) + &note("rest whole"))));
    assert_eq!(message(&silent), "there is no note in it");
    assert_eq!(
        refused(b"PK\x03\x04 and nothing else"),
        "it is cut short or damaged, so it cannot be unpacked"
    );
    let message = |bytes: &[u8]| midi::read(bytes, None).unwrap_err().message;
    assert_eq!(
        message(b"MThd"),
        "it is cut short, damaged or no Standard MIDI File"
    );
    // A header, and a track that ends at once.
    let empty = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x00\x60MTrk\x00\x00\x00\x04\x00\xff\x2f\x00";
    assert_eq!(message(empty), "there is no note in it");
    let film = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\xe7\x28MTrk\x00\x00\x00\x04\x00\xff\x2f\x00";
    assert_eq!(message(film), "its times are seconds of film, not beats");
}

#[test]
fn too_many_lines_are_refused() {
    let mark = super::documents::direction("<rehearsal>A</rehearsal>");
    let measures: String = (1..=201)
        .map(|n| {
            let opening = if n == 1 { opening(4, 4) } else { String::new() };
            measure(n, &(opening + &mark + &note("C4 whole")))
        })
        .collect();
    let piece = musicxml::read(&score(&measures), None).unwrap();
    let refusal = adopt(&piece, &choice()).unwrap_err();
    assert_eq!(
        refusal.message,
        "it comes to 201 lines, and a routine has at most 200"
    );
}
