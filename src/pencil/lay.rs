//! Lays a pencil over a routine, which gives the player's version of it.

use super::bounds::{FASTER, LONGER, SHORTER, SLOWER};
use super::mark::{Change, Mark, Pencil, RestChange, Stop, Target, TempoChange};
use super::notes::{self, Unfit};
use crate::music::{Decimal, Tempo};
use crate::routine::notes::Phrase;
use crate::routine::resolve::{Setting, resolve};
use crate::routine::suggest::nearest;
use crate::routine::{Articulation, Fault, Line, On, RestLength, Routine, Walk};
use crate::words::{count, list};
use num_rational::Ratio;

/// A routine with a pencil laid over it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The player's version.
    pub routine: Routine,
    /// Where each of its lines comes from, in order.
    pub lines: Vec<LaidLine>,
    /// The marks that do not fit, with their places in the pencil. All others are applied.
    pub faults: Vec<Fault>,
}

/// A line of the player's version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaidLine {
    /// Index of the line in the teacher's routine.
    pub of: usize,
    /// Indices of the marks that changed it, those on the whole routine included.
    pub marks: Vec<usize>,
}

/// Lays the marks of a pencil over a routine, which stays as it is.
///
/// A mark on a line overrides one of the same kind on the whole routine. If two marks contradict each other, the
/// first one counts.
pub fn lay(pencil: &Pencil, routine: &Routine) -> Laid {
    let mut layer = Layer {
        pencil,
        teacher: routine,
        routine: routine.clone(),
        faults: Vec::new(),
    };
    let places = layer.places();
    layer.whole(&places);
    let mut lines = Vec::new();
    let mut left_out = Vec::new();
    // Marks on the whole routine that changed at least one line.
    let mut used = vec![false; pencil.marks.len()];
    for of in 0..routine.lines.len() {
        let marks = layer.line(of, &places, &mut used);
        match marks
            .iter()
            .find(|m| pencil.marks[**m].change == Change::LeaveOut)
        {
            Some(mark) => left_out.push((of, *mark)),
            None => lines.push(LaidLine { of, marks }),
        }
    }
    if lines.is_empty() {
        // A routine needs at least one line, so the last one that was left out stays.
        if let Some((of, mark)) = left_out.pop() {
            let last = &pencil.marks[mark];
            layer.faults.push(
                Fault::new(last.span, "every line is left out").hint("keep at least one line"),
            );
            lines.push(LaidLine { of, marks: vec![] });
        }
    }
    layer.unused(&places, &used);
    layer.last_rest(&mut lines);
    let Layer {
        mut routine,
        mut faults,
        ..
    } = layer;
    if lines.len() < routine.lines.len() {
        let mut index = 0;
        routine.lines.retain(|_| {
            index += 1;
            lines.iter().any(|line| line.of == index - 1)
        });
    }
    faults.sort_by_key(|f| (f.span.start, f.span.end));
    Laid {
        routine,
        lines,
        faults,
    }
}

/// Where a mark belongs.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Whole,
    Line(usize),
    /// It does not fit, and the fault is recorded.
    Nowhere,
}

/// The line that a mark is made on, `None` for the whole routine. The error is a message and a hint.
pub fn find_line(target: &Target, routine: &Routine) -> Result<Option<usize>, (String, String)> {
    let lines = &routine.lines;
    match target {
        Target::Whole => Ok(None),
        Target::Number(number) => match number.checked_sub(1) {
            Some(index) if index < lines.len() => Ok(Some(index)),
            _ => Err((
                format!("there is no line {number} in “{}”", routine.title),
                format!(
                    "it has {}; name the line by its name",
                    count::lines(lines.len())
                ),
            )),
        },
        Target::Name(name) => {
            let same = |line: &Line| line.name.to_lowercase() == name.to_lowercase();
            let found: Vec<usize> = (0..lines.len()).filter(|i| same(&lines[*i])).collect();
            match found[..] {
                [one] => Ok(Some(one)),
                [] => {
                    let names = lines.iter().map(|line| line.name.as_str());
                    Err((
                        format!("there is no line called “{name}” in “{}”", routine.title),
                        match nearest(name, names) {
                            Some(meant) => format!("did you mean “{meant}”?"),
                            None => format!(
                                "the teacher may have changed it; its lines are numbered 1 to {}",
                                lines.len()
                            ),
                        },
                    ))
                }
                _ => {
                    let numbers: Vec<String> =
                        found.iter().map(|index| (index + 1).to_string()).collect();
                    Err((
                        format!("{} lines are called “{name}”", found.len()),
                        format!("name it by its number: {}", list::or(&numbers)),
                    ))
                }
            }
        }
    }
}

