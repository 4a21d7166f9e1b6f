//! A piece becomes a routine.
//!
//! `course` writes its repeats out, `sections` says where lines begin, `tune` makes notes of each, `pitches` moves
//! them to the instrument, `lengths` brings them into values, `loudness` gives every wedge a dynamic to lead to,
//! `patterns` finds what is one line moved, `rests` says how long one rests, `language` and `toml` write it
//! down. `losses` gathers what cannot be kept.

mod course;
mod guesses;
mod language;
mod lengths;
mod losses;
mod loudness;
mod patterns;
mod pitches;
mod repeats;
mod rests;
mod sections;
mod toml;
mod tune;

use super::piece::{Piece, Refusal, words};
use crate::brass::{Instrument, Level};
use crate::music::{Decimal, Dynamic, Meter, Whole, WrittenPitch, tempo};
use crate::routine::Articulation;
use course::Played;
use lengths::Brought;
use losses::Losses;
use loudness::{Step, Word};
use num_rational::Ratio;
use patterns::{Pattern, Unit, Walk};
use rests::{After, Owed, Passes};
use sections::Section;
use tune::{Kind, Tune};

/// What is wanted of a routine that is adopted.
#[derive(Clone, Debug)]
pub struct Choice {
    /// What it is to be played on.
    pub instrument: &'static Instrument,
    /// True if the notes of the file are to be taken as they sound, whatever it says.
    pub concert: bool,
    /// Its title, where the file has none.
    pub title: String,
    /// What the file is called.
    pub source: String,
}

/// A routine that was adopted.
#[derive(Clone, Debug)]
pub struct Adopted {
    /// The text of its file.
    pub text: String,
    /// How many lines it has.
    pub lines: usize,
    /// What was assumed or done, a sentence each.
    pub said: Vec<String>,
    /// What could not be kept, a sentence each, line by line.
    pub losses: Vec<String>,
}

/// Clicks a minute where a file says none.
const UNSAID_TEMPO: i64 = 72;

/// Makes a routine of a piece.
///
/// # Errors
/// Where there is nothing to play in it, or more than a routine may hold.
pub fn adopt(piece: &Piece, choice: &Choice) -> Result<Adopted, Refusal> {
    let mut losses = Losses::default();
    losses.take(piece.losses.iter().cloned());
    let course = course::of(piece, &mut losses)?;
    if course.iter().all(|p| p.silent) {
        return Err(Refusal::new("there is no note in it"));
    }
    let sections = sections::of(piece, &course, &mut losses)?;
    let mut tunes: Vec<Tune> = sections
        .iter()
        .map(|section| {
            let places = &course[section.places.clone()];
            let first = places.iter().find(|p| !p.silent).unwrap_or(&places[0]);
            tune::of(piece, places, first.meter, &mut losses)
        })
        .collect();
    for tune in &mut tunes {
        without_breathing(tune, &mut losses);
    }
    let mut said: Vec<String> = piece.limits.map(str::to_owned).into_iter().collect();
    said.extend(pitches::set(
        &mut tunes,
        piece.pitches,
        choice.concert,
        choice.instrument,
        &mut losses,
    ));
    let maker = Maker {
        piece,
        course: &course,
        sections: &sections,
        choice,
    };
    let timings: Vec<Timed> = sections
        .iter()
        .zip(&mut tunes)
        .map(|(section, tune)| maker.timed(section, tune, &mut losses))
        .collect();
    if tunes
        .iter()
        .any(|t| t.events.iter().all(tune::Event::is_rest))
    {
        return Err(Refusal::new(
            "some of its lines hold only notes too short to be written",
        ));
    }
    let names = maker.names();
    let head = maker.head(&tunes, &timings, &mut said);
    let lines = maker.lines(tunes, &timings, &names, &head, &mut losses, &mut said);
    let line_of = |measure: usize| {
        sections.iter().position(|section| {
            let places = &course[section.places.clone()];
            places.iter().any(|p| p.measure == measure)
        })
    };
    Ok(Adopted {
        text: toml::text(&head, &lines),
        lines: lines.len(),
        said,
        losses: losses.told(&piece.measures, &names, line_of),
    })
}

/// Breathing is a line by itself: among notes it is silence.
fn without_breathing(tune: &mut Tune, losses: &mut Losses) {
    if !tune.events.iter().any(|e| matches!(e.kind, Kind::Note(_))) {
        tune.changes.clear();
        return;
    }
    for event in &mut tune.events {
        if matches!(event.kind, Kind::In | Kind::Out | Kind::Hold) {
            event.kind = Kind::Rest;
            losses.lose(Some(event.measure), "breathing among notes is a rest");
        }
    }
}

/// A line's tempo and meter.
struct Timed {
    meter: Meter,
    clicks: Decimal,
    /// False if no tempo was written.
    said: bool,
}

