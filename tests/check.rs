//! The checker: every rule where it speaks and where it keeps silent, on routines as teachers write
//! them.

use leadpipe::brass::AgeBand;
use leadpipe::check::{Finding, Options, Report, Severity, check};
use leadpipe::music::Decimal;
use leadpipe::routine::{Guide, read};
use leadpipe::score::{Take, TakeTempo, unroll};
use proptest::prelude::*;

/// A breathing line, so that what follows is neither first nor last.
const AIR: &str = "on = \"air\"\nnotes = \"in:whole out:whole\"";
/// A last line nobody can find fault with.
const END: &str = "notes = \"p G4:half E4:half | C4:whole\"";

/// A routine at 60 clicks a minute in 4/4: a bar lasts four seconds.
fn routine(top: &str, reach: Option<&str>, lines: &[&str]) -> String {
    let reach = reach.map_or(String::new(), |r| format!("reach = \"{r}\"\n"));
    let mut text = format!(
        "format = 1\ntitle = \"Test\"\ninstrument = \"trumpet in B-flat\"\n\
         comfortable_top = \"{top}\"\n{reach}tempo = 60\n"
    );
    for (i, line) in lines.iter().enumerate() {
        text.push_str(&format!("\n[[line]]\nname = \"L{}\"\n{line}\n", i + 1));
    }
    text
}

fn report_of(text: &str, take: &Take, options: &Options) -> Report {
    let routine = read(text).unwrap_or_else(|faults| panic!("{faults:#?}\n{text}"));
    let score = unroll(&routine, take).expect("the take is within bounds");
    check(&score, options)
}

fn report(text: &str) -> Report {
    report_of(text, &Take::default(), &Options::default())
}

/// Findings of one rule.
fn of_rule(report: &Report, rule: &str) -> Vec<Finding> {
    let findings = report.findings.iter().filter(|f| f.rule == rule);
    findings.cloned().collect()
}

/// The one finding of a rule: severity, message, hint, and the place in the file it points at.
#[track_caller]
fn only(text: &str, rule: &str) -> (Severity, String, String, String) {
    let report = report(text);
    let [finding] = &of_rule(&report, rule)[..] else {
        panic!("one finding of {rule} in {:#?}", report.findings);
    };
    let place = text[finding.span.start..finding.span.end].to_owned();
    let hint = finding.hint.clone().expect("every finding says what to do");
    (finding.severity, finding.message.clone(), hint, place)
}

#[track_caller]
fn silent(text: &str, rule: &str) {
    let found = of_rule(&report(text), rule);
    assert!(found.is_empty(), "{found:#?}");
}

/// A line in the middle of a G4 routine.
fn middle(line: &str) -> String {
    routine("G4", None, &[AIR, line, END])
}

// Fingerings

#[test]
fn a_fingering_that_does_not_sound_its_note_is_an_error() {
    let text = middle("notes = \"G4:half F#4:half [1] | G4:whole\"");
    let (severity, message, hint, place) = only(&text, "silent-fingering");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: F#4, the 2nd note, does not sound on 1: that tube sounds Bb3 F4 Bb4 D5 F5 Bb5"
    );
    assert_eq!(hint, "F#4 sounds on 2; other fingerings for it: 1-2-3");
    assert_eq!(place, "F#4:half [1]");
    assert!(report(&text).has_errors());
}

#[test]
fn a_wrong_fingering_in_many_passes_is_told_once_with_how_many() {
    let text = middle(
        "notes = \"G4:half F#4:half [1]\"\ntimes = 3\narticulation = [\"slurred\", \"tongued\"]",
    );
    let (_, message, ..) = only(&text, "silent-fingering");
    assert!(
        message.starts_with("“L2”: F#4, the 2nd note, slurred (in 6 passes), does not sound on 1"),
        "{message}"
    );
}

#[test]
fn alternate_fingerings_are_fine() {
    silent(
        &middle("notes = \"G4:half [1-3] E4:half [3] | F#4:whole [1-2-3]\""),
        "silent-fingering",
    );
    silent(
        &middle("on = \"mouthpiece\"\nnotes = \"G4:half F#4:half\""),
        "silent-fingering",
    );
}

