//! Score → MusicXML.
//!
//! Every pass of a line is written out. Rests between passes and after a line are whole bars with a text over
//! them, so that a program plays them at their length; the count-in is left to the program.

use super::directions::{self, Loudness, LoudnessMark};
use super::element::Xml;
use super::head;
use super::notes::{self, FingeredNotes, PassContext};
use crate::brass::Instrument;
use crate::exchange::piece::words;
use crate::music::Clef;
use crate::music::transposed::WrittenInterval;
use crate::music::{Decimal, Key, Meter, Seconds, Whole};
use crate::notation::accidentals;
use crate::notation::written::{self, WrittenBar, WrittenPass};
use crate::routine::{Guide, Line, On, RestLength};
use crate::score::{Pass, Score, ScoreLine};
use crate::words::count;
use num_integer::Integer;
use num_rational::Ratio;
use num_traits::{ToPrimitive, Zero};

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
    <!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \
    \"http://www.musicxml.org/dtds/partwise.dtd\">\n";

/// The text of a MusicXML file that holds the score as one part.
pub fn write(score: &Score<'_>, fingerings: FingeredNotes) -> String {
    write_parts(&[score], fingerings)
}

/// The text of a MusicXML file with a part for each score: the score of a group. The first one's head is written.
pub fn write_parts(scores: &[&Score<'_>], fingerings: FingeredNotes) -> String {
    let mut xml = Xml::new(HEAD);
    xml.open("score-partwise", &[("version", "4.0")]);
    if let Some(first) = scores.first() {
        head::work(&mut xml, first);
    }
    head::parts(&mut xml, scores);
    for (number, score) in (1..).zip(scores) {
        xml = part(xml, number, score, fingerings);
    }
    xml.close();
    xml.finish()
}

/// Writes one part.
fn part(xml: Xml, number: usize, score: &Score<'_>, fingerings: FingeredNotes) -> Xml {
    let lines: Vec<WrittenLine<'_>> = score
        .lines
        .iter()
        .map(|line| WrittenLine::of(score, line))
        .collect();
    let mut part = Part {
        xml,
        instrument: score.instrument(),
        fingerings,
        divisions: divisions(&lines),
        number: 0,
        meter: None,
        key: None,
    };
    part.xml.open("part", &[("id", &head::id(number))]);
    for (index, line) in lines.iter().enumerate() {
        part.line(line, index + 1 == lines.len());
    }
    part.xml.close();
    part.xml
}

/// A line with its passes in bars.
struct WrittenLine<'s> {
    line: &'s Line,
    score: &'s ScoreLine,
    passes: Vec<WrittenPass>,
    loudness: Vec<Loudness>,
    rest: Option<Silence>,
    /// True if the next line follows without a rest.
    goes_on: bool,
}

/// Whole bars of rest, and the text over them.
struct Silence {
    bars: i64,
    words: String,
}

impl<'s> WrittenLine<'s> {
    fn of(score: &'s Score<'_>, of: &'s ScoreLine) -> Self {
        let line = &score.routine.lines[of.index];
        let clef = score.instrument().clef;
        let passes = of.passes.iter().enumerate();
        let mut passes: Vec<WrittenPass> = passes
            .map(|(index, pass)| written::pass(line, pass, index, of.meter, clef))
            .collect();
        accidentals::set(&mut passes);
        let rest = of.rest.map(|rest| rest.asked.unwrap_or(rest.seconds));
        Self {
            line,
            score: of,
            passes,
            loudness: match of.on {
                On::Air | On::Rest => vec![],
                On::Horn | On::Mouthpiece => directions::loudness(&line.melody),
            },
            goes_on: rest.is_some_and(|seconds| seconds.is_zero()),
            rest: rest
                .filter(|seconds| !seconds.is_zero())
                .map(|seconds| silence(seconds, line, of)),
        }
    }
}

/// The rest after a line: its number of bars, or the next whole number and its length in words.
fn silence(seconds: Seconds, line: &Line, of: &ScoreLine) -> Silence {
    let bars = seconds / of.seconds(of.meter.bar());
    let whole = line.rest_part == RestLength::WHOLE;
    let said = match line.rest {
        RestLength::Beats(n) if whole => Some(count::beats(n).into()),
        RestLength::Seconds(n) if whole => Some(format!("{n} s")),
        RestLength::Bars(n) if whole && !bars.is_integer() => Some(count::bars(n).into()),
        _ if bars.is_integer() => None,
        _ => Some(format!("{} s", thousandths(seconds))),
    };
    Silence {
        bars: bars.ceil().to_integer().to_i64().unwrap_or(1),
        words: match said {
            Some(said) => format!("{} {said}", words::REST),
            None => words::REST.to_owned(),
        },
    }
}

fn thousandths(seconds: Seconds) -> Decimal {
    let n = (seconds * Ratio::from_integer(1000)).round().to_integer();
    let text = format!("{}.{:03}", n / 1000, n % 1000);
    Decimal::parse(&text).unwrap_or(Decimal::from_integer(0))
}

