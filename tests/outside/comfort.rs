//! Levels and comfort, as teachers use them: practice, no source.

use crate::{trumpet, written};
use leadpipe::brass::{Band, Level, Tube, comfort, partials};
use leadpipe::presets::choose::{Player, choose};

/// Levels go by the highest comfortable open partial (practice).
const LEVELS: [(u8, u8, &str); 5] = [
    (1, 2, "C4"),
    (2, 3, "G4"),
    (3, 4, "C5"),
    (4, 5, "E5"),
    (5, 6, "G5"),
];

#[test]
fn levels_go_by_the_open_partials() {
    for (level, (number, partial, top)) in Level::all().zip(LEVELS) {
        assert_eq!(
            (level.number(), level.partial(trumpet())),
            (number, partial)
        );
        assert_eq!(level.open_top(trumpet()), written(top));
        assert_eq!(Level::of_top(trumpet(), written(top)), Some(level));
    }
    assert_eq!(Level::all().count(), LEVELS.len());
    assert_eq!(Level::of_top(trumpet(), written("B3")), None);
}

fn band(top: &str, reach: Option<&str>, tube: &str, partial: u8) -> Band {
    let tube = Tube::parse(tube).unwrap();
    let pitch = partials::written(trumpet(), tube, partial);
    let tube = Some((tube, partial));
    comfort::band(trumpet(), written(top), reach.map(written), pitch, tube)
}

/// A player with one comfortable note is helped on a longer tube: on 1-2, A3 and the E4 above it both
/// speak (practice). The rest of the way to C4 and G4 is a stretch.
#[test]
fn the_next_partial_is_comfortable_on_one_and_two_and_longer_only() {
    for tube in ["1-2", "3", "2-3", "1-3", "1-2-3"] {
        assert_eq!(band("C4", None, tube, 3), Band::Comfortable, "{tube}");
    }
    for tube in ["0", "2", "1"] {
        assert_eq!(band("C4", None, tube, 3), Band::Beyond, "{tube}");
        assert_eq!(band("C4", Some("G4"), tube, 3), Band::Reach, "{tube}");
    }
    // Two partials up is too far on any tube whose note lies above the top.
    assert_eq!(band("C4", None, "1-2", 4), Band::Beyond);
    assert_eq!(band("G4", None, "1-2", 4), Band::Comfortable);
    assert_eq!(band("C5", None, "1-2", 5), Band::Comfortable);
    assert_eq!(band("E5", None, "1-3", 6), Band::Comfortable);
}

/// The next partial is never the seventh (practice).
#[test]
fn above_g5_the_next_partial_is_the_eighth() {
    assert_eq!(band("G5", None, "1-2", 8), Band::Comfortable);
    assert_eq!(band("G5", None, "2", 7), Band::Beyond);
    assert_eq!(band("G5", None, "0", 8), Band::Beyond);
}

/// C4: level 1 if E4 on 1-2 speaks easily, else the starter; below C4 the starter; G5 and above: the
/// last one. When in doubt, the easier one. Moving up takes weeks to months (practice).
#[test]
fn a_routine_is_chosen_as_a_teacher_would() {
    let of = |note: &str| {
        choose(
            trumpet(),
            Player {
                highest: written(note),
                lowest: None,
                age: None,
                names: leadpipe::music::NoteNames::English,
            },
        )
    };
    let routines = ["A3", "C4", "G4", "C5", "E5", "G5", "C6"].map(|note| of(note).routine);
    assert_eq!(
        routines,
        [
            "first-sounds",
            "first-steps",
            "second-steps",
            "third-steps",
            "fourth-steps",
            "fifth-steps",
            "fifth-steps"
        ]
    );
    let c4 = of("C4").easier.unwrap();
    assert_eq!(c4.routine, "first-sounds");
    assert!(c4.when.contains("E4 on 1-2"));
    for (_, _, top) in &LEVELS[..4] {
        assert!(of(top).next.unwrap().when.contains("weeks to months"));
    }
}