#[test]
fn the_seventh_partial_is_warned_of() {
    let line = "notes = \"p Bb5:half [0] G5:half\"";
    let text = routine("G5", Some("C6"), &[AIR, line, END]);
    let (severity, message, hint, _) = only(&text, "seventh-partial");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: Bb5, the 1st note, is the seventh partial of 0, 31 cents flat: nobody plays it in tune"
    );
    assert_eq!(hint, "Bb5 sounds on 1");
    silent(
        &routine(
            "G5",
            Some("C6"),
            &[AIR, "notes = \"p Bb5:half G5:half\"", END],
        ),
        "seventh-partial",
    );
}

// Bends

const FINGERED: &str = "notes = \"slur( G4:half F#4:half | G4:whole )\"";

#[test]
fn a_bend_after_the_same_notes_were_fingered_is_fine() {
    let bend = "notes = \"slur( G4:half F#4:half (bend) | G4:whole )\"";
    let text = routine("G4", None, &[AIR, FINGERED, bend, END]);
    for rule in [
        "bend-first",
        "bend-size",
        "bend-from-nothing",
        "silent-fingering",
    ] {
        silent(&text, rule);
    }
}

#[test]
fn a_bend_inside_its_own_line_after_the_fingered_notes_is_fine() {
    silent(
        &middle("notes = \"slur( G4:half F#4:half | G4:half F#4:half (bend) | G4:whole )\""),
        "bend-first",
    );
}

#[test]
fn a_bend_that_was_never_fingered_is_warned_of_once() {
    let bend = "notes = \"slur( G4:half F#4:half (bend) | G4:whole )\"\nhalf_steps = [0, -1, -2]";
    let text = routine("G4", None, &[AIR, FINGERED, bend, END]);
    let (severity, message, hint, _) = only(&text, "bend-first");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L3”: F4, the 2nd note, 1 half step down (in 2 passes), is bent from F#4 before F#4 and F4 \
         were fingered"
    );
    assert!(
        hint.starts_with("first finger it, then bend it: play F#4 F4 F#4"),
        "{hint}"
    );
}

#[test]
fn a_bend_is_half_a_step_down() {
    let up = middle("notes = \"slur( F#4:half G4:half (bend) )\"");
    let (severity, message, ..) = only(&up, "bend-size");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: G4, the 2nd note, is a bend upwards from F#4: lips bend a note down, not up"
    );
    let deep = middle("notes = \"slur( G4:half F4:half (bend) )\"");
    let (severity, message, hint, _) = only(&deep, "bend-size");
    assert_eq!(severity, Severity::Warning);
    assert!(
        message.contains("is bent down from G4 by a whole step"),
        "{message}"
    );
    assert!(hint.starts_with("bend G4 to F#4"), "{hint}");
    let twice = middle("notes = \"slur( G4:half F#4:quarter (bend) F4:quarter (bend) )\"");
    assert!(
        only(&twice, "bend-size")
            .1
            .starts_with("“L2”: F4, the 3rd note,")
    );
}

// Compass

#[test]
fn a_pass_that_leaves_the_instrument_is_an_error_at_its_half_step() {
    let text = middle("notes = \"C4:whole\"\nhalf_steps = [0, -6, -7]");
    let (severity, message, hint, place) = only(&text, "off-compass");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: the pass 7 half steps down goes to F3, below F#3, the lowest note of the trumpet in \
         B-flat"
    );
    assert_eq!(hint, "this line can go no further than 6 half steps down");
    assert_eq!(place, "-7");
    silent(
        &middle("notes = \"C4:whole\"\nhalf_steps = [0, -6]"),
        "off-compass",
    );
}

#[test]
fn every_pass_the_written_routine_loses_is_an_error() {
    let text = middle("notes = \"C4:whole G5:whole\"\nhalf_steps = [-8, -7, 0, 5, 6]");
    let routine = read(&text).unwrap();
    let score = unroll(&routine, &Take::default()).unwrap();
    let found = of_rule(&check(&score, &Options::default()), "off-compass");
    assert_eq!(found.len(), score.notices.len());
    assert_eq!(found.len(), 3);
}

