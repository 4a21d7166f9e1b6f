//! To and from other people's programs, through open standards: MusicXML 4.0 (W3C) and Standard MIDI Files 1.0.
//!
//! [`musicxml::write()`] and [`midi::write()`] take a [`Score`](crate::score::Score) to the content of a file.
//! [`musicxml::read()`] and [`midi::read()`] take the content of a file to a [`Piece`], music as it stands in bars;
//! [`adopt()`] takes a piece to the text of a routine and tells what could not be kept. No files are opened
//! here: text and bytes go in and come out.
//!
//! ```
//! use leadpipe::brass::instrument::INSTRUMENTS;
//! use leadpipe::exchange::{Choice, adopt, musicxml};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let text = musicxml::write(&score, musicxml::Fingerings::Unusual);
//! let piece = musicxml::read(&text, None)?;
//! let choice = Choice {
//!     instrument: &INSTRUMENTS[0],
//!     concert: false,
//!     title: "Warm-up".to_owned(),
//!     source: "warm-up.musicxml".to_owned(),
//! };
//! let adopted = adopt(&piece, &choice)?;
//! assert!(leadpipe::routine::read(&adopted.text).is_ok());
//! # Ok::<(), leadpipe::problem::Problem>(())
//! ```

pub mod adopt;
pub mod midi;
pub mod musicxml;
pub mod piece;

pub use adopt::{Adopted, Choice, adopt};
pub use piece::Piece;