struct Layer<'a> {
    pencil: &'a Pencil,
    teacher: &'a Routine,
    routine: Routine,
    faults: Vec<Fault>,
}

impl Layer<'_> {
    /// Where each mark belongs. Conflicts become faults.
    fn places(&mut self) -> Vec<Place> {
        let marks = &self.pencil.marks;
        let mut places = Vec::with_capacity(marks.len());
        for (number, mark) in marks.iter().enumerate() {
            let place = match find_line(&mark.target, self.teacher) {
                Ok(None) => Place::Whole,
                Ok(Some(index)) => Place::Line(index),
                Err((message, hint)) => {
                    let fault = Fault::new(mark.target_span, message).hint(hint);
                    // A table with several marks names its line once.
                    if !self.faults.contains(&fault) {
                        self.faults.push(fault);
                    }
                    Place::Nowhere
                }
            };
            let before = (0..number).find(|other| {
                place != Place::Nowhere
                    && places[*other] == place
                    && marks[*other].change.conflicts(&mark.change)
            });
            if let Some(other) = before {
                self.conflict(&marks[other], mark, place);
                places.push(Place::Nowhere);
            } else {
                places.push(place);
            }
        }
        places
    }

    fn conflict(&mut self, first: &Mark, second: &Mark, place: Place) {
        let where_ = match place {
            Place::Line(index) => format!("line {}", index + 1),
            Place::Whole | Place::Nowhere => "the whole routine".to_owned(),
        };
        let leaves_out = [first, second].iter().any(|m| m.change == Change::LeaveOut);
        let (message, hint) = if leaves_out && first.change != second.change {
            (
                format!("{where_} is left out and has another mark as well"),
                "take one of the two back: a line that is left out needs no other mark".to_owned(),
            )
        } else if first.change == second.change {
            (
                format!("{where_} has this mark twice"),
                "keep one; for a larger change write a percentage".to_owned(),
            )
        } else {
            (
                format!("{where_} has two marks that contradict each other"),
                format!("keep one {}", second.change.kind()),
            )
        };
        self.faults.push(
            Fault::new(second.span, message)
                .also(first.span, "the first")
                .hint(hint),
        );
    }

    /// Applies marks on the routine itself, and tempo, which changes the base tempo and with it every line.
    fn whole(&mut self, places: &[Place]) {
        for (mark, place) in self.pencil.marks.iter().zip(places) {
            if *place != Place::Whole {
                continue;
            }
            match &mark.change {
                Change::Words(words) => self.routine.words = Some(words.clone()),
                Change::Tempo(change) => {
                    let base = self.teacher.tempo;
                    let factor = factor(*change, base);
                    let whole_title = format!("“{}”", self.teacher.title);
                    match scaled(base, factor, &whole_title) {
                        Ok(tempo) => self.routine.tempo = tempo,
                        Err(unfit) => {
                            self.unfit(mark, unfit);
                            continue;
                        }
                    }
                    for index in 0..self.routine.lines.len() {
                        let line = &mut self.routine.lines[index];
                        let Some(own) = line.tempo else { continue };
                        match scaled(own, factor, &format!("“{}”", line.name)) {
                            Ok(tempo) => line.tempo = Some(tempo),
                            Err(unfit) => self.unfit(mark, unfit),
                        }
                    }
                }
                _ => {}
            }
        }
    }

    fn unfit(&mut self, mark: &Mark, unfit: Unfit) {
        self.faults
            .push(Fault::new(mark.span, unfit.message).hint(unfit.hint));
    }

    /// Applies the marks of a line and returns those that changed it.
    fn line(&mut self, index: usize, places: &[Place], used: &mut [bool]) -> Vec<usize> {
        let marks = &self.pencil.marks;
        let at = |place: Place| -> Vec<usize> {
            (0..marks.len()).filter(|m| places[*m] == place).collect()
        };
        let own = at(Place::Line(index));
        let mut wanted = own.clone();
        for mark in at(Place::Whole) {
            let kind = marks[mark].change.kind();
            let of_line = own.iter().any(|m| marks[*m].change.kind() == kind);
            if !of_line {
                wanted.push(mark);
            }
        }
        // What is played comes before how it is played, and bends come before breaths, which would separate the notes.
        wanted.sort_by_key(|mark| order(&marks[*mark].change));
        let mut applied = Vec::new();
        for number in wanted {
            let mark = &marks[number];
            let whole = places[number] == Place::Whole;
            if whole && matches!(mark.change, Change::Tempo(_) | Change::Words(_)) {
                used[number] = true;
                if matches!(mark.change, Change::Tempo(_)) {
                    applied.push(number);
                }
                continue;
            }
            let mut line = self.routine.lines[index].clone();
            match apply(
                &mut line,
                &mark.change,
                &self.teacher.lines[index],
                self.teacher,
            ) {
                Ok(()) => {
                    self.routine.lines[index] = line;
                    applied.push(number);
                    used[number] = true;
                }
                // A mark on the whole routine means the lines it can apply to: softer does not apply to breathing.
                Err(_) if whole => {}
                Err(unfit) => {
                    let name = &self.teacher.lines[index].name;
                    let message = format!("“{name}”: {}", unfit.message);
                    self.faults
                        .push(Fault::new(mark.span, message).hint(unfit.hint));
                }
            }
        }
        applied.sort_unstable();
        applied
    }

    /// Reports marks on the whole routine that apply to no line.
    fn unused(&mut self, places: &[Place], used: &[bool]) {
        for (number, mark) in self.pencil.marks.iter().enumerate() {
            if places[number] == Place::Whole && !used[number] {
                self.faults.push(
                    Fault::new(mark.span, "this mark applies to no line of this routine")
                        .hint("take it back, or name the line it is for"),
                );
            }
        }
    }

    /// Reports a mark on the rest after the last line, because there is none.
    fn last_rest(&mut self, lines: &mut [LaidLine]) {
        let Some(last) = lines.last_mut() else { return };
        let marks = &self.pencil.marks;
        let at_line = |mark: &Mark| find_line(&mark.target, self.teacher) == Ok(Some(last.of));
        let found = last
            .marks
            .iter()
            .position(|m| matches!(marks[*m].change, Change::Rest(_)) && at_line(&marks[*m]));
        if let Some(at) = found {
            let mark = last.marks.remove(at);
            self.faults.push(
                Fault::new(
                    marks[mark].span,
                    format!(
                        "“{}” comes last, and there is no rest after it",
                        self.teacher.lines[last.of].name
                    ),
                )
                .hint("take this mark back, or put it at the line before"),
            );
        }
    }
}

