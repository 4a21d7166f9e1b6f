//! Music from notation programs.

use leadpipe::brass::Instrument;
use leadpipe::exchange::musicxml::{container, text};
use leadpipe::exchange::{AdoptOptions, ImportedPiece, abc, adopt, midi, musicxml};
use leadpipe::problem::Problem;
use leadpipe::routine;

/// A piece that was read becomes a routine that leadpipe reads, or is refused with words.
fn adopted(piece: Result<ImportedPiece, Problem>) {
    let made = piece.and_then(|piece| {
        let choice = AdoptOptions {
            instrument: Instrument::named("trumpet").expect("there are trumpets"),
            concert: false,
            title: "Tune".to_owned(),
            source: "tune".to_owned(),
        };
        adopt(&piece, &choice)
    });
    match made {
        Ok(made) => {
            let read = routine::read(&made.text);
            assert!(read.is_ok(), "{read:?}\n{}", made.text);
        }
        Err(problem) => assert!(!problem.message.is_empty()),
    }
}

pub fn musicxml(bytes: &[u8]) {
    adopted(text::decode(bytes).and_then(|text| musicxml::read(&text, None)));
}

pub fn mxl(bytes: &[u8]) {
    match container::unpack(bytes) {
        Ok(score) => musicxml(&score),
        Err(problem) => assert!(!problem.message.is_empty()),
    }
}

pub fn midi(bytes: &[u8]) {
    adopted(midi::read(bytes, None));
}

pub fn abc(bytes: &[u8]) {
    let text = abc::decode(bytes);
    adopted(abc::read(&text, None));
    adopted(abc::read(&text, Some("1")));
}
