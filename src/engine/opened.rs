//! A routine opened at a take: read, pencilled, unrolled, compiled, checked, and described.

use super::answer::{In, Said};
use super::marks::{self, MarkInWords};
use super::request::{self, OpenRequest};
use super::strips;
use crate::check::{self, Finding, Options, Report};
use crate::music::{Seconds, SoundingPitch, Tempo, Whole, WrittenPitch};
use crate::pencil::{self, LaidLine, Pencil};
use crate::routine::{self, Articulation, On, Routine, source::row_and_column};
use crate::score::{
    Joined, Pass, Played, Score, ScoreLine, ScoreNote, Take, TakeFault, spoken, unroll,
};
use crate::sheet::course::course;
use crate::timeline::frames::nearest;
use crate::timeline::{Content, LineSound, Settings, Sign, Timeline, Unit, compile};
use num_traits::ToPrimitive;
use serde::Serialize;

/// What is open.
pub struct Open {
    /// The routine as its teacher wrote it.
    pub teacher: Routine,
    /// The marks that are laid over it.
    pub pencil: Option<Pencil>,
    /// The take.
    pub take: Take,
    /// The player's version at that take.
    pub timeline: Timeline,
}

/// What is said of a routine that was opened.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Opened {
    ok: bool,
    id: u32,
    title: String,
    purpose: Option<String>,
    words: Option<String>,
    instrument: &'static str,
    comfortable_top: String,
    reach: Option<String>,
    take: TakeInWords,
    sample_rate: u32,
    frames: u64,
    seconds: f64,
    lines: Vec<Line>,
    course: String,
    left_out: Vec<LeftOut>,
    notices: Vec<String>,
    findings: Vec<FindingInWords>,
    summary: Summary,
    pencil: Option<PencilInWords>,
}

#[derive(Debug, Serialize)]
struct TakeInWords {
    words: String,
    tempo: String,
    clicks: f64,
    key: i32,
    guide: &'static str,
    a4: f64,
}

#[derive(Debug, Serialize)]
struct LeftOut {
    of: usize,
    name: String,
}