#[test]
fn a_pass_that_only_a_key_takes_away_is_no_error_of_the_routine() {
    let text = middle("notes = \"C4:whole\"\nhalf_steps = [0, -6]");
    let take = Take {
        key: -3,
        ..Take::default()
    };
    let routine = read(&text).unwrap();
    let score = unroll(&routine, &take).unwrap();
    assert!(!score.notices.is_empty());
    assert!(!check(&score, &Options::default()).has_errors());
}

// Comfort

#[test]
fn a_note_beyond_what_is_comfortable_is_warned_of_once_a_line() {
    let text = middle("notes = \"C5:half A4:half | C5:whole\"");
    let (severity, message, hint, place) = only(&text, "beyond-reach");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: C5, the 1st note (and 1 more note), lies above what is comfortable with G4 as the top"
    );
    assert!(hint.contains("`reach`"), "{hint}");
    assert!(place.starts_with("C5"), "{place}");
    assert!(!report(&text).has_errors());
}

#[test]
fn the_next_partial_on_a_long_tube_is_comfortable() {
    let line = |tubes: &str| {
        middle(&format!(
            "open = \"slur( G4:half C5:half )\"\ntubes = [{tubes}]"
        ))
    };
    silent(
        &line("\"1-2\", \"2-3\", \"1-3\", \"1-2-3\""),
        "beyond-reach",
    );
    let (_, message, ..) = only(&line("\"1-2\", \"1\", \"2\", \"0\""), "beyond-reach");
    assert!(
        message.starts_with("“L2”: Bb4, the 2nd note, on 1 (in 3 passes), lies above"),
        "{message}"
    );
}

/// Six lines of eight seconds of easy playing, and a stretch as line `at`.
fn stretching(at: usize, stretch: &str) -> String {
    let easy = "notes = \"G4:whole | E4:whole\"";
    let mut lines = vec![easy; 6];
    lines.insert(at, stretch);
    lines.push(END);
    routine("G4", Some("B4"), &lines)
}

#[test]
fn a_stretch_late_rare_and_not_loud_is_fine() {
    let text = stretching(5, "notes = \"G4:half Bb4:half\"");
    for rule in [
        "beyond-reach",
        "early-stretch",
        "much-stretch",
        "loud-stretch",
    ] {
        silent(&text, rule);
    }
}

#[test]
fn a_stretch_beyond_the_reach_is_warned_of() {
    let (_, message, ..) = only(
        &stretching(5, "notes = \"G4:half C5:half\""),
        "beyond-reach",
    );
    assert!(message.ends_with("lies above B4, the highest note the routine reaches for"));
}

#[test]
fn a_stretch_in_the_first_third_is_warned_of() {
    let (_, message, ..) = only(
        &stretching(1, "notes = \"G4:half Bb4:half\""),
        "early-stretch",
    );
    assert_eq!(
        message,
        "“L2”: Bb4, the 2nd note, stretches above G4 in the first third of the playing, before the \
         lips are warm"
    );
}

#[test]
fn a_loud_stretch_is_warned_of_even_at_the_end_of_a_crescendo() {
    let loud = stretching(5, "notes = \"f G4:half Bb4:half\"");
    assert!(only(&loud, "loud-stretch").1.ends_with("louder than mf"));
    only(
        &stretching(5, "notes = \"cresc G4:half Bb4:half | f G4:whole\""),
        "loud-stretch",
    );
    silent(
        &stretching(5, "notes = \"f G4:half mf Bb4:half | f G4:whole\""),
        "loud-stretch",
    );
}

#[test]
fn much_stretching_is_warned_of_at_the_reach() {
    let (_, message, _, place) = only(
        &stretching(5, "notes = \"Bb4:whole | Bb4:whole | Bb4:whole\""),
        "much-stretch",
    );
    assert!(
        message.starts_with("18 % of the playing stretches above G4"),
        "{message}"
    );
    assert_eq!(place, "\"B4\"");
}

// Leaps