fn order(change: &Change) -> usize {
    match change {
        Change::LeaveOut => 0,
        Change::HalfSteps(_) | Change::Tubes(_) | Change::StopAfter(_) => 1,
        Change::Times(_) | Change::Articulation(_) => 2,
        Change::Bend(_) => 3,
        Change::BreathAfter(_) => 4,
        _ => 5,
    }
}

/// The factor for a tempo.
fn factor(change: TempoChange, base: Tempo) -> Ratio<i128> {
    let part = |percent: Decimal| percent.ratio() / Ratio::from_integer(100);
    match change {
        TempoChange::Slower => part(Decimal::from_integer(SLOWER)),
        TempoChange::Faster => part(Decimal::from_integer(FASTER)),
        TempoChange::Percent(percent) => part(percent),
        TempoChange::Clicks(clicks) => clicks.ratio() / base.clicks_a_minute(),
    }
}

fn scaled(base: Tempo, factor: Ratio<i128>, whose: &str) -> Result<Tempo, Unfit> {
    base.scaled(factor).map_err(|out| {
        let clicks = libm::round(out.0 * 10.0) / 10.0;
        Unfit::new(
            format!("{whose} would come to {clicks} clicks a minute"),
            format!(
                "tempos go from {} to {} clicks a minute",
                crate::music::tempo::SLOWEST,
                crate::music::tempo::FASTEST
            ),
        )
    })
}

