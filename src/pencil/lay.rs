//! Lays a pencil over a routine, which gives the player's version of it.

use super::apply::{apply, factor, scaled};
use super::mark::{Change, Mark, Pencil, Target};
use crate::music::Tempo;
use crate::problem::Problem;
use crate::routine::suggest::nearest;
use crate::routine::{Articulation, Fault, Line, Routine};
use crate::words::{count, list, tell};
use num_rational::Ratio;

/// A routine with a pencil laid over it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The player's version.
    pub routine: Routine,
    /// Where each of its lines comes from, in order.
    pub lines: Vec<LaidLine>,
    /// Why marks do not fit, with their places in the pencil.
    pub faults: Vec<Fault>,
    /// Indices of the marks that do not fit, in order; all others are applied.
    pub left_out: Vec<usize>,
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
    let mut places = layer.places();
    layer.whole(&mut places);
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
            layer
                .faults
                .push(Fault::new(last.span, tell::every_line_left_out()).hint(tell::keep_a_line()));
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
        left_out: left_out_marks(pencil, &faults),
        faults,
    }
}

/// The marks that faults are about. A fault stands at its mark's value, or at the line's name where that is not found.
fn left_out_marks(pencil: &Pencil, faults: &[Fault]) -> Vec<usize> {
    let about = |mark: &Mark| {
        let mut places = faults.iter().map(|fault| fault.span);
        places.any(|place| place == mark.span || place == mark.target_span)
    };
    let marks = (0..).zip(&pencil.marks);
    let left_out = marks.filter(|(_, mark)| about(mark));
    left_out.map(|(number, _)| number).collect()
}

/// Where a mark belongs.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Whole,
    Line(usize),
    /// It does not fit, and the fault is recorded.
    Nowhere,
}

/// The line that a mark is made on, `None` for the whole routine.
///
/// # Errors
/// If the routine has no such line.
pub fn find_line(target: &Target, routine: &Routine) -> Result<Option<usize>, Problem> {
    let lines = &routine.lines;
    match target {
        Target::Whole => Ok(None),
        Target::Number(number) => match number.checked_sub(1) {
            Some(index) if index < lines.len() => Ok(Some(index)),
            _ => Err(
                Problem::error(tell::no_line_number(*number, &routine.title))
                    .hint(tell::name_line_by_name(count::lines(lines.len()))),
            ),
        },
        Target::Name(name) => {
            let same = |line: &Line| line.name.to_lowercase() == name.to_lowercase();
            let found: Vec<usize> = (0..lines.len()).filter(|i| same(&lines[*i])).collect();
            match found[..] {
                [one] => Ok(Some(one)),
                [] => {
                    let names = lines.iter().map(|line| line.name.as_str());
                    let hint = match nearest(name, names) {
                        Some(meant) => tell::did_you_mean_line(meant),
                        None => tell::teacher_may_have_changed(lines.len()),
                    };
                    let title = &routine.title;
                    let message = tell::no_line_called(name, title);
                    Err(Problem::error(message).hint(hint))
                }
                _ => {
                    let numbers: Vec<String> =
                        found.iter().map(|index| (index + 1).to_string()).collect();
                    let message = tell::lines_called(found.len(), name);
                    let hint = tell::name_by_number(list::or(&numbers));
                    Err(Problem::error(message).hint(hint))
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
                Err(problem) => {
                    let fault = Fault::of(mark.target_span, problem);
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
            Place::Line(index) => tell::line_number(index + 1),
            Place::Whole | Place::Nowhere => tell::whole_routine(),
        };
        let leaves_out = [first, second].iter().any(|m| m.change == Change::LeaveOut);
        let (message, hint) = if leaves_out && first.change != second.change {
            (tell::left_out_and_more(&where_), tell::one_of_the_two())
        } else if first.change == second.change {
            (tell::mark_twice(&where_), tell::one_percentage())
        } else {
            (
                tell::marks_contradict(&where_),
                tell::keep_one_of_kind(second.change.kind()),
            )
        };
        self.faults.push(
            Fault::new(second.span, message)
                .also(first.span, tell::the_first_mark())
                .hint(hint),
        );
    }

    /// Applies marks on the routine itself, and tempo, which changes the base tempo and with it every line: either all of
    /// them follow, or the mark does not fit.
    fn whole(&mut self, places: &mut [Place]) {
        for (mark, place) in self.pencil.marks.iter().zip(places) {
            if *place != Place::Whole {
                continue;
            }
            match &mark.change {
                Change::Words(words) => self.routine.words = Some(words.clone()),
                Change::Tempo(change) => {
                    let factor = factor(*change, self.teacher.tempo);
                    match self.moved_tempos(factor) {
                        Ok((base, own)) => {
                            self.routine.tempo = base;
                            for (line, own) in self.routine.lines.iter_mut().zip(own) {
                                line.tempos = own;
                            }
                        }
                        Err(unfit) => {
                            self.unfit(mark, unfit);
                            *place = Place::Nowhere;
                        }
                    }
                }
                _ => {}
            }
        }
    }

    /// The base tempo and those of lines that have their own, moved.
    fn moved_tempos(&self, factor: Ratio<i128>) -> Result<(Tempo, Vec<Vec<Tempo>>), Problem> {
        let title = format!("“{}”", self.teacher.title);
        let base = scaled(self.teacher.tempo, factor, &title)?;
        let own = self.routine.lines.iter().map(|line| {
            let own = line.tempos.iter();
            own.map(|tempo| scaled(*tempo, factor, format!("“{}”", line.name)))
                .collect()
        });
        Ok((base, own.collect::<Result<_, _>>()?))
    }

    fn unfit(&mut self, mark: &Mark, why: Problem) {
        self.faults.push(Fault::of(mark.span, why));
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
                Err(mut why) => {
                    let name = &self.teacher.lines[index].name;
                    why.message = tell::of_a_marked_line(name, why.message);
                    self.faults.push(Fault::of(mark.span, why));
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
                    Fault::new(mark.span, tell::applies_to_no_line()).hint(tell::name_its_line()),
                );
            }
        }
    }

    /// Reports a mark on the rest after the teacher's last line, because there is none. A line that comes last because others are left out
    /// keeps its mark, which changes nothing.
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
            if last.of + 1 < self.teacher.lines.len() {
                return;
            }
            self.faults.push(
                Fault::new(
                    marks[mark].span,
                    tell::comes_last(&(self.teacher.lines[last.of].name)),
                )
                .hint(tell::rest_of_line_before()),
            );
        }
    }
}

fn order(change: &Change) -> usize {
    match change {
        Change::LeaveOut => 0,
        Change::HalfSteps(_) | Change::Tubes(_) | Change::StopAfter(_) => 1,
        Change::Times(_) | Change::Articulation(_) => 2,
        Change::Bend(_) | Change::Finger(_) => 3,
        Change::BreathAfter(_) => 4,
        _ => 5,
    }
}

/// Once each, as a pencil says it.
pub const BOTH: [Articulation; 2] = [Articulation::Slurred, Articulation::Tongued];