#[derive(Debug, Serialize)]
struct FindingInWords {
    severity: &'static str,
    rule: &'static str,
    r#in: In,
    of: Option<usize>,
    row: usize,
    column: usize,
    message: String,
    hint: Option<String>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Summary {
    seconds: f64,
    playing_seconds: f64,
    rest_seconds: f64,
    lowest: Option<String>,
    highest: Option<String>,
    breaths: usize,
}

#[derive(Debug, Serialize)]
struct PencilInWords {
    player: Option<String>,
    marks: Vec<MarkInWords>,
    faults: Vec<Said>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Line {
    index: usize,
    of: usize,
    number: usize,
    name: String,
    purpose: Option<String>,
    say: Option<String>,
    words: Option<String>,
    on: &'static str,
    tempo: f64,
    meter: String,
    clicks_a_bar: u32,
    guide: &'static str,
    first_frame: u64,
    frames: u64,
    bar_line: u64,
    count_in: u64,
    beats: Vec<Beat>,
    passes: Vec<PassAt>,
    rest: Option<Rest>,
    marks: Vec<usize>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Beat {
    frame: u64,
    beat: u32,
    count_in: bool,
    click: bool,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct PassAt {
    frame: u64,
    end: u64,
    turn: Option<u64>,
    label: Option<String>,
    half_steps: i32,
    tube: Option<String>,
    articulation: &'static str,
    repetition: u32,
    sheet: Option<usize>,
    notes: Vec<NoteAt>,
}

#[derive(Debug, Serialize)]
struct NoteAt {
    frame: u64,
    frames: u64,
    breath: u64,
    kind: &'static str,
    written: Option<String>,
    sounding: Option<String>,
    fingering: Option<String>,
    partial: Option<u8>,
    joined: &'static str,
    note: usize,
    id: Option<String>,
}

#[derive(Debug, Serialize)]
struct Rest {
    unit: usize,
    frames: u64,
    seconds: f64,
    signs: Vec<SignAt>,
}

#[derive(Debug, Serialize)]
struct SignAt {
    frame: u64,
    sign: &'static str,
}

/// Opens a routine under a number.
pub fn open(request: OpenRequest, id: u32) -> Result<(Open, Opened), Vec<Said>> {
    let (take, signs) = request.take.take()?;
    let sample_rate = request::rate(request.sample_rate)?;
    let age = request::age(request.age.as_deref())?;
    let options = Options {
        age,
        ..Options::default()
    };
    let text = &request.routine;
    let teacher = routine::read(text).map_err(|faults| Said::faults(In::Routine, text, &faults))?;
    let Version {
        routine,
        lines,
        pencil,
        marks,
        cut_rest,
    } = Version::of(&teacher, request.pencil.as_deref())?;

    let score = unroll(&routine, &take).map_err(|fault| refused(&fault, &take, &routine))?;
    // Without a pencil both are one.
    let printed = match pencil {
        Some(_) => unroll(&teacher, &take).ok(),
        None => None,
    };
    let timeline = compile(&score, &Settings { sample_rate, signs });
    let report = check::check(&score, &options);

    let finding = |finding: &Finding, r#in: In, text: &str| {
        let (row, column) = row_and_column(text, finding.span.start);
        FindingInWords {
            severity: finding.severity.word(),
            rule: finding.rule,
            r#in,
            of: finding.line.map(|line| lines[line].of),
            row,
            column,
            message: finding.message.clone(),
            hint: finding.hint.clone(),
        }
    };
    let findings = report.findings.iter();
    let mut findings: Vec<_> = findings.map(|f| finding(f, In::Routine, text)).collect();
    if let (Some(cut_rest), Some(text)) = (cut_rest, &request.pencil) {
        let plain = printed.as_ref().map(|score| check::check(score, &options));
        let cut = cut_rest(&report, plain.as_ref());
        findings.extend(cut.iter().map(|f| finding(f, In::Pencil, text)));
    }
    let describe = Describe {
        score: &score,
        printed: match pencil {
            Some(_) => printed.as_ref(),
            None => Some(&score),
        },
        lines: &lines,
        timeline: &timeline,
    };
    let played: Vec<Line> = (0..score.lines.len()).map(|i| describe.line(i)).collect();
    let left_out = teacher.lines.iter().enumerate();
    let left_out = left_out
        .filter(|(of, _)| played.iter().all(|line| line.of != *of))
        .map(|(of, line)| LeftOut {
            of,
            name: line.name.clone(),
        });
    let name = |pitch: Option<WrittenPitch>| pitch.map(|pitch| pitch.to_string());
    let summary = &report.summary;
    let answer = Opened {
        ok: true,
        id,
        title: routine.title.clone(),
        purpose: routine.purpose.clone(),
        words: routine.words.clone(),
        instrument: routine.instrument.name,
        comfortable_top: routine.comfortable_top.to_string(),
        reach: name(routine.reach),
        take: TakeInWords {
            words: spoken::in_words(&take, &routine),
            tempo: take.tempo.to_string(),
            clicks: take.tempo.base(&routine).map_or(0.0, Tempo::as_f64),
            key: take.key,
            guide: take.guide.word(),
            a4: take.tuning.a4_hz(),
        },
        sample_rate,
        frames: timeline.frames,
        seconds: score.seconds.to_f64().unwrap_or_default(),
        left_out: left_out.collect(),
        lines: played,
        course: course(&score, |index| lines[index].of),
        notices: score.notices.iter().map(|n| n.message.clone()).collect(),
        findings,
        summary: Summary {
            seconds: summary.seconds,
            playing_seconds: summary.playing_seconds,
            rest_seconds: summary.rest_seconds,
            lowest: name(summary.lowest),
            highest: name(summary.highest),
            breaths: summary.breaths,
        },
        pencil,
    };
    drop(printed);
    Ok((
        Open {
            teacher,
            pencil: marks,
            take,
            timeline,
        },
        answer,
    ))
}

/// Why a take of this routine cannot be.
pub fn refused(fault: &TakeFault, take: &Take, routine: &Routine) -> Vec<Said> {
    vec![Said::problem(
        In::Take,
        "",
        spoken::refusal(fault, take, routine),
    )]
}

/// What a pencil's marks take away of the rest, from the reports on the player's and the teacher's version.
type CutRest = Box<dyn Fn(&Report, Option<&Report>) -> Vec<Finding>>;

/// The player's version of a routine.
struct Version {
    routine: Routine,
    lines: Vec<LaidLine>,
    pencil: Option<PencilInWords>,
    marks: Option<Pencil>,
    cut_rest: Option<CutRest>,
}

impl Version {
    /// The routine with a pencil over it, if there is one; marks that do not fit are told and left out.
    fn of(teacher: &Routine, text: Option<&str>) -> Result<Self, Vec<Said>> {
        let Some(text) = text else {
            let of_itself = |of| LaidLine { of, marks: vec![] };
            return Ok(Self {
                lines: (0..teacher.lines.len()).map(of_itself).collect(),
                routine: teacher.clone(),
                pencil: None,
                marks: None,
                cut_rest: None,
            });
        };
        let read = pencil::read(text);
        // Of a text that is no pencil nothing is applied: the teacher's own version is no answer to it.
        let Some(pencil) = read.pencil else {
            return Err(Said::faults(In::Pencil, text, &read.faults));
        };
        let laid = pencil::lay(&pencil, teacher);
        let mut faults = read.faults;
        faults.extend(laid.faults.iter().cloned());
        faults.sort_by_key(|f| (f.span.start, f.span.end));
        Ok(Self {
            routine: laid.routine.clone(),
            lines: laid.lines.clone(),
            pencil: Some(PencilInWords {
                player: pencil.player.clone(),
                marks: marks::in_words(&pencil, teacher),
                faults: Said::faults(In::Pencil, text, &faults),
            }),
            marks: Some(pencil.clone()),
            cut_rest: cuts(&pencil).then(|| {
                let check: CutRest = Box::new(move |report, plain| {
                    check::pencilled::check(&pencil, &laid, report, plain)
                });
                check
            }),
        })
    }
}

/// True if a mark of it may take rest away.
fn cuts(pencil: &Pencil) -> bool {
    pencil.marks.iter().any(|m| m.change.may_cut_rest())
}

/// Describes the lines of a score.
struct Describe<'a> {
    score: &'a Score<'a>,
    /// The teacher's own version at this take, which is what the sheet shows.
    printed: Option<&'a Score<'a>>,
    lines: &'a [LaidLine],
    timeline: &'a Timeline,
}

impl Describe<'_> {
    fn line(&self, index: usize) -> Line {
        let line = &self.score.lines[index];
        let written = &self.score.routine.lines[line.index];
        let LaidLine { of, marks } = &self.lines[line.index];
        let rate = self.timeline.sample_rate;
        let unit = &self.timeline.units[2 * index + 1];
        let at = |moment: Whole| nearest(line.seconds(line.count_in + moment), rate);
        let printed = self
            .printed
            .and_then(|score| score.lines.iter().find(|printed| printed.index == *of));
        let passes = line.passes.iter().map(|pass| {
            let sheet = printed.and_then(|printed| on_sheet(pass, printed));
            PassAt {
                frame: at(pass.start),
                end: at(pass.end()),
                turn: pass.turn.then(|| at(pass.start + pass.length)),
                label: spoken::pass_name(written, pass),
                half_steps: pass.half_steps,
                tube: pass.tube.map(|tube| tube.to_string()),
                articulation: articulation(pass.articulation),
                repetition: pass.repetition,
                sheet: sheet.map(|(number, _)| number),
                notes: notes(pass, &at, rate, |note| {
                    let (number, printed) = sheet?;
                    (note < printed.notes.len()).then(|| strips::id(*of, number, note))
                }),
            }
        });
        Line {
            index,
            of: *of,
            number: of + 1,
            name: written.name.clone(),
            purpose: written.purpose.clone(),
            say: written.say.clone(),
            words: written.words.clone(),
            on: match line.on {
                On::Horn => "horn",
                On::Mouthpiece => "mouthpiece",
                On::Air => "air",
            },
            tempo: line.tempo.as_f64(),
            meter: line.meter.to_string(),
            clicks_a_bar: line.meter.clicks_per_bar(),
            guide: line.guide.word(),
            first_frame: unit.first_frame,
            frames: unit.frames,
            bar_line: at(line.length),
            count_in: at(Whole::from_integer(0)),
            beats: beats(line, unit, rate),
            passes: passes.collect(),
            rest: self.rest(index),
            marks: marks.clone(),
        }
    }

