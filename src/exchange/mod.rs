//! Exchange with other programs through open standards: MusicXML 4.0 (W3C) and Standard MIDI Files 1.0.
//!
//! [`musicxml::write()`] and [`midi::write()`] turn a [`Score`](crate::score::Score) into the content of a
//! file. [`musicxml::read()`] and [`midi::read()`] turn the content of a file into an [`ImportedPiece`], music
//! in bars. [`adopt()`] turns a piece into the text of a routine and reports what could not be kept. This
//! module opens no files: it takes and returns text and bytes.
//!
//! ```
//! use leadpipe::brass::instrument::INSTRUMENTS;
//! use leadpipe::exchange::{AdoptOptions, adopt, musicxml};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let text = musicxml::write(&score, musicxml::FingeredNotes::Unusual);
//! let piece = musicxml::read(&text, None)?;
//! let options = AdoptOptions {
//!     instrument: &INSTRUMENTS[0],
//!     concert: false,
//!     title: "Warm-up".to_owned(),
//!     source: "warm-up.musicxml".to_owned(),
//! };
//! let adopted = adopt(&piece, &options)?;
//! assert!(leadpipe::routine::read(&adopted.text).is_ok());
//! # Ok::<(), leadpipe::problem::Problem>(())
//! ```

pub mod adopt;
pub mod midi;
pub mod musicxml;
pub mod piece;

pub use adopt::{AdoptOptions, Adopted, adopt};
pub use piece::ImportedPiece;
