//! `leadpipe adopt`: a routine from a notation program's file.

use super::console::Console;
use super::source::SourceText;
use super::{Exit, Failure, Outcome, findings, new, show, text};
use crate::brass::Instrument;
use crate::brass::instrument::INSTRUMENTS;
use crate::check::{self, Options, Report};
use crate::edition::unrolled;
use crate::exchange::piece::ImportedPiece;
use crate::exchange::{AdoptOptions, adopt, midi, musicxml};
use crate::problem::{Problem, Text};
use crate::render::failure::system_words;
use crate::render::files::kept;
use crate::render::reading::{self, Unread};
use crate::score::Take;
use crate::words::count;
use clap::Args;
use std::ffi::{OsStr, OsString};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// Make a routine of a notation program's file: MusicXML (.musicxml, .mxl) or MIDI (.mid)
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe adopt warm-up.musicxml              writes warm-up.toml
  leadpipe adopt warm-up.mxl --instrument cornet --out cornet.toml
  leadpipe adopt band.mxl --part \"Trumpet 2\"
  leadpipe adopt warm-up.mid --part 1

A line of the routine is what stands between two rehearsal marks or double bars; without these, a system; in a
MIDI file, what stands between two markers or long rests. What cannot be kept is told line by line.")]
pub struct Adopt {
    /// The file: MusicXML, compressed or not, or MIDI
    file: OsString,

    /// Whose part, if there are several: its number or its name
    #[arg(long, value_name = "PART")]
    part: Option<String>,

    /// What the routine is played on
    #[arg(long, value_name = "INSTRUMENT", value_parser = instrument,
        default_value = "trumpet in B-flat")]
    instrument: &'static Instrument,

    /// Take the notes as they sound, not as the player reads them; MIDI files are taken so in any case
    #[arg(long)]
    concert: bool,

    /// The routine's file [default: the same name, ending in .toml]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,

    /// Write the routine even if there is such a file; what is in it is lost
    #[arg(long)]
    force: bool,
}

/// The most bytes of a file, compressed or not: the bound for uncompressed music.
const LARGEST: u64 = musicxml::text::LARGEST as u64;

fn instrument(name: &str) -> Result<&'static Instrument, String> {
    Instrument::named(name).ok_or_else(|| {
        let names: Vec<&str> = INSTRUMENTS.iter().map(|i| i.name).collect();
        format!("the instruments are {}", names.join(", "))
    })
}

impl Adopt {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let shown = self.file.to_string_lossy().into_owned();
        let bytes = read(&self.file, &shown)?;
        let refused = |refusal: Problem| {
            let failure = Failure::usage(format!("{shown} cannot be adopted: {refusal}"));
            match refusal.hint {
                Some(hint) => failure.hint(hint),
                None => failure,
            }
        };
        let piece = piece(bytes, self.part.as_deref()).map_err(refused)?;
        let path = Path::new(&self.file);
        let part = |name: Option<&OsStr>| name.unwrap_or_default().to_string_lossy().into_owned();
        let choice = AdoptOptions {
            instrument: self.instrument,
            concert: self.concert,
            title: part(path.file_stem()),
            source: part(path.file_name()),
        };
        let adopted = adopt(&piece, &choice).map_err(refused)?;
        let out = match self.out {
            Some(out) => out,
            None => PathBuf::from(format!("{}.toml", choice.title)),
        };
        // What cannot be read or played is not written.
        let Some(checked) = Checked::of(console, &out, &adopted.text)? else {
            return Ok(Exit::Errors);
        };
        if self.force {
            overwrite(&out, &adopted.text)?;
        } else {
            new::write_new(
                &out,
                &adopted.text,
                "choose another name with --out, or --force",
            )?;
        }
        let lines = count::lines(adopted.lines);
        console.say(&format!(
            "{} holds {lines} for {}, yours to change.",
            out.display(),
            self.instrument.name
        ));
        for said in &adopted.said {
            console.say(&format!("note: {said}"));
        }
        match adopted.losses.len() {
            0 if piece.limits.is_some() => console.say("Everything that is in it was kept."),
            0 => console.say("Everything was kept."),
            n => console.say(&format!("Not kept, {}:", count::things(n))),
        }
        for loss in &adopted.losses {
            console.say(text::wrapped("- ", loss).trim_end());
        }
        Ok(checked.show(console, &out))
    }
}

