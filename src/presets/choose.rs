//! Chooses a built-in routine for a player. Every reason is computed from the routine's notes.

use super::facts::{self, Facts};
use super::levels::STARTER;
use super::one_note;
use crate::brass::{AgeBand, Instrument, Level, Tube, partials};
use crate::music::{NoteNames, WrittenPitch};
use crate::words::{Words, list, pitch, tell};

/// A player whose notes lie within so many half steps is stuck on one note: less than a minor third.
const STUCK: i32 = 2;

/// Whom a routine is wanted for.
#[derive(Clone, Copy, Debug)]
pub struct Player {
    /// The highest open note that is played with ease.
    pub highest: WrittenPitch,
    /// The lowest note that is, if that is known.
    pub lowest: Option<WrittenPitch>,
    /// How old the player is, if that is known.
    pub age: Option<AgeBand>,
    /// The names that the player knows notes by.
    pub names: NoteNames,
}

/// A built-in routine and when to play it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherRoutine {
    /// Name of the built-in routine.
    pub routine: &'static str,
    /// When to play it, as the end of a sentence.
    pub when: Words,
}

/// The routine to start with, an easier one and the next one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoutineChoice {
    /// The player's highest easy note, with its place on the staff: "G4, second-line G".
    pub note: Words,
    /// The player's level; `None` below level 1.
    pub level: Option<Level>,
    /// Name of the built-in routine to start with.
    pub routine: &'static str,
    /// The reason for the choice, in a few sentences.
    pub why: Words,
    /// The routine after it.
    pub next: Option<OtherRoutine>,
    /// The easier routine, for doubtful cases and bad days.
    pub easier: Option<OtherRoutine>,
    /// For a player stuck on one note: the steps to a second one, and a line of a routine that goes them.
    pub one_note: Option<(Vec<Words>, String)>,
    /// Advice for players who should first talk to a teacher.
    pub ask: Option<Words>,
}

/// Chooses for a player.
pub fn choose(instrument: &'static Instrument, player: Player) -> RoutineChoice {
    let top = player.highest;
    let level = Level::of_top(instrument, top);
    let all = facts::for_instrument(instrument);
    let facts = suited(&all, level, player.age);
    let mut why = match level {
        Some(level) => start(instrument, level, top).then(why_level(facts)),
        None => why_starter(instrument, facts, top),
    };
    why = why.then(for_age(facts, level, player.age));
    let one_note = player
        .lowest
        .filter(|lowest| top.number() - lowest.number() <= STUCK)
        .and_then(|_| one_note::way(instrument, top));
    if one_note.is_none()
        && let Some(lowest) = player.lowest
    {
        why = why.then(below(facts, lowest));
    }
    RoutineChoice {
        note: Words::of(|language| pitch::on_staff(language, player.names, top, instrument.clef)),
        level,
        routine: facts.preset.name,
        why,
        next: next(instrument, &all, level, player.age, facts.preset.name),
        easier: level.map(|l| easier(instrument, &all, l, player.age, facts)),
        ask: (level.is_none() || one_note.is_some()).then(tell::ask_a_teacher),
        one_note,
    }
}

/// The whole warm-up of a level, or of the highest one below it that has one for this age.
fn suited(all: &[Facts], level: Option<Level>, age: Option<AgeBand>) -> &Facts {
    let fits = |facts: &Facts| match (age, facts.routine.age) {
        (Some(age), Some(of_routine)) => of_routine <= age,
        _ => true,
    };
    let mut level = level;
    loop {
        let mut of_level: Vec<&Facts> = facts::whole(all, level).filter(|f| fits(f)).collect();
        // The one for the oldest players that are not older, and of those the first.
        of_level.sort_by_key(|f| std::cmp::Reverse(age.and(f.routine.age)));
        match (of_level.into_iter().next(), level) {
            (Some(found), _) => return found,
            (None, Some(above)) => level = above.easier(),
            (None, None) => return facts::starter(all),
        }
    }
}

/// Why a note that is no open top counts as one.
fn start(instrument: &Instrument, level: Level, top: WrittenPitch) -> Words {
    let open_top = level.open_top(instrument);
    if top.number() == open_top.number() {
        Words::default()
    } else if level.next().is_none() {
        tell::above_the_tops(top, open_top)
    } else {
        tell::not_an_open_note(top, open_top)
    }
}

fn why_level(facts: &Facts) -> Words {
    let (name, level, top) = (
        facts.preset.name,
        facts.level(),
        facts.routine.comfortable_top,
    );
    let eased = facts.long_tube.map_or_else(Words::default, |(note, tube)| {
        tell::eased_by_tube(note, tube.to_string())
    });
    let condition = match facts.long_tube {
        Some((note, tube)) if level.easier().is_none() => {
            let on = facts.routine.instrument.with_tube(tube);
            tell::fits_if_easy(note, &on)
        }
        _ => Words::default(),
    };
    tell::why_level(
        name,
        level.number(),
        top,
        facts.lowest,
        &eased,
        facts.beyond(),
        &condition,
    )
}

fn why_starter(instrument: &Instrument, facts: &Facts, top: WrittenPitch) -> Words {
    let first = first_level().open_top(instrument);
    let below = if instrument.can_reach(top) {
        tell::below_the_first(top, first)
    } else {
        tell::below_the_instrument(top, instrument.lowest, instrument.named_in_words())
    };
    let (note, tube) = facts.first;
    let second = facts.long_tube.map_or_else(Words::default, |(note, tube)| {
        tell::finds_second(note, instrument.with_tube(tube))
    });
    tell::why_starter(
        &below,
        facts.preset.name,
        note,
        instrument.with_tube(tube),
        &second,
        facts.beyond(),
    )
}

