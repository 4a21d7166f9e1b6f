//! `leadpipe tone`: single held notes of the guide.

use super::carried::instrument;
use super::choose;
use super::console::Console;
use super::render::{bits, rate, stop_on_ctrl_c};
use super::table::Table;
use super::takes;
use super::{Exit, Failure, Outcome};
use crate::brass::{Family, Instrument};
use crate::music::{Decimal, Dynamic, SoundingPitch, Temperament, Tuning};
use crate::render::files::Replace;
use crate::render::{Bits, Channels, RenderFailure, SampleFormat, single};
use crate::timeline::{Unit, held_note};
use crate::words::{Words, duration, size};
use clap::Args;
use std::path::PathBuf;

/// Without an instrument, the trumpet's tone from concert E3 to C6.
const LOWEST: SoundingPitch = SoundingPitch::from_number(52);
const HIGHEST: SoundingPitch = SoundingPitch::from_number(84);
/// How long a note can be held, in seconds.
const SHORTEST: Decimal = Decimal::from_integer(1);
const LONGEST: Decimal = Decimal::from_integer(600);

/// Write held notes of the guide tone, to tune to or to measure
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe tone Bb4
  leadpipe tone Bb3 F4 Bb4 --dynamic f --seconds 10 --out tuning
  leadpipe tone A4 --rate 48000 --bits 24

Pitches are as they sound: a trumpet in B-flat reads its tuning note Bb4 as C5. Each note goes to a
file of one channel that is named after it (tone-Bb4.wav).")]
pub struct ToneCommand {
    /// Sounding pitches: E3 to C6, or from the lowest to the highest note of the instrument
    #[arg(value_name = "PITCH", required = true)]
    pitches: Vec<String>,

    /// Whose tone: an instrument as in a routine file [default: a trumpet]
    #[arg(long, value_name = "NAME", value_parser = instrument)]
    instrument: Option<&'static Instrument>,

    /// How loud: pp, p, mp, mf, f, ff
    #[arg(long, value_name = "MARK", value_parser = dynamic, default_value = "mf")]
    dynamic: Dynamic,

    /// How long each note lasts, its release included
    #[arg(long, value_name = "SECONDS", value_parser = seconds, default_value = "2")]
    seconds: Decimal,

    /// What A4 is tuned to, in hertz
    #[arg(long, value_name = "HERTZ", value_parser = takes::a4, default_value = "440")]
    a4: Decimal,

    /// Folder to put the notes in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,

    /// Replace files of these names that leadpipe did not write, or that were changed since
    #[arg(long)]
    force: bool,

    /// Frames a second: 44100 or 48000
    #[arg(long, value_name = "RATE", value_parser = rate, default_value = "44100")]
    rate: u32,

    /// Bits a sample: 16 or 24
    #[arg(long, value_name = "BITS", value_parser = bits, default_value = "16")]
    bits: Bits,
}

/// Reads a sounding pitch that the instrument has.
fn sounding(text: &str, instrument: Option<&Instrument>) -> Result<SoundingPitch, Failure> {
    let named = choose::pitch(text)?;
    let pitch = named.sounding(0);
    let (lowest, highest) = instrument.map_or((LOWEST, HIGHEST), |instrument| {
        let sounding = |written| instrument.sounding(written);
        (sounding(instrument.lowest), sounding(instrument.highest))
    });
    let is_pedal = instrument.is_some_and(|i| i.is_pedal(named.moved(-i.transposition)));
    if (lowest..=highest).contains(&pitch) || is_pedal {
        Ok(pitch)
    } else {
        let failure = Failure::usage(format!("{named} is out of the guide's reach"));
        Err(failure.hint(format!(
            "it sounds from {lowest} to {highest}, concert pitch"
        )))
    }
}

fn dynamic(text: &str) -> Result<Dynamic, Words> {
    Dynamic::parse(text.trim()).ok_or_else(|| {
        let marks = Dynamic::ALL.map(Dynamic::mark);
        format!("the marks are {}", marks.join(", ")).into()
    })
}

fn seconds(text: &str) -> Result<Decimal, Words> {
    match Decimal::parse(text.trim()) {
        Ok(seconds) if (SHORTEST..=LONGEST).contains(&seconds) => Ok(seconds),
        _ => Err(format!(
            "a note lasts from {SHORTEST} to {LONGEST} seconds, with at most three decimals"
        )
        .into()),
    }
}

impl ToneCommand {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let stop = stop_on_ctrl_c();
        let format = SampleFormat {
            sample_rate: self.rate,
            bits: self.bits,
            channels: Channels::Mono,
        };
        let tuning = Tuning::new(self.a4, Temperament::Equal)
            .expect("the value parser of --a4 keeps it within bounds");
        let mut pitches = (self.pitches.iter())
            .map(|text| sounding(text, self.instrument))
            .collect::<Result<Vec<_>, _>>()?;
        pitches.sort_unstable();
        pitches.dedup();
        let family = (self.instrument).map_or(Family::Trumpet, |instrument| instrument.family);
        let units: Vec<(String, Unit)> = pitches
            .iter()
            .map(|pitch| {
                let seconds = self.seconds.ratio();
                let unit = held_note(family, *pitch, tuning, self.dynamic, seconds, self.rate);
                (format!("tone-{pitch}.wav"), unit)
            })
            .collect();
        let written = match single::write_guides(
            &units,
            &self.out,
            format,
            Replace::forced(self.force),
            stop,
        ) {
            Ok(written) => written,
            Err(RenderFailure::Stopped) => {
                console.say("Stopped; the unfinished note was taken away.");
                return Ok(Exit::Stopped);
            }
            Err(failure) => {
                console.complain(failure.to_string(), failure.hint().map(Into::into));
                return Ok(Exit::Errors);
            }
        };
        let mut table = Table::new(&[
            ("Note", false),
            ("Sounds", false),
            ("Hz", true),
            ("Length", true),
            ("Size", true),
        ]);
        for ((pitch, (name, _)), bytes) in pitches.iter().zip(&units).zip(written) {
            table.row(vec![
                self.out.join(name).display().to_string(),
                pitch.to_string(),
                format!("{:.2}", tuning.hz(*pitch)),
                duration(self.seconds.as_f64()),
                size(bytes),
            ]);
        }
        console.data(&table.lines(console.language()))?;
        Ok(Exit::Done)
    }
}