/// Applies one mark to a line. `written` is the line as the teacher wrote it.
fn apply(line: &mut Line, change: &Change, written: &Line, routine: &Routine) -> Result<(), Unfit> {
    match change {
        Change::Tempo(change) => {
            let base = written.tempo.unwrap_or(routine.tempo);
            line.tempo = Some(scaled(base, factor(*change, base), "it")?);
        }
        Change::Rest(change) => rest(
            &mut line.rest,
            &mut line.rest_part,
            *change,
            "no rest after it",
        )?,
        Change::Between(change) => {
            if passes(line) < 2 {
                return Err(Unfit::new(
                    "it is played only once, so there is no rest in between",
                    "mark the rest after it: rest = \"longer\"",
                ));
            }
            rest(
                &mut line.between,
                &mut line.between_part,
                *change,
                "no rest from one time through to the next",
            )?;
        }
        Change::BreathAfter(number) => {
            needs_notes(line, "a breathing line is all breath")?;
            let phrase = notes::breath_after(line, *number)?;
            play(line, phrase, routine)?;
        }
        Change::Articulation(articulations) => {
            needs_notes(line, "a breathing line is neither slurred nor tongued")?;
            line.articulations.clone_from(articulations);
        }
        Change::Bend(number) => {
            if line.on != On::Horn {
                return Err(Unfit::new(
                    "it is not played on the horn, so no fingering is spared",
                    "take this mark back",
                ));
            }
            let phrase = notes::bent(line, *number)?;
            play(line, phrase, routine)?;
        }
        Change::Times(times) => line.times = *times,
        // `lay` removes the line once it knows all marks.
        Change::LeaveOut => {}
        Change::Louder(up) => {
            needs_notes(line, "a breathing line has no dynamics")?;
            let phrase = notes::louder(line, *up)?;
            play(line, phrase, routine)?;
        }
        Change::Drone(drone) => {
            needs_notes(line, "a breathing line has no drone")?;
            line.drone = *drone;
        }
        Change::Guide(guide) => line.guide = Some(*guide),
        Change::StopAfter(stop) => stop_after(line, *stop)?,
        Change::HalfSteps(moves) => half_steps(line, moves)?,
        Change::Tubes(tubes) => {
            if !matches!(line.walk, Walk::Tubes(_)) {
                return Err(Unfit::new(
                    "it is not written for the open horn, so it has no tubes",
                    "move it by half steps: half_steps = [0, -1, -2]",
                ));
            }
            walk(line, Walk::Tubes(tubes.clone()), tubes.len());
        }
        Change::Words(words) => line.words = Some(words.clone()),
    }
    Ok(())
}

fn passes(line: &Line) -> usize {
    let places = match &line.walk {
        Walk::HalfSteps(moves) => moves.len(),
        Walk::Tubes(tubes) => tubes.len(),
    };
    places * line.times as usize * line.articulations.len()
}

fn needs_notes(line: &Line, why: &str) -> Result<(), Unfit> {
    if line.on == On::Air {
        return Err(Unfit::new(why, "take this mark back"));
    }
    Ok(())
}