#[test]
fn a_slur_over_partials_waits_for_its_level() {
    let line = "open = \"slur( C4:half C5:half )\"\ntubes = [\"1-2-3\"]";
    let (severity, message, ..) = only(&routine("G4", None, &[AIR, line, END]), "wide-slur");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: F#4, the 2nd note, on 1-2-3, is slurred from F#3 on one tube and skips 1 partial: a \
         player whose top is G4 skips none"
    );
    silent(&routine("C5", None, &[AIR, line, END]), "wide-slur");
    let two = "open = \"slur( C4:half E5:half )\"\ntubes = [\"1-2-3\"]";
    let (_, message, ..) = only(&routine("C5", None, &[AIR, two, END]), "wide-slur");
    assert!(message.ends_with("skips 2 partials: a player whose top is C5 skips no more than 1"));
}

#[test]
fn a_tongued_leap_and_a_slur_over_valves_are_left_alone() {
    let tongued = "open = \"C4:half C5:half\"\ntubes = [\"1-2-3\"]";
    silent(&routine("G4", None, &[AIR, tongued, END]), "wide-slur");
    silent(&middle("notes = \"slur( C4:half F4:half )\""), "wide-slur");
}

// Breath

#[test]
fn a_phrase_longer_than_a_breath_is_advised_where_to_breathe() {
    let text = middle(
        "notes = \"slur( G4:half F4:half | E4:whole ) | slur( D4:half E4:half | C4:whole )\"",
    );
    let (severity, message, hint, _) = only(&text, "long-breath");
    assert_eq!(severity, Severity::Advice);
    assert_eq!(
        message,
        "“L2”: from G4, the 1st note, up to C4, the 6th note the air must last 16.0 s at 60 clicks a \
         minute; an easy breath lasts a grown player about 6.3 s at this loudness"
    );
    assert!(
        hint.contains("after the 3rd note, E4 (the end of bar 2)"),
        "{hint}"
    );
}

#[test]
fn breath_marks_rests_and_a_faster_tempo_help() {
    silent(
        &middle("notes = \"G4:whole breath | E4:whole breath | C4:whole\""),
        "long-breath",
    );
    silent(
        &middle("notes = \"G4:whole | rest:whole | C4:whole\""),
        "long-breath",
    );
    let text = middle("notes = \"G4:whole | E4:whole\"");
    only(&text, "long-breath");
    let take = Take {
        tempo: TakeTempo::Clicks(Decimal::from_integer(80)),
        ..Take::default()
    };
    let faster = report_of(&text, &take, &Options::default());
    assert!(of_rule(&faster, "long-breath").is_empty());
}

#[test]
fn children_are_advised_sooner_and_soft_notes_last_longer() {
    let text = middle("notes = \"G4:whole\"");
    let at = |age| {
        let options = Options { age: Some(age) };
        let report = report_of(&text, &Take::default(), &options);
        let found = of_rule(&report, "long-breath");
        found.iter().filter(|f| f.line == Some(1)).count()
    };
    assert_eq!((at(AgeBand::Adult), at(AgeBand::EightToTen)), (0, 1));
    silent(&middle("notes = \"pp G4:whole | E4:whole\""), "long-breath");
    only(&middle("notes = \"mf G4:whole | E4:whole\""), "long-breath");
}

#[test]
fn passes_without_silence_between_them_are_one_stretch() {
    let line = "notes = \"G4:whole\"\ntimes = 3\nbetween = \"none\"";
    let (_, message, hint, _) = only(&middle(line), "long-breath");
    assert!(message.contains("12.0 s"), "{message}");
    assert!(hint.contains("the 1st note, G4"), "{hint}");
    silent(&middle("notes = \"G4:whole\"\ntimes = 3"), "long-breath");
}

#[test]
fn several_long_phrases_of_a_line_are_one_finding() {
    let line = "notes = \"G4:whole | E4:whole breath | G4:whole | E4:whole | rest:whole | G4:whole | E4:whole\"";
    let (_, message, hint, _) = only(&middle(line), "long-breath");
    assert!(
        message.contains("(2 other phrases of this line also)"),
        "{message}"
    );
    assert_eq!(hint.matches("the end of bar").count(), 3, "{hint}");
}

#[test]
fn a_single_note_too_long_cannot_be_divided() {
    let (_, _, hint, _) = only(&middle("notes = \"G4:whole tie:whole\""), "long-breath");
    assert_eq!(
        hint,
        "shorten the note, or play it softer or at a faster tempo"
    );
}

// Rests

const EIGHT_SECONDS: &str = "notes = \"G4:whole breath | E4:whole\"";

