//! Files that are no music: what is said of each kind.

use leadpipe::exchange::file;

#[test]
fn each_kind_is_named_and_the_way_out_with_it() {
    for (bytes, what) in [
        (&b"%PDF-1.7"[..], "it is a PDF: pages to print, not notes"),
        (
            b"\x89PNG\r\n",
            "it is a picture: notes are drawn in it, not written",
        ),
        (
            b"\xff\xd8\xff\xe0",
            "it is a picture: notes are drawn in it, not written",
        ),
        (b"RIFF\0\0\0\0WAVE", "it is a recording: sound, not notes"),
        (b"", "it is empty"),
        (
            b"\0\x01\x02",
            "it is a file of a kind that is not known here, perhaps a notation program's own",
        ),
        (b"C4 D4 E4", "it is text, but neither MusicXML nor ABC"),
        (
            b"<svg/>",
            "it is a page or a drawing, but no score in MusicXML",
        ),
    ] {
        let refusal = file::read(bytes.to_vec(), None).unwrap_err();
        assert_eq!(refusal.message, what);
        assert!(refusal.hint.unwrap().contains("MusicXML"), "{what}");
    }
}

#[test]
fn a_routine_is_no_file_of_music() {
    for (_, text) in super::built_in() {
        assert!(!file::is_music(text.as_bytes()));
    }
    assert!(file::is_music(b"X:1\nK:C\nCDEF|\n"));
    assert!(file::is_music(b"\xef\xbb\xbf<?xml version=\"1.0\"?>"));
    assert!(file::is_music(b"MThd"));
}
