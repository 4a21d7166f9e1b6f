//! Many at once. Addresses of this machine's own, all from 127.0.0.1 to 127.255.255.254, stand for many
//! machines; only Linux lets them be used without being set up.

use super::*;
use leadpipe::handout::share::{HEAD_TIME, MOST_CONNECTIONS, MOST_OF_ONE, REST_TIME};
use socket2::{Domain, Socket, Type};
use std::net::SocketAddr;
use std::time::Instant;

const REQUEST: &str = "GET /a%201.mp3 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";

/// A connection that comes from another address of this machine.
fn connect_from(last: u8, to: SocketAddr) -> TcpStream {
    let socket = Socket::new(Domain::IPV4, Type::STREAM, None).unwrap();
    socket
        .bind(&SocketAddr::from(([127, 0, 1, last], 0)).into())
        .unwrap();
    socket.connect(&to.into()).unwrap();
    let stream = TcpStream::from(socket);
    stream.set_read_timeout(Some(HEAD_TIME * 6)).unwrap();
    stream
}

fn said(stream: &mut TcpStream) -> String {
    let mut bytes = vec![];
    let _ = stream.read_to_end(&mut bytes);
    String::from_utf8(bytes).unwrap()
}

#[test]
fn two_hundred_that_stall_keep_nobody_else_out_and_are_let_go() {
    let shared = Shared::new();
    let mut stalled: Vec<TcpStream> = (0..200)
        .map(|_| {
            let mut stream = connect_from(1, shared.address);
            let _ = stream.write_all(b"GET /a%201.mp3 HTTP/1.1\r\nHost: loc");
            stream
        })
        .collect();
    let mut other = connect_from(2, shared.address);
    other.write_all(REQUEST.as_bytes()).unwrap();
    assert!(said(&mut other).ends_with("\r\n\r\n0123456789"));

    // Those for whom there was no room heard so, the others were closed when their time was over.
    let answers: Vec<String> = stalled.iter_mut().map(said).collect();
    let busy = answers
        .iter()
        .filter(|a| a.starts_with("HTTP/1.1 503 "))
        .count();
    let closed = answers
        .iter()
        .filter(|a| a.is_empty() || a.starts_with("HTTP/1.1 408 "));
    println!("{busy} heard that there is no room");
    assert!(busy >= 100, "{busy}");
    // Some of those turned away may have lost the words with the connection.
    assert_eq!(busy + closed.count(), 200);
    drop(stalled);
    let mut again = connect_from(1, shared.address);
    again.write_all(REQUEST.as_bytes()).unwrap();
    assert!(said(&mut again).ends_with("0123456789"));
}

/// As many connections as there is room for, held by `addresses` that each say this; returned by address, oldest first.
fn full(shared: &Shared, addresses: usize, each: usize, words: &[u8]) -> Vec<TcpStream> {
    assert!(each <= MOST_OF_ONE && addresses * each >= MOST_CONNECTIONS);
    let held = (0..MOST_CONNECTIONS).map(|n| {
        let mut stream = connect_from((10 + n / each) as u8, shared.address);
        stream.write_all(words).unwrap();
        if n == 0 {
            // On a busy machine the server takes connections that come together in any order.
            std::thread::sleep(Duration::from_millis(300));
        }
        stream
    });
    held.collect()
}

/// A stranger's request and how long its answer took.
fn stranger(shared: &Shared, last: u8) -> (String, Duration) {
    let begun = Instant::now();
    let mut stream = connect_from(last, shared.address);
    let _ = stream.write_all(REQUEST.as_bytes());
    (said(&mut stream), begun.elapsed())
}

/// Neither silence nor half a request nor a reader that takes nothing reserves a place for an address that has many.
#[test]
fn a_few_that_hold_all_places_keep_no_stranger_out() {
    for words in [
        &b""[..],
        b"GET /a%201.mp3 HT",
        b"GET /large.wav HTTP/1.1\r\nHost: localhost\r\n\r\n",
    ] {
        let shared = Shared::new();
        let large = std::fs::File::create(shared.folder().join("large.wav")).unwrap();
        large.set_len(1 << 30).unwrap();
        let held = full(&shared, 6, 22, words);
        for last in 200..210 {
            let (answer, took) = stranger(&shared, last);
            assert!(answer.ends_with("0123456789"), "{words:?}: {answer}");
            assert!(took < HEAD_TIME / 2, "{words:?}: {took:?}");
        }
        drop(held);
    }
}

