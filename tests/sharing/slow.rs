//! Readers that take their time.

use super::*;
use std::time::Instant;

/// Much more than all buffers on the way hold.
const LARGE: u64 = 256 << 20;

/// A server that is soon out of patience, with a large file.
fn impatient(limit: Duration) -> Shared {
    let shared = Shared::with(|server| server.taking_time(limit));
    let large = fs::File::create(shared.folder().join("large.wav")).unwrap();
    large.set_len(LARGE).unwrap();
    shared
}

fn asking(shared: &Shared) -> TcpStream {
    let mut stream = shared.connect();
    let request = b"GET /large.wav HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
    stream.write_all(request).unwrap();
    stream
}

/// Reads until the end, however it comes, and says how much there was.
fn rest(stream: &mut TcpStream) -> u64 {
    let mut bytes = vec![0; 1 << 20];
    let mut all = 0;
    // A connection that is reset ends, too.
    while let Ok(n @ 1..) = stream.read(&mut bytes) {
        all += n as u64;
    }
    all
}

#[test]
fn a_reader_that_takes_nothing_is_let_go() {
    let hasty = impatient(Duration::from_millis(300));
    let patient = impatient(Duration::from_secs(600));
    // The same reader asks both and takes nothing from either for as long.
    let (mut let_go, mut kept) = (asking(&hasty), asking(&patient));
    std::thread::sleep(Duration::from_secs(3));
    let got = rest(&mut let_go);
    assert!(got < LARGE, "{got} bytes");
    assert!(rest(&mut kept) > LARGE);
}

/// Some bytes now and then are not enough, if a piece of the file takes longer than the limit.
#[test]
fn a_reader_that_takes_a_few_bytes_now_and_then_is_let_go() {
    let shared = impatient(Duration::from_millis(500));
    let mut slow = asking(&shared);
    let begun = Instant::now();
    let mut few = [0; 512];
    while begun.elapsed() < Duration::from_secs(4) {
        if !matches!(slow.read(&mut few), Ok(1..)) {
            break;
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    let got = rest(&mut slow);
    assert!(got < LARGE, "{got} bytes");
}

/// Slow all the time, but never as slow as that: it is given all the time it needs.
#[test]
fn a_reader_that_is_steady_gets_everything() {
    let limit = Duration::from_secs(2);
    let shared = impatient(limit);
    let mut steady = asking(&shared);
    let begun = Instant::now();
    let (mut got, mut bytes) = (0, vec![0; 4 << 20]);
    while let Ok(n @ 1..) = steady.read(&mut bytes) {
        got += n as u64;
        if begun.elapsed() < limit * 3 {
            std::thread::sleep(Duration::from_millis(100));
        }
    }
    assert!(begun.elapsed() > limit * 2, "longer than the limit in all");
    assert!(got > LARGE, "{got} bytes");
}
