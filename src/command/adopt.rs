//! `leadpipe adopt`: a routine from a notation program's file.

use super::carried::instrument;
use super::console::Console;
use super::music::{self, Wanted};
use super::source::SourceText;
use super::{Exit, Failure, Outcome, findings, new, show};
use crate::brass::Instrument;
use crate::check::{self, Options, Report};
use crate::edition::unrolled;
use crate::problem::{Problem, Text};
use crate::render::files::kept;
use crate::routine::note_names;
use crate::score::Take;
use crate::words::count;
use clap::Args;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// Make a routine of a notation program's file: MusicXML (.musicxml, .mxl), MIDI (.mid) or ABC (.abc)
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe adopt warm-up.musicxml              writes warm-up.toml
  leadpipe adopt warm-up.mxl --instrument cornet --out cornet.toml
  leadpipe adopt band.mxl --part \"Trumpet 2\"
  leadpipe adopt warm-up.mid --part 1
  leadpipe adopt tunes.abc --part 12           the tune with the number 12

A line of the routine is what stands between two rehearsal marks or double bars; without these, a system; in a
MIDI file, what stands between two markers or long rests. What cannot be kept is told line by line.")]
pub struct Adopt {
    /// The file: MusicXML, compressed or not, MIDI, or ABC
    file: OsString,

    /// Whose part, or which tune, if there are several: its number or its name
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

impl Adopt {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let wanted = Wanted {
            part: self.part.as_deref(),
            instrument: self.instrument,
            concert: self.concert,
            done: "be adopted",
        };
        let made = music::routine(&self.file, &wanted)?;
        let adopted = &made.adopted;
        let text = note_names::rewritten(&adopted.text, console.names().unwrap_or_default());
        let out = match self.out {
            Some(out) => out,
            None => {
                let stem = Path::new(&self.file).file_stem().unwrap_or_default();
                PathBuf::from(format!("{}.toml", stem.to_string_lossy()))
            }
        };
        // What cannot be read or played is not written.
        let Some(checked) = Checked::of(console, &out, &text)? else {
            return Ok(Exit::Errors);
        };
        if self.force {
            overwrite(&out, &text)?;
        } else {
            new::write_new(
                &out,
                &text,
                "choose another name with --out, or --force".into(),
            )?;
        }
        let lines = count::lines(adopted.lines);
        console.say(format!(
            "{} holds {lines} for {}, yours to change.",
            out.display(),
            self.instrument.name
        ));
        music::tell(console, &made);
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
            carried: None,
            language: None,
            names: None,
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
                    Some("this is a fault of leadpipe: leave those bars out of the file".into()),
                );
                return Ok(None);
            }
        };
        let score = unrolled(&routine, &Take::default())?;
        let report = check::check(&score, &Options::default());
        Ok(Some(Self { source, report }))
    }

    /// Counts the findings, and says how to see them.
    fn show(&self, console: &mut Console, path: &Path) -> Exit {
        let findings = self.report.findings.iter().cloned();
        let problems: Vec<Problem> = findings.map(|f| f.in_text(Text::Routine)).collect();
        let tally = findings::tally(problems.iter());
        console.say(format!("{}: {tally}.", self.source.name));
        let check = format!("leadpipe check {}", new::quoted(path));
        console.say(&match problems.len() {
            0 => format!("Next: {check}"),
            _ => format!("{check} shows what they are."),
        });
        if self.report.has_errors() {
            Exit::Errors
        } else {
            Exit::Done
        }
    }
}

/// Replaces the file's content with the text.
fn overwrite(path: &Path, text: &str) -> Result<(), Failure> {
    let written = kept::write(path, text.as_bytes());
    written.map_err(|error| new::not_written(path, &error, "choose another name with --out".into()))
}
