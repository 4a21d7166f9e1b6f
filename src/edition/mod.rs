//! A routine with a player's pencil applied, at the wanted takes, checked and named.
//!
//! Everything that makes files or pages uses an [`Edition`]: what the teacher wrote, what is played, which
//! marks were applied or left out, and where each line comes from. [`Edition::plan`] unrolls and checks every
//! take once and keeps its score. This module prints nothing and reads no files: it returns [`Problem`]s.
//!
//! ```
//! use leadpipe::edition::{Edition, Judge, Wanted};
//! use leadpipe::score::spoken;
//!
//! let routine = r#"
//! format = 1
//! title = "Two long tones"
//! instrument = "trumpet in B-flat"
//! comfortable_top = "G4"
//! tempo = 72
//! meter = "4/4"
//! [[line]]
//! name = "Long tone"
//! notes = "G4:whole"
//! "#;
//! let pencil = "format = 1\n[[mark]]\nline = 1\ntimes = 3\n";
//! let edition = Edition::read(routine, Some(pencil)).unwrap();
//! assert!(edition.left_out().is_empty());
//! assert_eq!(edition.teacher().lines[0].times, 1);
//! assert_eq!(edition.played().lines[0].times, 3);
//!
//! let wanted = Wanted { tempos: vec![spoken::tempo("60").unwrap()], ..Wanted::default() };
//! let plan = edition.plan(&wanted.takes(), &Judge::default()).unwrap();
//! assert_eq!(plan.takes[0].score.lines[0].passes.len(), 3);
//! ```

pub mod name;
mod plan;
mod wanted;

pub use plan::{Against, Judge, Plan, PlannedTake, Unplayable, added, unrolled};
pub use wanted::Wanted;

use crate::music::NoteNames;
use crate::pencil::{self, Laid, LaidLine, Mark, Pencil};
use crate::problem::{Problem, Text};
use crate::routine::{self, Routine};
use crate::score::{Score, Take};
use crate::words::Language;
use std::sync::Arc;

/// A routine as one player plays it.
#[derive(Clone, Debug)]
pub struct Edition {
    teacher: Arc<Routine>,
    pencilled: Option<Pencilled>,
}

/// The pencil of an edition.
#[derive(Clone, Debug)]
struct Pencilled {
    /// Every mark that was understood.
    read: Pencil,
    /// The marks that are applied.
    applied: Pencil,
    laid: Laid,
    left_out: Vec<Problem>,
}

impl Edition {
    /// The routine as the teacher wrote it.
    pub fn as_written(teacher: Arc<Routine>) -> Self {
        Self {
            teacher,
            pencilled: None,
        }
    }

    /// Applies the pencil with this text to the routine. Marks that are not understood or do not fit are [left
    /// out](Self::left_out).
    ///
    /// # Errors
    /// If the text as a whole is not a pencil: then no mark is applied, and it would be wrong to go on with the
    /// teacher's version.
    pub fn pencilled(teacher: Arc<Routine>, pencil: &str) -> Result<Self, Vec<Problem>> {
        let read = pencil::read(pencil);
        let mut faults = read.faults;
        let laid = read.pencil.as_ref().map(|p| pencil::lay(p, &teacher));
        faults.extend(laid.iter().flat_map(|laid| laid.faults.iter().cloned()));
        faults.sort_by_key(|fault| (fault.span.start, fault.span.end));
        let faults = faults.into_iter();
        let left_out = faults.map(|fault| fault.in_text(Text::Pencil)).collect();
        let (Some(pencil), Some(laid)) = (read.pencil, laid) else {
            return Err(left_out);
        };
        let marks = (0..).zip(&pencil.marks);
        let applied = marks.filter(|(number, _)| !laid.left_out.contains(number));
        let applied = Pencil {
            player: pencil.player.clone(),
            marks: applied.map(|(_, mark)| mark.clone()).collect(),
        };
        Ok(Self {
            teacher,
            pencilled: Some(Pencilled {
                read: pencil,
                applied,
                laid,
                left_out,
            }),
        })
    }

    /// Reads a routine and, where there is one, a pencil.
    ///
    /// # Errors
    /// Everything that is wrong with the routine, or else with the pencil.
    pub fn read(routine: &str, pencil: Option<&str>) -> Result<Self, Vec<Problem>> {
        let teacher = routine::read(routine).map_err(|faults| {
            let faults = faults.into_iter();
            let problems = faults.map(|fault| fault.in_text(Text::Routine));
            problems.collect::<Vec<_>>()
        })?;
        match pencil {
            None => Ok(Self::as_written(Arc::new(teacher))),
            Some(pencil) => Self::pencilled(Arc::new(teacher), pencil),
        }
    }

    /// The same with the words that are added for the player in another language.
    #[must_use]
    pub fn in_language(mut self, language: Language) -> Self {
        Arc::make_mut(&mut self.teacher).words_in = language;
        if let Some(pencilled) = &mut self.pencilled {
            pencilled.laid.routine.words_in = language;
        }
        self
    }

    /// The same with notes shown in other names.
    #[must_use]
    pub fn in_names(mut self, names: NoteNames) -> Self {
        Arc::make_mut(&mut self.teacher).names = names;
        if let Some(pencilled) = &mut self.pencilled {
            pencilled.laid.routine.names = names;
        }
        self
    }

    /// The routine as the teacher wrote it.
    pub fn teacher(&self) -> &Routine {
        &self.teacher
    }

    /// The routine as it is played.
    pub fn played(&self) -> &Routine {
        match &self.pencilled {
            Some(pencilled) => &pencilled.laid.routine,
            None => &self.teacher,
        }
    }

    /// The pencil with the marks that are applied; `None` without a pencil.
    pub fn pencil(&self) -> Option<&Pencil> {
        self.pencilled.as_ref().map(|p| &p.applied)
    }

    /// The pencil with every mark that was understood, including those that were left out.
    pub fn pencil_as_read(&self) -> Option<&Pencil> {
        self.pencilled.as_ref().map(|p| &p.read)
    }

    /// The marks that are applied.
    pub fn marks(&self) -> &[Mark] {
        self.pencil().map_or(&[], |pencil| &pencil.marks)
    }

    /// Why marks were left out; each problem has its place in the pencil.
    pub fn left_out(&self) -> &[Problem] {
        self.pencilled.as_ref().map_or(&[], |p| &p.left_out)
    }

    /// For each line that is played, its origin and the marks that changed it, as indices into
    /// [`pencil_as_read`](Self::pencil_as_read).
    pub fn lines(&self) -> Vec<LaidLine> {
        match &self.pencilled {
            Some(pencilled) => pencilled.laid.lines.clone(),
            None => (0..self.teacher.lines.len())
                .map(|of| LaidLine { of, marks: vec![] })
                .collect(),
        }
    }

    /// For each line that is played, its index in the teacher's routine.
    pub fn line_origins(&self) -> Vec<usize> {
        self.lines().into_iter().map(|line| line.of).collect()
    }

    /// The score that is printed for a take: the teacher's, because the pencil is drawn over it.
    ///
    /// # Errors
    /// If the teacher's routine cannot be played at this take.
    pub fn printed(&self, take: &Take) -> Result<Score<'_>, Unplayable> {
        unrolled(&self.teacher, take)
    }

    /// The score that is played at a take.
    ///
    /// # Errors
    /// If it cannot be played at this take.
    pub fn score(&self, take: &Take) -> Result<Score<'_>, Unplayable> {
        unrolled(self.played(), take)
    }
}