struct Maker<'p> {
    piece: &'p Piece,
    course: &'p [Played],
    sections: &'p [Section],
    choice: &'p Choice,
}

impl Maker<'_> {
    /// Brings a tune's lengths into values, and with them its meter and tempo.
    fn timed(&self, section: &Section, tune: &mut Tune, losses: &mut Losses) -> Timed {
        let places = &self.course[section.places.clone()];
        let first = places.iter().find(|p| !p.silent).unwrap_or(&places[0]);
        let written = first.meter.meter();
        let brought = lengths::bring(tune, written);
        let at = Some(first.measure);
        let factor = match brought {
            Brought::AsTheyAre => 1,
            Brought::Longer(factor) => {
                let what = format!(
                    "notes shorter than a sixteenth: all of it is written {} as long, and played {} as fast",
                    times_word(factor),
                    times_word(factor)
                );
                losses.lose(at, what);
                factor
            }
            Brought::Rounded(factor) => {
                let what = "uneven groups of notes are moved to the nearest sixteenths";
                losses.lose(at, what);
                factor
            }
        };
        let meter = match factor {
            1 => written,
            factor => lengths::longer_meter(written, factor).unwrap_or(written),
        };
        let quarters = first.tempo.unwrap_or_else(|| {
            let click = written.click();
            let click = Ratio::new(i128::from(*click.numer()), i128::from(*click.denom()));
            Ratio::from_integer(i128::from(UNSAID_TEMPO) * 4) * click
        });
        let faster = quarters * Ratio::from_integer(i128::from(factor));
        let asked = course::clicks(faster, meter);
        let (slowest, fastest) = (tempo::SLOWEST, tempo::FASTEST);
        let clicks = asked.clamp(
            Decimal::from_integer(slowest),
            Decimal::from_integer(fastest),
        );
        if clicks != asked {
            let what = format!("a tempo of {asked} clicks a minute is {clicks} here");
            losses.lose(at, what);
        }
        Timed {
            meter,
            clicks,
            said: first.tempo.is_some(),
        }
    }

    /// Names of the lines, each its own.
    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = vec![];
        for section in self.sections {
            let own = section.name.as_deref().map(toml::plain);
            let name = own
                .filter(|name| !name.is_empty())
                .unwrap_or_else(|| self.bars_of(section));
            let mut numbered = name.clone();
            let mut number = 2;
            while names.contains(&numbered) {
                numbered = format!("{name} ({number})");
                number += 1;
            }
            names.push(numbered);
        }
        names
    }

    /// "Bars 5 to 8".
    fn bars_of(&self, section: &Section) -> String {
        let places = &self.course[section.places.clone()];
        let sounding = || places.iter().filter(|p| !p.silent);
        let label = |played: Option<&Played>| {
            let measure = played.map_or(0, |p| p.measure);
            match toml::plain(&self.piece.measures[measure].label) {
                label if label.is_empty() || label.len() > 12 => (measure + 1).to_string(),
                label => label,
            }
        };
        let (first, last) = (label(sounding().next()), label(sounding().next_back()));
        if first == last {
            format!("Bar {first}")
        } else {
            format!("Bars {first} to {last}")
        }
    }

    fn field(&self, name: &str) -> Option<&str> {
        let mut fields = self.piece.fields.iter();
        fields
            .find(|(of, _)| of == name)
            .map(|(_, value)| value.as_str())
    }

    /// How far the file says that the routine reaches.
    fn reach(&self, top: WrittenPitch) -> Option<WrittenPitch> {
        let reach = WrittenPitch::parse(self.field(words::REACH)?.trim())?;
        let fits = self.choice.instrument.can_reach(reach) && reach.number() >= top.number();
        fits.then_some(reach)
    }

    fn head(&self, tunes: &[Tune], timings: &[Timed], said: &mut Vec<String>) -> toml::Head {
        let instrument = self.choice.instrument;
        let of_field = self.field(words::COMFORTABLE_TOP);
        let is_top = |top: &WrittenPitch| Level::all().any(|l| l.open_top(instrument) == *top);
        let known = of_field.and_then(|text| WrittenPitch::parse(text.trim()));
        let known = known.filter(is_top);
        let (top, reach) = match known {
            Some(top) => (top, self.reach(top)),
            None => guesses::comfort(tunes, instrument),
        };
        if known.is_none() {
            let reaching = reach.map_or(String::new(), |reach| {
                format!(", and that it reaches {reach}")
            });
            said.push(format!(
                "it is a guess that {top} is easy{reaching}: at least 85 % of the playing lies at or below {top}"
            ));
        }
        let (tempo, tempo_said) = most(timings, |t| (t.clicks, t.said));
        if !tempo_said {
            said.push(format!(
                "no tempo is written: it is set to {tempo} clicks a minute"
            ));
        }
        let title = self.piece.title.as_deref().map(toml::plain);
        let title = title
            .filter(|title| !title.is_empty())
            .unwrap_or_else(|| toml::plain(&self.choice.title));
        let purpose = self.field(words::PURPOSE).map(toml::plain);
        toml::Head {
            source: self.choice.source.clone(),
            title: if title.is_empty() {
                "Routine".to_owned()
            } else {
                title
            },
            purpose: purpose.filter(|p| !p.is_empty()),
            instrument: instrument.name,
            comfortable_top: top,
            reach,
            guessed: known.is_none(),
            tempo: tempo.to_string(),
            tempo_guessed: !tempo_said,
            meter: most(timings, |t| t.meter),
        }
    }

    fn lines(
        &self,
        tunes: Vec<Tune>,
        timings: &[Timed],
        names: &[String],
        head: &toml::Head,
        losses: &mut Losses,
        said: &mut Vec<String>,
    ) -> Vec<toml::Line> {
        let mut level = Dynamic::Mf;
        let mut owed = Owed::default();
        let mut unwritten = false;
        let mut lines = vec![];
        let silences: Vec<f64> = (0..tunes.len()).map(|i| self.silence(&tunes, i)).collect();
        for (index, tune) in tunes.into_iter().enumerate() {
            let timed = &timings[index];
            let before = level;
            let (steps, after) = loudness::resolve(&tune.changes, &tune.events, before, losses);
            level = after;
            let next = self.sections.get(index + 1);
            let rest = match &tune.rest {
                _ if next.is_none() => After::Nothing,
                _ if tune.goes_on => After::GoesOn,
                Some(words) => After::Words(words),
                None if silences[index] > 0.0 => After::Lasts(silences[index]),
                None if next.is_some_and(|n| n.goes_on) => After::GoesOn,
                None => After::Unwritten,
            };
            unwritten |= matches!(rest, After::Unwritten);
            let made = self.line(&tune, &steps, before, timed, losses);
            let bar_seconds = rests::bar_seconds(timed.clicks, timed.meter);
            let passes = made.passes;
            let mut line = made.line;
            let rests = owed.line(&passes, &rest, bar_seconds);
            line.between = rests.between;
            line.rest = rests.after;
            line.name.clone_from(&names[index]);
            let tempo = timed.clicks.to_string();
            line.tempo = (tempo != head.tempo).then_some(tempo);
            line.meter = (timed.meter != head.meter).then_some(timed.meter);
            lines.push(line);
        }
        if unwritten {
            said.push(
                "where no rest is written after a line, one rests for as long as it was played; rest = \"none\" goes \
                 straight on"
                    .to_owned(),
            );
        }
        lines
    }

    /// Seconds of rest from a line's last note to the next line's first bar.
    fn silence(&self, tunes: &[Tune], index: usize) -> f64 {
        let of = |section: &Section, first: bool, count: usize| -> f64 {
            let places = &self.course[section.places.clone()];
            let places = if first {
                &places[..count.min(places.len())]
            } else {
                &places[places.len() - count.min(places.len())..]
            };
            places.iter().map(|played| self.seconds(played)).sum()
        };
        let Some(next) = self.sections.get(index + 1) else {
            return 0.0;
        };
        of(&self.sections[index], false, tunes[index].rest_bars)
            + of(next, true, tunes[index + 1].lead_bars)
    }

    fn seconds(&self, played: &Played) -> f64 {
        let meter = played.meter.meter();
        let length = if self.piece.rests_by_clock {
            self.piece.measures[played.measure].length
        } else {
            meter.bar()
        };
        match played.tempo {
            Some(quarters) => course::seconds(length, quarters),
            None => {
                let clicks = length / meter.click();
                let clicks = *clicks.numer() as f64 / *clicks.denom() as f64;
                clicks * 60.0 / UNSAID_TEMPO as f64
            }
        }
    }

    fn line(
        &self,
        tune: &Tune,
        steps: &[Step],
        level: Dynamic,
        timed: &Timed,
        losses: &mut Losses,
    ) -> Made {
        let instrument = self.choice.instrument;
        let has_notes = tune.events.iter().any(|e| e.pitch().is_some());
        let on = match (has_notes, tune.mouthpiece) {
            (false, _) => Some("air"),
            (true, true) => Some("mouthpiece"),
            (true, false) => None,
        };
        let found = patterns::find(tune, steps, level, instrument, on.is_none());
        let pattern = found.unwrap_or_else(|| whole(tune, steps, level, timed.meter));
        let moved = match &pattern.walk {
            Walk::Tubes(tubes) => instrument.tube_half_steps(tubes[0]),
            _ => 0,
        };
        let writing = language::Writing {
            instrument,
            fingerings: on.is_none() && moved == 0 && !matches!(pattern.walk, Walk::Tubes(_)),
            moved,
        };
        let unit = &pattern.unit;
        let mut steps = unit.steps.clone();
        if has_notes {
            let word = Word::Dynamic(unit.level);
            let at = Whole::default();
            steps.insert(0, Step { at, bar: 0, word });
        }
        let lines: Vec<_> = lengths::bar_lines(tune)
            .into_iter()
            .take(pattern.bars.saturating_sub(1))
            .collect();
        let cuts: Vec<_> = steps.iter().map(|s| s.at).collect();
        let atoms = lengths::atoms(&unit.events, &cuts, &lines)
            .or_else(|| lengths::atoms(&unit.events, &[], &lines))
            .unwrap_or_default();
        let notes = language::notes(&unit.events, &atoms, &steps, &lines, writing, losses);
        let articulation = articulation(&pattern.articulations);
        let (purpose, say) = self.heading(tune);
        let comment = |(measure, words): &(usize, String)| {
            let label = &self.piece.measures[*measure].label;
            format!("Bar {label}: {words}")
        };
        Made {
            passes: Passes {
                count: pattern.count,
                bars: pattern.bars,
                between: pattern.between,
            },
            line: toml::Line {
                name: String::new(),
                purpose,
                say,
                comments: tune.words.iter().map(comment).collect(),
                on,
                notes,
                open: matches!(pattern.walk, Walk::Tubes(_)),
                walk: walk(&pattern.walk),
                times: pattern.times,
                articulation,
                between: None,
                rest: None,
                tempo: None,
                meter: None,
                guide: tune.echo.then_some("echo"),
            },
        }
    }

    /// What a line is for, and how to play it.
    fn heading(&self, tune: &Tune) -> (Option<String>, Option<String>) {
        let mut purpose = None;
        let mut say: Vec<String> = vec![];
        for words in &tune.heading {
            match words.strip_prefix(words::FOR) {
                Some(text) if purpose.is_none() => purpose = Some(toml::plain(text)),
                _ => say.push(words.clone()),
            }
        }
        let say = toml::plain(&say.join(" "));
        (
            purpose.filter(|p| !p.is_empty()),
            Some(say).filter(|s| !s.is_empty()),
        )
    }
}

