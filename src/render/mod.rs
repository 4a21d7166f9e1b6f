//! Rendering takes to files: the batch, the writers of WAV, FLAC and MP3, and the record of what was rendered.
//!
//! A [`Track`] names a take and compiles its timeline; [`batch::render`] renders many tracks in parallel into
//! one folder. A track appears under its name only when it is complete, and a second run renders only what
//! changed.
//!
//! [`files`] writes every file; [`formats`] defines their content, [`reuse`] finds what need not be rendered
//! again.
//!
//! ```
//! use leadpipe::edition::{Edition, Judge, Wanted, name::Names};
//! use leadpipe::render::{Bits, RenderSettings, batch, planned};
//! use leadpipe::timeline::compile;
//! use std::sync::atomic::AtomicBool;
//!
//! # const TEXT: &str = "format = 1\ntitle = \"One note\"\ninstrument = \"trumpet in B-flat\"\n\
//! #     comfortable_top = \"G4\"\ntempo = 120\nmeter = \"4/4\"\n[[line]]\nname = \"One\"\nnotes = \"G4:whole\"\n";
//! let folder = tempfile::tempdir()?;
//! let edition = Edition::read(TEXT, None).expect("it has no faults");
//! let mut plan = edition.plan(&Wanted::default().takes(), &Judge::default()).expect("it can be played");
//! plan.name("one-note", &mut Names::default());
//! let compiled = compile::Settings { sample_rate: 44_100, signs: true };
//! let tracks = planned::tracks(&plan, None, None, &compiled);
//! let settings = RenderSettings::new(44_100, Bits::Sixteen);
//! let end = batch::render(&tracks, folder.path(), &settings, &AtomicBool::new(false), &());
//! assert!(end.failure.is_none());
//! assert!(folder.path().join("one-note 120 key-0 together.wav").is_file());
//! # Ok::<(), std::io::Error>(())
//! ```

pub mod batch;
pub mod failure;
pub mod file_kind;
pub mod files;
pub mod finished;
pub mod formats;
pub mod lazy_engine;
pub mod list;
pub mod part;
pub mod planned;
pub mod reading;
mod render_track;
pub mod reuse;
pub mod settings;
mod shared;
pub mod sharing;
pub mod single;
mod sounding;
pub mod threads;
pub mod together;
pub mod track;
pub mod watch;
mod writer;
mod writing;

pub use batch::End;
pub use failure::RenderFailure;
pub use file_kind::{FileKind, FileKinds};
pub use finished::{Finished, FinishedFile, TrackOutcome};
pub use formats::{Bits, Channels, Labels, SampleFormat};
pub use lazy_engine::LazyEngine;
pub use part::TrackPart;
pub use settings::RenderSettings;
pub use track::Track;
pub use watch::Watch;