/// An adopted routine and what the checker says of it.
struct Checked {
    source: SourceText,
    report: Report,
}

impl Checked {
    /// Reads and checks the text of a routine. `None` if it is not understood, which is shown.
    fn of(console: &mut Console, path: &Path, text: &str) -> Result<Option<Self>, Failure> {
        let shown = path.display().to_string();
        let source = SourceText {
            name: shown.clone(),
            argument: shown,
            text: text.to_owned(),
        };
        let routine = match source.read() {
            Ok(routine) => routine,
            Err(faults) => {
                // Every adopted routine should be readable. If one is not, its faults show which bars they come from.
                let faults = faults.into_iter();
                let problems: Vec<Problem> = faults.map(|f| f.in_text(Text::Routine)).collect();
                show::problems(console, &source, &problems);
                console.complain(
                    "leadpipe made a routine that it does not understand itself, so nothing was written",
                    Some("this is a fault of leadpipe: leave those bars out of the file"),
                );
                return Ok(None);
            }
        };
        let score = unrolled(&routine, &Take::default())?;
        let report = check::check(&score, &Options::default());
        Ok(Some(Self { source, report }))
    }

    /// Shows the findings.
    fn show(&self, console: &mut Console, path: &Path) -> Exit {
        let findings = self.report.findings.iter().cloned();
        let problems: Vec<Problem> = findings.map(|f| f.in_text(Text::Routine)).collect();
        for problem in &problems {
            show::problem(console, &self.source, problem, None);
        }
        let tally = findings::tally(problems.iter());
        console.say(&format!("{}: {tally}.", self.source.name));
        console.say(&format!("Next: leadpipe check {}", new::quoted(path)));
        if self.report.has_errors() {
            Exit::Errors
        } else {
            Exit::Done
        }
    }
}

/// The music in a file. Its first bytes decide of which kind it is, not its name.
fn piece(bytes: Vec<u8>, part: Option<&str>) -> Result<ImportedPiece, Problem> {
    if midi::read::is_midi(&bytes) {
        return midi::read(&bytes, part);
    }
    if musicxml::container::is_packed(&bytes) {
        let score = musicxml::container::unpack(&bytes)?;
        drop(bytes);
        return musicxml::read(&musicxml::text::decode(score)?, part);
    }
    let text = musicxml::text::decode(bytes)?;
    if !text.trim_start().starts_with('<') {
        return Err(Problem::error("it is neither MusicXML nor MIDI").hint(
            "a notation program exports them: MusicXML (.musicxml), compressed MusicXML (.mxl), MIDI (.mid)",
        ));
    }
    musicxml::read(&text, part)
}

fn read(file: &OsStr, shown: &str) -> Result<Vec<u8>, Failure> {
    let path = Path::new(file);
    if path.is_dir() {
        return Err(Failure::usage(format!(
            "{shown} is a folder, not a file of music"
        )));
    }
    reading::named(path, LARGEST).map_err(|why| match why {
        Unread::TooLarge => Failure::usage(format!(
            "{shown} is larger than {} MiB, which no warm-up needs",
            LARGEST >> 20
        )),
        Unread::System(error) if error.kind() == ErrorKind::NotFound => {
            Failure::usage(format!("there is no file called {shown}"))
                .hint("name the file that the notation program has exported, with its ending")
        }
        Unread::System(error) => {
            Failure::error(format!("{shown} cannot be read: {}", system_words(&error)))
        }
    })
}

/// Replaces the file's content with the text.
fn overwrite(path: &Path, text: &str) -> Result<(), Failure> {
    let written = kept::write(path, text.as_bytes());
    written.map_err(|error| new::not_written(path, &error, "choose another name with --out"))
}