/// What the choice has to do with the player's age.
fn for_age(facts: &Facts, level: Option<Level>, age: Option<AgeBand>) -> Words {
    let Some(age) = age else {
        return Words::default();
    };
    let mut said = match facts.routine.age {
        Some(of_routine) if of_routine == age => tell::short_enough_for(age.who()),
        Some(_) => tell::no_longer_than(age.who()),
        None => Words::default(),
    };
    if let Some(level) = level
        && (facts.preset.name == STARTER || facts.level() < level)
    {
        said = said.then(tell::longer_breaths(level.number()));
    }
    said
}

/// The lines that go below the lowest note that is easy.
fn below(facts: &Facts, lowest: WrittenPitch) -> Words {
    let lines = facts.lines_below(lowest);
    if lines.is_empty() {
        return Words::default();
    }
    let numbers: Vec<String> = lines.iter().map(ToString::to_string).collect();
    let numbers = Words::of(|language| list::and_in(language, &numbers));
    tell::below_leave_out(lowest, lines.len(), numbers)
}

fn next(
    instrument: &Instrument,
    all: &[Facts],
    level: Option<Level>,
    age: Option<AgeBand>,
    now: &str,
) -> Option<OtherRoutine> {
    let next = match level {
        Some(level) => level.next()?,
        None => first_level(),
    };
    let top = next.open_top(instrument);
    let routine = suited(all, Some(next), age).preset.name;
    (routine != now).then(|| OtherRoutine {
        routine,
        when: tell::when_effortless(top, next.way(instrument)),
    })
}

fn easier(
    instrument: &Instrument,
    all: &[Facts],
    level: Level,
    age: Option<AgeBand>,
    facts: &Facts,
) -> OtherRoutine {
    let below = facts.level().min(level).easier();
    let easier = suited(all, below, age);
    let when = match below {
        Some(below) => tell::when_in_doubt(below.open_top(instrument), level.open_top(instrument)),
        None => {
            let long_tube = long_tube(instrument);
            tell::if_not_easy(
                partials::written(instrument, long_tube, level.next_partial(instrument)),
                instrument.with_tube(long_tube),
            )
        }
    };
    OtherRoutine {
        routine: easier.preset.name,
        when,
    }
}

/// The shortest tube on which the partial above the open top is comfortable: three half steps.
fn long_tube(instrument: &Instrument) -> Tube {
    instrument.of_length(3).unwrap_or(instrument.open())
}

fn first_level() -> Level {
    Level::all().next().expect("there are five levels")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(note: &str) -> RoutineChoice {
        let trumpet = Instrument::named("trumpet").unwrap();
        choose(
            trumpet,
            Player {
                highest: WrittenPitch::parse(note).unwrap(),
                lowest: None,
                age: None,
                names: NoteNames::English,
            },
        )
    }

    #[test]
    fn the_highest_open_note_at_or_below_the_one_asked_about_decides() {
        for (note, routine) in [
            ("F#3", "first-sounds"),
            ("B3", "first-sounds"),
            ("C4", "first-steps"),
            ("F#4", "first-steps"),
            ("G4", "second-steps"),
            ("A4", "second-steps"),
            ("B4", "second-steps"),
            ("C5", "third-steps"),
            ("D5", "third-steps"),
            ("E5", "fourth-steps"),
            ("F#5", "fourth-steps"),
            ("G5", "fifth-steps"),
            ("Bb5", "fifth-steps"),
            ("C6", "fifth-steps"),
            ("G6", "fifth-steps"),
            ("C3", "first-sounds"),
        ] {
            assert_eq!(of(note).routine, routine, "{note}");
        }
    }

    #[test]
    fn what_comes_next_and_what_is_easier_are_the_neighbours() {
        let names = |note| {
            let c = of(note);
            (c.easier.map(|s| s.routine), c.next.map(|s| s.routine))
        };
        assert_eq!(names("A3"), (None, Some("first-steps")));
        assert_eq!(names("C4"), (Some("first-sounds"), Some("second-steps")));
        assert_eq!(names("G4"), (Some("first-steps"), Some("third-steps")));
        assert_eq!(names("G5"), (Some("fourth-steps"), None));
    }

    #[test]
    fn a_note_that_is_no_open_note_is_explained() {
        let a4 = of("A4");
        assert_eq!(a4.note, "A4, second-space A");
        assert!(a4.why.starts_with(
            "A4 is not one of the open notes the routines go by; it lies above G4, so G4 counts. "
        ));
        assert!(of("C6").why.starts_with("C6 lies above G5"));
        assert!(!of("G4").why.contains("lies above"));
    }

    #[test]
    fn at_c4_the_long_tube_decides_and_below_it_a_teacher_is_asked() {
        let c4 = of("C4");
        assert!(c4.why.contains("E4 on 1-2 speaks easily"), "{}", c4.why);
        assert!(c4.easier.unwrap().when.contains("E4 on 1-2"));
        assert_eq!(c4.ask, None);
        let b3 = of("B3");
        assert!(b3.why.contains("B3 lies below C4"), "{}", b3.why);
        assert!(b3.ask.unwrap().contains("teacher"));
        assert!(of("C3").why.contains("lowest note of the trumpet"));
    }
}
