//! Chooses a built-in routine for a player by the highest open note that is played with ease.

use super::{Level, Valves, instrument::Instrument, partials};
use crate::music::WrittenPitch;
use crate::words::pitch;

/// The routine for players who have not reached level 1 yet.
pub const STARTER: &str = "first-sounds";

/// The routine of each level, level 1 first.
const OF_LEVEL: [&str; 5] = [
    "first-steps",
    "second-steps",
    "third-steps",
    "fourth-steps",
    "fifth-steps",
];

/// A built-in routine and when to play it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherRoutine {
    /// Name of the built-in routine.
    pub routine: &'static str,
    /// When to play it, as the end of a sentence.
    pub when: String,
}

/// The routine to start with, an easier one and the next one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoutineChoice {
    /// The player's highest easy note, with its place on the staff: "G4, second-line G".
    pub note: String,
    /// The player's level; `None` below level 1.
    pub level: Option<Level>,
    /// Name of the built-in routine to start with.
    pub routine: &'static str,
    /// The reason for the choice, in one or two sentences.
    pub why: String,
    /// The routine after it.
    pub next: Option<OtherRoutine>,
    /// The easier routine, for doubtful cases and bad days.
    pub easier: Option<OtherRoutine>,
    /// Advice for players who should first talk to a teacher.
    pub ask: Option<String>,
}

/// The built-in routine of a level.
pub fn routine_of(level: Level) -> &'static str {
    OF_LEVEL[usize::from(level.number()) - 1]
}

/// Chooses for a player whose highest open note played with ease is `top`.
pub fn choose(instrument: &Instrument, top: WrittenPitch) -> RoutineChoice {
    let level = Level::of_top(instrument, top);
    let (why, ask) = match level {
        Some(level) => (why_level(instrument, level, top), None),
        None => (why_starter(instrument, top), Some(ASK.to_owned())),
    };
    RoutineChoice {
        note: pitch::on_staff(top),
        level,
        routine: level.map_or(STARTER, routine_of),
        why,
        next: next(instrument, level),
        easier: level.map(|l| easier(instrument, l)),
        ask,
    }
}

const ASK: &str = "Before you start, have a word with a teacher: an hour with somebody who hears \
    and sees you play does more at this point than any routine.";

fn why_starter(instrument: &Instrument, top: WrittenPitch) -> String {
    let first = first_level().open_top(instrument);
    let below = if instrument.can_reach(top) {
        format!("{top} lies below {first}, the lowest open note")
    } else {
        format!(
            "{top} lies below {}, the lowest note of the {}",
            instrument.lowest, instrument.name
        )
    };
    format!(
        "{below}, so the sound itself comes first: {STARTER} takes one comfortable note, finds a \
         second one on a longer tube, and shortens the tube until {first} is reached."
    )
}

fn why_level(instrument: &Instrument, level: Level, top: WrittenPitch) -> String {
    let open_top = level.open_top(instrument);
    let routine = routine_of(level);
    let start = if top.number() == open_top.number() {
        String::new()
    } else if level.next().is_none() {
        format!("{top} lies above {open_top}, the highest note these routines start from. ")
    } else {
        format!(
            "{top} is not one of the open notes the routines go by; it lies above {open_top}, so \
             {open_top} counts. "
        )
    };
    let long_tube = partials::written(instrument, LONG_TUBE, level.next_partial());
    let fits = format!(
        "{routine} (level {}) keeps to {open_top} and below on the open horn, and goes higher only \
         where a long tube makes it easy ({long_tube} on {LONG_TUBE}).",
        level.number()
    );
    let condition = if level == first_level() {
        format!(" It fits if {long_tube} on {LONG_TUBE} speaks easily too.")
    } else {
        String::new()
    };
    format!("{start}{fits}{condition}")
}

fn next(instrument: &Instrument, level: Option<Level>) -> Option<OtherRoutine> {
    let next = match level {
        Some(level) => level.next()?,
        None => first_level(),
    };
    let top = next.open_top(instrument);
    Some(OtherRoutine {
        routine: routine_of(next),
        when: format!(
            "when {top} on the open horn comes without effort on most days, which takes weeks to \
             months; nothing is gained by hurrying"
        ),
    })
}

fn easier(instrument: &Instrument, level: Level) -> OtherRoutine {
    match level.easier() {
        Some(easier) => OtherRoutine {
            routine: routine_of(easier),
            when: format!(
                "when in doubt, on a tired day or after a break: what is easy at {} will soon be \
                 easy at {}",
                easier.open_top(instrument),
                level.open_top(instrument)
            ),
        },
        None => OtherRoutine {
            routine: STARTER,
            when: format!(
                "if {} on {LONG_TUBE} does not speak easily yet, and when in doubt",
                partials::written(instrument, LONG_TUBE, level.next_partial())
            ),
        },
    }
}

/// The shortest tube on which the partial above the open top is comfortable.
const LONG_TUBE: Valves = Valves::of(&[1, 2]);

fn first_level() -> Level {
    Level::all().next().expect("there are five levels")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(note: &str) -> RoutineChoice {
        let trumpet = Instrument::named("trumpet").unwrap();
        choose(trumpet, WrittenPitch::parse(note).unwrap())
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