    fn rest(&self, index: usize) -> Option<Rest> {
        let seconds = self.score.lines[index].rest?.seconds;
        let number = 2 * index + 2;
        let unit = self.timeline.units.get(number)?;
        let signs = match &unit.content {
            Content::Rest(rest) => &rest.signs[..],
            Content::Line(_) => &[],
        };
        let sign = |&(frame, sign): &(u64, Sign)| SignAt {
            frame,
            sign: match sign {
                Sign::HornDown => "horn down",
                Sign::HornUp => "horn up",
            },
        };
        Some(Rest {
            unit: number,
            frames: unit.frames,
            seconds: seconds.to_f64().unwrap_or_default(),
            signs: signs.iter().map(sign).collect(),
        })
    }
}

/// The first pass of the printed line that is moved as this one is, for that is the one that is written out; best the
/// one at the same place of its walk.
fn on_sheet<'p>(pass: &Pass, printed: &'p ScoreLine) -> Option<(usize, &'p Pass)> {
    let moved = |p: &Pass| (p.half_steps, p.tube) == (pass.half_steps, pass.tube);
    let alike = || printed.passes.iter().enumerate().filter(|(_, p)| moved(p));
    alike()
        .find(|(_, p)| p.walk_index == pass.walk_index)
        .or_else(|| alike().next())
}