/// A line, and how often it is played.
struct Made {
    line: toml::Line,
    passes: Passes,
}

/// A tune that is no pattern, as one that is played once.
fn whole(tune: &Tune, steps: &[Step], level: Dynamic, meter: Meter) -> Pattern {
    let mut steps = steps.to_vec();
    let mut level = level;
    while let Some(Step {
        word: Word::Dynamic(dynamic),
        at,
        ..
    }) = steps.first()
        && *at == Default::default()
    {
        level = *dynamic;
        steps.remove(0);
    }
    let length = tune
        .events
        .last()
        .map_or_else(Default::default, |e| e.end());
    let bars = if tune.regular {
        tune.bars.len()
    } else {
        let bars = (length / meter.bar()).ceil().to_integer();
        usize::try_from(bars).unwrap_or(1)
    };
    Pattern {
        unit: Unit {
            events: tune.events.clone(),
            steps,
            level,
        },
        bars,
        between: 0,
        count: 1,
        times: 1,
        walk: Walk::Stays,
        articulations: vec![],
    }
}

fn walk(walk: &Walk) -> Option<String> {
    match walk {
        Walk::Stays => None,
        Walk::HalfSteps(moves) => {
            let moves: Vec<String> = moves.iter().map(i32::to_string).collect();
            Some(format!("half_steps = [{}]", moves.join(", ")))
        }
        Walk::Tubes(tubes) => {
            let tubes: Vec<String> = tubes.iter().map(|t| format!("\"{t}\"")).collect();
            Some(format!("tubes = [{}]", tubes.join(", ")))
        }
    }
}

fn articulation(all: &[Articulation]) -> Option<String> {
    let words: Vec<String> = all.iter().map(|a| format!("\"{}\"", a.word())).collect();
    (!words.is_empty()).then(|| format!("[{}]", words.join(", ")))
}

fn times_word(factor: i64) -> &'static str {
    if factor == 2 { "twice" } else { "four times" }
}

/// What most lines have; of several the first.
fn most<T: PartialEq + Copy>(timings: &[Timed], of: impl Fn(&Timed) -> T) -> T {
    let all: Vec<T> = timings.iter().map(of).collect();
    let count = |value: &T| all.iter().filter(|v| *v == value).count();
    let most = all.iter().map(count).max().unwrap_or(0);
    let found = all.iter().find(|value| count(value) == most);
    *found.expect("there are lines")
}