#[test]
fn playing_for_more_than_half_a_minute_is_advised_against() {
    let line = format!("{EIGHT_SECONDS}\ntimes = 4\nbetween = \"4 beats\"\nrest = \"40 s\"");
    let (severity, message, ..) = only(&middle(&line), "long-playing");
    assert_eq!(severity, Severity::Advice);
    assert_eq!(
        message,
        "“L2”: the lips play for 32 s before there is a rest as long as the last pass"
    );
    silent(
        &middle(&format!("{EIGHT_SECONDS}\ntimes = 4")),
        "long-playing",
    );
    silent(
        &middle(&format!(
            "{EIGHT_SECONDS}\ntimes = 3\nbetween = \"4 beats\""
        )),
        "long-playing",
    );
}

#[test]
fn one_endless_pass_is_advised_against() {
    let bars = ["G4:whole breath"; 9].join(" | ");
    let (_, message, ..) = only(&middle(&format!("notes = \"{bars}\"")), "long-playing");
    assert_eq!(message, "“L2”: one pass plays for 36 s without a rest");
    let with_rest = ["G4:whole breath"; 4].join(" | ");
    let rest = ["rest:whole"; 4].join(" | ");
    silent(
        &middle(&format!(
            "notes = \"{with_rest} | {rest} | {with_rest} | G4:whole\""
        )),
        "long-playing",
    );
}

#[test]
fn listening_in_echo_is_rest() {
    let line = format!("{EIGHT_SECONDS}\ntimes = 5\nbetween = \"none\"\nrest = \"8 s\"");
    let text = middle(&line);
    only(&text, "long-playing");
    only(&text, "short-rest");
    let echo = Take {
        guide: Guide::Echo,
        ..Take::default()
    };
    let report = report_of(&text, &echo, &Options::default());
    assert!(of_rule(&report, "long-playing").is_empty());
    assert!(of_rule(&report, "short-rest").is_empty());
}

#[test]
fn a_line_that_rests_less_than_it_plays_is_warned_of_at_its_rest() {
    let text = routine(
        "G4",
        None,
        &[
            EIGHT_SECONDS,
            &format!("{EIGHT_SECONDS}\nrest = \"6 s\""),
            END,
        ],
    );
    let (severity, message, _, place) = only(&text, "short-rest");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(message, "“L2”: it plays for 8 s and rests for 6 s");
    assert_eq!(place, "\"6 s\"");
    let (_, message, _, place) = only(&text, "short-rest-whole");
    assert_eq!(
        message,
        "the routine plays for 16 s and rests for 14 s in between"
    );
    assert_eq!(place, "\"Test\"");
}

#[test]
fn another_lines_long_rest_makes_the_whole_good() {
    let text = routine(
        "G4",
        None,
        &[
            &format!("{EIGHT_SECONDS}\nrest = \"20 s\""),
            &format!("{EIGHT_SECONDS}\nrest = \"6 s\""),
            END,
        ],
    );
    only(&text, "short-rest");
    silent(&text, "short-rest-whole");
}

#[test]
fn the_last_line_needs_no_rest_and_breathing_is_rest_for_the_lips() {
    let text = routine("G4", None, &[EIGHT_SECONDS, END]);
    silent(&text, "short-rest");
    silent(&text, "short-rest-whole");
    let no_rest = format!("{EIGHT_SECONDS}\nrest = \"none\"");
    silent(&routine("G4", None, &[&no_rest, AIR, END]), "short-rest");
    only(
        &routine("G4", None, &[&no_rest, EIGHT_SECONDS, END]),
        "short-rest",
    );
}

// Shape

#[test]
fn a_routine_that_only_climbs_is_warned_of() {
    let up = ["C4", "D4", "F4"].map(|n| format!("notes = \"p {n}:whole\""));
    let (severity, message, _, place) = only(
        &routine("G4", None, &[&up[0], &up[1], &up[2]]),
        "only-climbs",
    );
    assert_eq!(severity, Severity::Warning);
    assert!(message.starts_with("the routine only climbs"), "{message}");
    assert_eq!(place, "\"Test\"");
    silent(
        &routine("G4", None, &[&up[0], &up[2], &up[1]]),
        "only-climbs",
    );
    silent(
        &routine("G4", None, &[&up[0], &up[0], &up[1]]),
        "only-climbs",
    );
}