fn articulation(articulation: Articulation) -> &'static str {
    let mut words = Articulation::WORDS.iter();
    words
        .find(|(_, one)| *one == articulation)
        .map_or("", |(word, _)| word)
}

fn notes(
    pass: &Pass,
    at: &impl Fn(Whole) -> u64,
    rate: u32,
    id: impl Fn(usize) -> Option<String>,
) -> Vec<NoteAt> {
    let one = |(number, note): (usize, &ScoreNote)| {
        let start = pass.start + note.start;
        let (frame, end) = (at(start), at(start + note.length));
        let (kind, pitch) = match note.played {
            Played::Pitch { .. } => ("note", Some(note.played)),
            Played::In => ("in", None),
            Played::Out => ("out", None),
        };
        let (written, sounding, fingering, partial) = match pitch {
            Some(Played::Pitch {
                written,
                sounding,
                valves,
                partial,
            }) => (
                Some(written),
                Some(sounding),
                valves.map(|valves| valves.to_string()),
                partial,
            ),
            _ => (None, None, None, None),
        };
        NoteAt {
            frame,
            frames: end - frame,
            breath: note
                .breath
                .map_or(0, |breath: Seconds| nearest(breath, rate)),
            kind,
            written: written.map(|pitch: WrittenPitch| pitch.to_string()),
            sounding: sounding.map(|pitch: SoundingPitch| pitch.to_string()),
            fingering,
            partial,
            joined: match note.joined {
                Joined::Fresh(_) => "fresh",
                Joined::Slurred => "slurred",
                Joined::Bent => "bent",
            },
            note: number,
            id: id(number),
        }
    };
    pass.notes.iter().enumerate().map(one).collect()
}

/// Every beat of a line, from its count-in's first to its last bar line.
fn beats(line: &ScoreLine, unit: &Unit, rate: u32) -> Vec<Beat> {
    let click = line.meter.click();
    let a_bar = line.meter.clicks_per_bar();
    let count = ((line.count_in + line.length) / click).to_integer();
    let clicks = match &unit.content {
        Content::Line(LineSound { clicks, .. }) => &clicks[..],
        Content::Rest(_) => &[],
    };
    let beat = |n: i64| {
        let moment = click * Whole::from_integer(n);
        let frame = nearest(line.seconds(moment), rate);
        Beat {
            frame,
            // A line has far fewer beats than fit.
            beat: n as u32 % a_bar + 1,
            count_in: moment < line.count_in,
            click: clicks.binary_search_by_key(&frame, |c| c.frame).is_ok(),
        }
    };
    (0..count).map(beat).collect()
}