/// The smallest number of divisions of a quarter in which every length and moment is a whole number.
fn divisions(lines: &[WrittenLine<'_>]) -> i64 {
    let quarters = |length: Whole| *(length * Whole::from_integer(4)).denom();
    let mut least = 1;
    for line in lines {
        least = least.lcm(&quarters(line.score.meter.bar()));
        for symbol in line
            .passes
            .iter()
            .flat_map(|p| &p.bars)
            .flat_map(|b| &b.symbols)
        {
            least = least
                .lcm(&quarters(symbol.length))
                .lcm(&quarters(symbol.at));
        }
        for change in &line.loudness {
            least = least.lcm(&quarters(change.at));
        }
    }
    least
}

struct Part<'s> {
    xml: Xml,
    instrument: &'s Instrument,
    fingerings: FingeredNotes,
    /// Divisions of a quarter.
    divisions: i64,
    /// Measures so far.
    number: u32,
    /// The last meter written.
    meter: Option<Meter>,
    /// The last key written.
    key: Option<Key>,
}

/// A measure of a line.
enum Measure<'s> {
    /// A bar of a pass.
    Bar {
        pass: &'s Pass,
        written: &'s WrittenPass,
        bar: &'s WrittenBar,
        ends_pass: bool,
    },
    /// A whole bar of rest; the first of several has the text and the number of bars.
    Rest(Option<(&'s str, i64)>),
}

/// Every measure of a line in order.
fn measures<'s>(line: &'s WrittenLine<'_>) -> Vec<Measure<'s>> {
    let meter = line.score.meter;
    let mut all = vec![];
    let rests = |bars: i64, words: &'s str, all: &mut Vec<Measure<'s>>| {
        all.extend((0..bars).map(|n| Measure::Rest((n == 0).then_some((words, bars)))));
    };
    for (pass, written) in line.score.passes.iter().zip(&line.passes) {
        for (index, bar) in written.bars.iter().enumerate() {
            all.push(Measure::Bar {
                pass,
                written,
                bar,
                ends_pass: index + 1 == written.bars.len(),
            });
        }
        if pass.turn {
            rests(bars(pass.length, meter), words::TURN, &mut all);
        }
        rests(bars(pass.between, meter), words::REST, &mut all);
    }
    if let Some(rest) = &line.rest {
        rests(rest.bars, &rest.words, &mut all);
    }
    all
}

impl Part<'_> {
    fn line(&mut self, line: &WrittenLine<'_>, last: bool) {
        let measures = measures(line);
        for (index, measure) in measures.iter().enumerate() {
            let key = match measure {
                Measure::Bar { written, .. } if line.line.on.has_pitches() => written.key,
                _ => self.key,
            };
            self.open_measure(line.score.meter, key, index == 0);
            if index == 0 {
                self.opening(line);
            }
            let closes = index + 1 == measures.len();
            match measure {
                Measure::Bar {
                    pass,
                    written,
                    bar,
                    ends_pass,
                } => {
                    let setting = PassContext {
                        pass,
                        written,
                        instrument: self.instrument,
                        meter: line.score.meter,
                        fingerings: self.fingerings,
                        divisions: 4 * self.divisions,
                    };
                    let marks = of_bar(&line.loudness, bar, pass, line.score.meter, *ends_pass);
                    self.bar(bar, &marks, &setting);
                }
                Measure::Rest(opening) => self.rest(*opening, line.score.meter),
            }
            if closes {
                if line.goes_on {
                    directions::write_words(&mut self.xml, words::GO_ON);
                }
                self.xml.open("barline", &[("location", "right")]);
                let style = if last { "light-heavy" } else { "light-light" };
                self.xml.leaf("bar-style", &[], style);
                self.xml.close();
            }
            self.xml.close();
        }
    }

    fn open_measure(&mut self, meter: Meter, key: Option<Key>, begins_line: bool) {
        self.number += 1;
        let number = self.number.to_string();
        self.xml.open("measure", &[("number", &number)]);
        if begins_line && self.number > 1 {
            self.xml.empty("print", &[("new-system", "yes")]);
        }
        let begins = self.meter.is_none();
        if self.meter == Some(meter) && self.key == key {
            return;
        }
        self.xml.open("attributes", &[]);
        if begins {
            self.xml.leaf("divisions", &[], &self.divisions.to_string());
        }
        if begins || self.key != key {
            self.signature(key);
        }
        if self.meter != Some(meter) {
            self.xml.open("time", &[]);
            self.xml.leaf("beats", &[], &meter.beats().to_string());
            self.xml.leaf("beat-type", &[], &meter.unit().to_string());
            self.xml.close();
        }
        if begins {
            self.xml.open("clef", &[]);
            let (sign, line) = match self.instrument.clef {
                Clef::Treble => ("G", "2"),
                Clef::Bass => ("F", "4"),
            };
            self.xml.leaf("sign", &[], sign);
            self.xml.leaf("line", &[], line);
            self.xml.close();
            self.transpose();
        }
        self.xml.close();
        self.meter = Some(meter);
    }

    /// Writes a key signature; without a mode, if there is none because the routine names no key.
    fn signature(&mut self, key: Option<Key>) {
        self.xml.open("key", &[]);
        self.xml
            .leaf("fifths", &[], &key.map_or(0, Key::fifths).to_string());
        if let Some(key) = key {
            self.xml.leaf("mode", &[], key.mode().word());
        }
        self.xml.close();
        self.key = key;
    }

    fn transpose(&mut self) {
        let half_steps = self.instrument.transposition;
        if half_steps == 0 {
            return;
        }
        // Whole octaves are said apart; the rest in half steps and in steps of the staff.
        let (octaves, half_steps) = (half_steps / 12, half_steps % 12);
        let steps = WrittenInterval::of_half_steps(half_steps).steps;
        self.xml.open("transpose", &[]);
        self.xml.leaf("diatonic", &[], &steps.to_string());
        self.xml.leaf("chromatic", &[], &half_steps.to_string());
        if octaves != 0 {
            self.xml.leaf("octave-change", &[], &octaves.to_string());
        }
        self.xml.close();
    }

    /// Writes what stands over the beginning of a line.
    fn opening(&mut self, line: &WrittenLine<'_>) {
        let xml = &mut self.xml;
        directions::write_name(xml, &line.line.name);
        directions::write_tempo(xml, line.score.tempo, line.score.meter);
        if let Some(purpose) = &line.line.purpose {
            directions::write_words(xml, &format!("{}{purpose}", words::FOR));
        }
        if let Some(say) = &line.line.say {
            directions::write_words(xml, say);
        }
        if line.line.on == On::Mouthpiece {
            directions::write_words(xml, words::MOUTHPIECE);
        }
        if line.score.guide == Guide::Echo {
            directions::write_words(xml, words::ECHO);
        }
    }

    fn bar(&mut self, bar: &WrittenBar, marks: &[Loudness], setting: &PassContext<'_>) {
        let triplets = notes::triplets(setting.written);
        let mut marks = marks.iter().peekable();
        let beams = notes::beams(bar, setting.meter);
        for (symbol, beams) in bar.symbols.iter().zip(&beams) {
            while let Some(mark) = marks.next_if(|m| m.at < symbol.end()) {
                let offset = notes::duration(mark.at - symbol.at, setting.divisions);
                directions::write_loudness(&mut self.xml, mark.mark, offset);
            }
            notes::write(&mut self.xml, symbol, beams, &triplets, setting);
        }
        for mark in marks {
            directions::write_loudness(&mut self.xml, mark.mark, 0);
        }
    }

    /// Writes a whole bar of rest.
    fn rest(&mut self, opening: Option<(&str, i64)>, meter: Meter) {
        if let Some((words, bars)) = opening {
            if bars > 1 {
                self.xml.open("attributes", &[]);
                self.xml.open("measure-style", &[]);
                self.xml.leaf("multiple-rest", &[], &bars.to_string());
                self.xml.close();
                self.xml.close();
            }
            directions::write_words(&mut self.xml, words);
        }
        self.xml.open("note", &[]);
        self.xml.empty("rest", &[("measure", "yes")]);
        let length = notes::duration(meter.bar(), 4 * self.divisions);
        self.xml.leaf("duration", &[], &length.to_string());
        self.xml.leaf("voice", &[], "1");
        self.xml.close();
    }
}

fn bars(length: Whole, meter: Meter) -> i64 {
    (length / meter.bar()).ceil().to_integer()
}

/// The marks that stand in a bar: a wedge ends in the bar whose last note it leads over, and so does the dynamic it
/// leads to where no note begins with it; the last bar has what comes at its end.
fn of_bar(
    all: &[Loudness],
    bar: &WrittenBar,
    pass: &Pass,
    meter: Meter,
    last: bool,
) -> Vec<Loudness> {
    let end = bar.start + meter.bar();
    let note_at = |moment: Whole| {
        pass.notes
            .iter()
            .any(|n| n.start <= moment && moment < n.start + n.length)
    };
    let ends_wedge = |at: Whole| {
        let mut stops = all.iter().filter(|m| m.mark == LoudnessMark::Stop);
        stops.any(|m| m.at == at) && !note_at(at)
    };
    let inside = |m: &&Loudness| match m.mark {
        LoudnessMark::Stop => bar.start < m.at && m.at <= end,
        LoudnessMark::Dynamic(_) if ends_wedge(m.at) => bar.start < m.at && m.at <= end,
        _ => bar.start <= m.at && (m.at < end || last),
    };
    all.iter().filter(inside).copied().collect()
}