/// One connection each, so that no address has more than its share: those at rest for longest give way.
#[test]
fn many_at_rest_keep_no_stranger_out() {
    let shared = Shared::new();
    let mut held = full(&shared, MOST_CONNECTIONS, 1, b"GET /a%201.mp3 HT");
    std::thread::sleep(REST_TIME);
    let (answer, took) = stranger(&shared, 200);
    assert!(answer.ends_with("0123456789"), "{answer}");
    assert!(took < HEAD_TIME / 2, "{took:?}");
    assert_eq!(said(&mut held[0]), "", "the oldest is closed");
    let mut last = held.pop().unwrap();
    last.write_all(b"TP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        .unwrap();
    assert!(said(&mut last).ends_with("0123456789"), "others are kept");
}

/// While all of them are being served, none is dropped for a stranger that has no better claim.
#[test]
fn no_more_are_held_than_there_is_room_for() {
    let shared = Shared::new();
    let held = full(&shared, MOST_CONNECTIONS, 1, b"GET /");
    let (answer, took) = stranger(&shared, 200);
    // On a slow machine the first may have been at rest for long enough.
    if took < REST_TIME / 2 {
        assert!(answer.starts_with("HTTP/1.1 503 "), "{answer}");
    }
    drop(held);
}

/// The stranger that is let in takes a place from the address that has most, not from one that has few.
#[test]
fn an_address_with_few_keeps_its_places() {
    let shared = Shared::new();
    let mut few = connect_from(1, shared.address);
    few.write_all(b"GET /a%201.mp3 HT").unwrap();
    let held = full(&shared, 6, 22, b"");
    let strangers: Vec<TcpStream> = (200..220)
        .map(|last| connect_from(last, shared.address))
        .collect();
    assert!(stranger(&shared, 220).0.ends_with("0123456789"));
    few.write_all(b"TP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        .unwrap();
    assert!(said(&mut few).ends_with("0123456789"));
    drop((held, strangers));
}

/// Clients that ask for a large file over and over and do not read it.
#[test]
fn memory_is_bounded_by_the_number_of_connections() {
    let shared = Shared::new();
    let large = std::fs::File::create(shared.folder().join("large.wav")).unwrap();
    large.set_len(1 << 30).unwrap();
    let before = resident();
    let request = "GET /large.wav HTTP/1.1\r\nHost: localhost\r\n\r\n".repeat(20);
    let held: Vec<TcpStream> = (0..MOST_OF_ONE * 4)
        .map(|n| {
            let mut stream = connect_from((1 + n % 4) as u8, shared.address);
            stream.write_all(request.as_bytes()).unwrap();
            stream
        })
        .collect();
    std::thread::sleep(Duration::from_secs(2));
    let grown = resident().saturating_sub(before);
    println!("{} connections: {} KiB more", held.len(), grown / 1024);
    // A few pieces of a file for each; the files are a gibibyte.
    assert!(grown < 96 << 20, "{grown} bytes");
    let mut other = connect_from(9, shared.address);
    other.write_all(REQUEST.as_bytes()).unwrap();
    assert!(said(&mut other).ends_with("0123456789"));
}

/// Bytes of this process in memory.
fn resident() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let row = status
        .lines()
        .find(|row| row.starts_with("VmRSS:"))
        .unwrap();
    row.split_whitespace()
        .nth(1)
        .unwrap()
        .parse::<u64>()
        .unwrap()
        * 1024
}

#[test]
fn a_stop_ends_every_connection() {
    let shared = Shared::new();
    let mut idle = connect_from(1, shared.address);
    let mut asking = connect_from(1, shared.address);
    asking.write_all(b"GET / HT").unwrap();
    std::thread::sleep(Duration::from_millis(300));
    let address = shared.address;
    drop(shared);
    assert_eq!(said(&mut idle) + &said(&mut asking), "");
    assert!(TcpStream::connect(address).is_err());
}