fn rest(
    length: &mut RestLength,
    part: &mut Decimal,
    change: RestChange,
    none: &str,
) -> Result<(), Unfit> {
    let percent = match change {
        RestChange::To(to) => {
            *length = to;
            *part = RestLength::WHOLE;
            return Ok(());
        }
        RestChange::Longer => Decimal::from_integer(LONGER),
        RestChange::Shorter => Decimal::from_integer(SHORTER),
        RestChange::Percent(percent) => percent,
    };
    if !length.is_some() {
        return Err(Unfit::new(
            format!("there is {none}"),
            "say how long it is to be: \"2 bars\", \"20 s\" or \"same\"",
        ));
    }
    *part = percent;
    Ok(())
}

/// Replaces the notes of a line and resolves them.
fn play(line: &mut Line, phrase: Phrase, routine: &Routine) -> Result<(), Unfit> {
    let setting = Setting {
        instrument: routine.instrument,
        on: line.on,
        meter: line.meter_in(routine),
        on_tubes: matches!(line.walk, Walk::Tubes(_)),
        complete: true,
    };
    let mut faults = Vec::new();
    let melody = resolve(&phrase, setting, line.notes_span, &mut faults);
    if let Some(fault) = faults.into_iter().next() {
        return Err(Unfit::new(
            format!(
                "with this mark there is a fault in its notes: {}",
                fault.message
            ),
            fault
                .hint
                .unwrap_or_else(|| "take this mark back".to_owned()),
        ));
    }
    line.phrase = phrase;
    line.melody = melody;
    Ok(())
}

fn stop_after(line: &mut Line, stop: Stop) -> Result<(), Unfit> {
    let (names, found): (Vec<String>, Option<usize>) = match &line.walk {
        Walk::HalfSteps(moves) => (
            moves.iter().map(ToString::to_string).collect(),
            match stop {
                Stop::HalfStep(n) => moves.iter().position(|m| *m == n),
                // A number without a sign may name a tube or half steps.
                Stop::Tube(valves) => {
                    let name = valves.to_string();
                    moves.iter().position(|m| m.to_string() == name)
                }
            },
        ),
        Walk::Tubes(tubes) => (
            tubes.iter().map(ToString::to_string).collect(),
            match stop {
                Stop::Tube(valves) => tubes.iter().position(|t| *t == valves),
                Stop::HalfStep(n) => tubes.iter().position(|t| t.to_string() == n.to_string()),
            },
        ),
    };
    let what = match &line.walk {
        Walk::HalfSteps(_) => "half steps",
        Walk::Tubes(_) => "tubes",
    };
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let Some(at) = found else {
        return Err(Unfit::new(
            format!("that is not one of its {what}"),
            format!("they are {}", list::and(&names)),
        ));
    };
    if at + 1 == names.len() {
        return Err(Unfit::new(
            format!("it stops after {} as it is", names[at]),
            "take this mark back, or name one before it",
        ));
    }
    match &mut line.walk {
        Walk::HalfSteps(moves) => moves.truncate(at + 1),
        Walk::Tubes(tubes) => tubes.truncate(at + 1),
    }
    line.walk_spans.truncate(at + 1);
    Ok(())
}

fn half_steps(line: &mut Line, moves: &[i32]) -> Result<(), Unfit> {
    let why = if matches!(line.walk, Walk::Tubes(_)) {
        Some((
            "it goes through tubes",
            "name tubes: tubes = [\"0\", \"2\", \"1\"]",
        ))
    } else if line.on == On::Air {
        Some((
            "a breathing line has no pitch to move",
            "take this mark back",
        ))
    } else if line.has_fingerings() {
        Some((
            "a line with fingerings cannot be moved",
            "take this mark back",
        ))
    } else {
        None
    };
    if let Some((message, hint)) = why {
        return Err(Unfit::new(message, hint));
    }
    walk(line, Walk::HalfSteps(moves.to_vec()), moves.len());
    Ok(())
}

/// Replaces the walk of a line. Findings about it keep the places of the one in the teacher's file.
fn walk(line: &mut Line, walk: Walk, length: usize) {
    let place = line.walk_spans.first().copied().unwrap_or(line.notes_span);
    line.walk = walk;
    line.walk_spans = vec![place; length];
}

/// Once each, as a pencil says it.
pub const BOTH: [Articulation; 2] = [Articulation::Slurred, Articulation::Tongued];