#[test]
fn a_first_line_that_is_not_easy_is_warned_of_with_every_reason() {
    let hard = "notes = \"f C4:sixteenth E4:sixteenth G4:sixteenth C5:sixteenth C4:half.\"";
    let (severity, message, ..) = only(&routine("G4", None, &[hard, END]), "hard-beginning");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L1”: the first line is not easy: C5 (the 4th note) lies above what is comfortable; it goes \
         from C4 to C5, an octave; C4 (the 1st note) is louder than mf; C4 (the 1st note) is fast"
    );
}

#[test]
fn easy_first_lines_are_fine() {
    for line in [
        AIR,
        "on = \"mouthpiece\"\nnotes = \"f C4:half C5:half\"",
        "notes = \"C4:half G4:half | C4:eighth D4:eighth E4:half.\"",
        "notes = \"G4:whole\"\nhalf_steps = [0, -2, -4, -7, -10]",
    ] {
        silent(&routine("G4", None, &[line, END]), "hard-beginning");
    }
}

#[test]
fn a_last_line_that_is_loud_or_high_is_warned_of() {
    let (severity, message, hint, _) = only(
        &routine("G4", None, &[AIR, "notes = \"G4:whole\""]),
        "hard-ending",
    );
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: the last line does not let the player down gently: G4 (the 1st note) is louder than mp"
    );
    assert!(hint.contains("a pass starts at mf"), "{hint}");
    let high = routine("G4", Some("B4"), &[AIR, "notes = \"p G4:half Bb4:half\""]);
    assert!(
        only(&high, "hard-ending")
            .1
            .contains("Bb4 (the 2nd note) lies above")
    );
    silent(&routine("G4", None, &[AIR, END]), "hard-ending");
    silent(&routine("G4", None, &[END, AIR]), "hard-ending");
}

#[test]
fn a_single_line_has_no_shape() {
    let report = report(&routine("G4", None, &["notes = \"ff C4:half G5:half\""]));
    for rule in ["hard-beginning", "hard-ending", "only-climbs"] {
        assert!(of_rule(&report, rule).is_empty());
    }
}

// The report as a whole

#[test]
fn a_good_routine_has_nothing_to_be_said_of_it() {
    let text = routine(
        "G4",
        None,
        &[
            AIR,
            "notes = \"G4:half F#4:half | G4:whole breath\"\nhalf_steps = [0, -1, -2]",
            "open = \"slur( C4:half G4:half | C4:whole ) breath\"\ntubes = [\"0\", \"1-2\", \"1-2-3\"]\n\
             articulation = [\"slurred\", \"tongued\"]",
            END,
        ],
    );
    let report = report(&text);
    let warnings: Vec<&Finding> = report
        .findings
        .iter()
        .filter(|f| f.severity > Severity::Advice)
        .collect();
    assert!(warnings.is_empty(), "{warnings:#?}");
}

#[test]
fn findings_come_in_order_of_place_and_never_by_the_hundred() {
    let bad = "notes = \"f slur( C4:quarter C5:quarter [0] ) B5:quarter (bend) F#4:quarter [1]\"\n\
               times = 100\nbetween = \"none\"\nrest = \"none\"";
    let report = report(&routine("C4", Some("E4"), &[bad, bad, bad]));
    let places: Vec<usize> = report.findings.iter().map(|f| f.span.start).collect();
    assert!(places.is_sorted());
    assert!(report.findings.len() < 40, "{}", report.findings.len());
    assert_eq!(
        report.findings.len(),
        report.count(Severity::Error)
            + report.count(Severity::Warning)
            + report.count(Severity::Advice)
    );
}

