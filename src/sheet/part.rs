//! A line of a routine prepared for drawing: which passes are written, with which fingerings and words.

use crate::music::NoteNames;
use crate::notation::accidentals;

use super::fingered;
use super::options::{SheetFingerings, SheetOptions, SheetPasses};
use super::pencil_words::{self, OnLine};
use super::sizes::Sizes;
use super::words;
use crate::brass::Tube;
use crate::music::Clef;
use crate::notation::written::{self, WrittenPass};
use crate::pencil::Pencil;
use crate::routine::{Line, On};
use crate::score::{Pass, Score, ScoreLine};
use crate::words::Language;

/// Passes of a walk up to which all are written out.
const LONG_WALK: usize = 4;

/// A line prepared for drawing.
pub struct LinePart<'s> {
    /// The language of its words.
    pub language: Language,
    /// The names of notes in them.
    pub names: NoteNames,
    /// As the teacher wrote it.
    pub line: &'s Line,
    /// As it is played.
    pub score_line: &'s ScoreLine,
    /// The same at each of its tempos.
    pub rungs: &'s [ScoreLine],
    /// Its number, from 1.
    pub number: usize,
    /// What is written, in order.
    pub passes: Vec<LinePass<'s>>,
    /// What is drawn over it in pencil.
    pub pencil: OnLine,
    /// The clef it is read in.
    pub clef: Clef,
    /// How large it is printed.
    pub sizes: Sizes,
    /// True if its tempo is written: it is not the one of the line before.
    pub shows_tempo: bool,
}

/// A pass prepared for drawing.
pub struct LinePass<'s> {
    /// As it is played.
    pub pass: &'s Pass,
    /// As it is written.
    pub written: WrittenPass,
    /// The passes before it that are not written, in words; empty if there are none.
    pub between: String,
    /// The words above its beginning.
    pub label: String,
    /// The fingering of each note that carries one.
    pub fingerings: Vec<Option<String>>,
    /// The words at each note, if it has any.
    pub cues: Vec<Option<&'static str>>,
}

impl<'s> LinePart<'s> {
    /// Prepares line `index` of a score.
    pub fn new(
        score: &'s Score<'s>,
        index: usize,
        options: &SheetOptions,
        pencil: Option<&Pencil>,
    ) -> Self {
        let chosen = chosen(
            score,
            &score.lines[index],
            options.passes,
            options.fingerings,
        );
        let part = Self::of_passes(score, index, options, &chosen);
        let pencil = pencil.map_or_else(OnLine::default, |pencil| {
            pencil_words::on_line(pencil, score.routine, part.score_line.index)
        });
        Self { pencil, ..part }
    }

    /// Prepares these passes of line `index` of a score.
    pub fn of_passes(
        score: &'s Score<'s>,
        index: usize,
        options: &SheetOptions,
        chosen: &[usize],
    ) -> Self {
        let score_line = &score.lines[index];
        let line = &score.routine.lines[score_line.index];
        let instrument = score.instrument();
        let (language, names) = (score.routine.words_in, score.routine.names);
        let fingerings = fingered::resolved(options.fingerings, score);
        let mut written: Vec<WrittenPass> = chosen
            .iter()
            .map(|at| {
                let pass = &score_line.passes[*at];
                written::pass(line, pass, *at, score_line.meter, instrument.clef)
            })
            .collect();
        accidentals::set(&mut written);
        let labels = words::labels(
            (language, names),
            score.instrument(),
            line,
            score_line,
            chosen,
        );
        let passes = written
            .into_iter()
            .zip(labels)
            .map(|(written, (between, label))| {
                let pass = &score_line.passes[written.index];
                LinePass {
                    pass,
                    written,
                    between,
                    label,
                    fingerings: fingered::of_notes(pass, fingerings, instrument),
                    cues: fingered::cues(language, pass, fingerings, instrument),
                }
            });
        Self {
            language,
            names,
            line,
            score_line,
            rungs: score.rungs(index),
            number: score_line.index + 1,
            passes: passes.collect(),
            pencil: OnLine::default(),
            clef: instrument.clef,
            sizes: options.size.sizes(),
            shows_tempo: true,
        }
    }

    /// Lines of its staff.
    pub fn staff_lines(&self) -> u32 {
        if self.line.on == On::Air { 1 } else { 5 }
    }
}

/// The first pass of each half step or tube.
fn walk(line: &ScoreLine) -> Vec<usize> {
    let mut all: Vec<usize> = vec![];
    for (index, pass) in line.passes.iter().enumerate() {
        let last = all.last().map(|i| line.passes[*i].walk_index);
        if last != Some(pass.walk_index) {
            all.push(index);
        }
    }
    all
}

/// Indices of the passes that are written. Of a long walk these are the first, the last, and each with a fingering that
/// stands at no note before it.
pub fn chosen(
    score: &Score<'_>,
    line: &ScoreLine,
    passes: SheetPasses,
    fingerings: SheetFingerings,
) -> Vec<usize> {
    let fingerings = fingered::resolved(fingerings, score);
    let all = walk(line);
    let in_full = match passes {
        SheetPasses::All => true,
        SheetPasses::Ends => false,
        SheetPasses::ByLevel => fingered::is_first_level(score),
    };
    if in_full || all.len() <= LONG_WALK {
        return all;
    }
    let last = all.len() - 1;
    let mut known: Vec<(i32, Tube)> = vec![];
    let mut chosen = vec![];
    for (number, index) in all.into_iter().enumerate() {
        let shown = fingered::shown(&line.passes[index], fingerings, score.instrument());
        let new: Vec<_> = shown.filter(|one| !known.contains(one)).collect();
        if number == 0 || number == last || !new.is_empty() {
            chosen.push(index);
            known.extend(new);
        }
    }
    chosen
}
