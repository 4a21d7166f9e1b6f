//! Byte ranges (RFC 9110, section 14): phones play nothing without them.

use super::*;

const FILE: &str = "/a%201.mp3";

#[test]
fn parts_within_and_at_the_end() {
    let shared = Shared::new();
    for (range, body, content_range) in [
        ("bytes=0-1", "01", "bytes 0-1/10"),
        ("bytes=0-", "0123456789", "bytes 0-9/10"),
        ("bytes=9-", "9", "bytes 9-9/10"),
        ("bytes=9-9", "9", "bytes 9-9/10"),
        ("bytes=8-100", "89", "bytes 8-9/10"),
        ("bytes=-3", "789", "bytes 7-9/10"),
        ("bytes=-100", "0123456789", "bytes 0-9/10"),
        ("bytes=10-, 4-5", "45", "bytes 4-5/10"),
    ] {
        let answer = shared.ask("GET", FILE, &[&format!("Range: {range}")]);
        assert_eq!((answer.status, answer.text()), (206, body), "{range}");
        assert_eq!(answer.field("content-range"), content_range);
        assert_eq!(answer.field("content-length"), body.len().to_string());
        assert_eq!(answer.field("content-type"), "audio/mpeg");
    }
}

#[test]
fn past_the_end_there_is_nothing() {
    let shared = Shared::new();
    for range in ["bytes=10-", "bytes=10-20", "bytes=99-100, 50-", "bytes=-0"] {
        let answer = shared.ask("GET", FILE, &[&format!("Range: {range}")]);
        assert_eq!(answer.status, 416, "{range}");
        assert_eq!(answer.field("content-range"), "bytes */10");
    }
    let answer = shared.ask("GET", "/empty.wav", &["Range: bytes=0-"]);
    assert_eq!(
        (answer.status, answer.field("content-range")),
        (416, "bytes */0")
    );
    let whole = shared.get("/empty.wav");
    assert_eq!((whole.status, whole.field("content-length")), (200, "0"));
}

#[test]
fn what_is_no_range_is_as_if_it_had_not_been_said() {
    let shared = Shared::new();
    for range in [
        "bytes=5-4",
        "bytes=x",
        "lines=1-2",
        "bytes=0-9,0-9",
        "bytes=-",
    ] {
        let answer = shared.ask("GET", FILE, &[&format!("Range: {range}")]);
        assert_eq!(
            (answer.status, answer.text()),
            (200, "0123456789"),
            "{range}"
        );
    }
}

#[test]
fn several_parts_come_with_boundaries() {
    let shared = Shared::new();
    let answer = shared.ask("GET", FILE, &["Range: bytes=0-1,-2"]);
    assert_eq!(answer.status, 206);
    let kind = answer.field("content-type");
    let boundary = kind
        .strip_prefix("multipart/byteranges; boundary=")
        .unwrap();
    assert_eq!(
        answer.text(),
        format!(
            "\r\n--{boundary}\r\nContent-Type: audio/mpeg\r\nContent-Range: bytes 0-1/10\r\n\r\n01\
             \r\n--{boundary}\r\nContent-Type: audio/mpeg\r\nContent-Range: bytes 8-9/10\r\n\r\n89\
             \r\n--{boundary}--\r\n"
        )
    );
    assert_eq!(
        answer.field("content-length"),
        answer.body.len().to_string()
    );
}

#[test]
fn a_part_of_another_file_than_the_client_knows_is_not_sent() {
    let shared = Shared::new();
    let first = shared.get(FILE);
    let ask = |known: &str| {
        let known = format!("If-Range: {known}");
        shared
            .ask("GET", FILE, &["Range: bytes=2-3", &known])
            .status
    };
    assert_eq!(ask(first.field("etag")), 206);
    assert_eq!(ask(first.field("last-modified")), 206);
    assert_eq!(ask("\"another\""), 200);
    assert_eq!(ask(&format!("W/{}", first.field("etag"))), 200);
    assert_eq!(ask("Sat, 01 Jan 2000 00:00:00 GMT"), 200);
}