#[test]
fn the_summary_adds_up() {
    let text = routine(
        "G4",
        None,
        &[
            AIR,
            "notes = \"G4:whole breath | E4:whole\"\nhalf_steps = [0, -2]",
            END,
        ],
    );
    let summary = report(&text).summary;
    // Breathing 8 s, two passes of 8 s, the end 8 s.
    assert_eq!(summary.playing_seconds, 32.0);
    assert_eq!(summary.breathing_seconds, 8.0);
    // 8 s after breathing, 8 s between the passes, 8 s after the second.
    assert_eq!(summary.rest_seconds, 24.0);
    assert_eq!(summary.ratio(), Some(0.75));
    // Half a second of silence, one bar of count-in, and the fade.
    assert!((summary.seconds - (0.5 + 4.0 + 32.0 + 24.0 + 0.3)).abs() < 1e-9);
    assert_eq!(summary.lowest.unwrap().to_string(), "C4");
    assert_eq!(summary.highest.unwrap().to_string(), "G4");
    assert_eq!(summary.breaths, 2);
    let line = &summary.lines[1];
    assert_eq!((line.passes, line.breaths), (2, 2));
    assert_eq!((line.playing_seconds, line.rest_seconds), (16.0, 16.0));
    assert_eq!(line.lowest.unwrap().to_string(), "D4");
    // A count-in of its own follows the rest, as its end: the line's seconds hold it too.
    assert_eq!(line.seconds, 4.0 + 16.0 + 8.0);
}

#[test]
fn in_echo_the_summary_counts_listening_as_rest() {
    let text = routine("G4", None, &[EIGHT_SECONDS, END]);
    let echo = Take {
        guide: Guide::Echo,
        ..Take::default()
    };
    let summary = report_of(&text, &echo, &Options::default()).summary;
    assert_eq!(summary.playing_seconds, 16.0);
    assert_eq!(summary.lines[0].rest_seconds, 8.0 + 8.0);
}

/// A note, rest or mark of a line in the middle of the horn, now and then with a bad fingering.
fn token() -> impl Strategy<Value = String> {
    let pitch = prop::sample::select(vec![
        "F#3", "C4", "E4", "F#4", "G4", "B4", "C5", "E5", "Bb5",
    ]);
    let value = prop::sample::select(vec!["whole", "half", "quarter.", "eighth", "sixteenth"]);
    let mark = prop::sample::select(vec!["", " [1]", " [1-2-3]", " [0]", " breath", " (ku)"]);
    let note = (pitch.clone(), value.clone(), mark).prop_map(|(p, v, m)| format!("{p}:{v}{m}"));
    let bend = (pitch, value.clone()).prop_map(|(p, v)| format!("{p}:{v} F4:{v} (bend)"));
    let rest = value.prop_map(|v| format!("rest:{v}"));
    let dynamic = prop::sample::select(vec!["pp", "mp", "f", "ff"]).prop_map(str::to_owned);
    prop_oneof![6 => note, 1 => bend, 2 => rest, 1 => dynamic]
}

proptest! {
    /// Whatever is written: no panic, every finding in its place, in order, with something to do, and
    /// none told twice.
    #[test]
    fn any_routine_is_checked(
        lines in prop::collection::vec((prop::collection::vec(token(), 1..12), 1..4u8, any::<bool>()), 1..5),
        echo in any::<bool>(),
    ) {
        let lines: Vec<String> = lines
            .iter()
            .map(|(tokens, times, no_rest)| {
                let rest = if *no_rest { "\nbetween = \"none\"\nrest = \"none\"" } else { "" };
                format!("notes = \"C4:quarter {}\"\ntimes = {times}{rest}", tokens.join(" "))
            })
            .collect();
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let text = routine("C4", Some("E4"), &lines);
        let guide = if echo { Guide::Echo } else { Guide::Together };
        let report = report_of(&text, &Take { guide, ..Take::default() }, &Options::default());
        let mut told = std::collections::BTreeSet::new();
        let mut before = 0;
        for finding in &report.findings {
            prop_assert!(text.get(finding.span.start..finding.span.end).is_some());
            prop_assert!(finding.span.start >= before);
            before = finding.span.start;
            prop_assert!(finding.hint.is_some());
            prop_assert!(told.insert((finding.rule, finding.line, finding.message.clone())));
        }
        let summary = &report.summary;
        let lines = summary.lines.iter();
        prop_assert!((lines.map(|l| l.playing_seconds).sum::<f64>() - summary.playing_seconds).abs() < 1e-6);
        prop_assert!(summary.playing_seconds + summary.rest_seconds <= summary.seconds);
    }
}
