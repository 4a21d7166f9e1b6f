//! One changed line changes no other line's samples, through the files.

use leadpipe::score::Take;
use std::sync::OnceLock;

use crate::rendered::*;

/// Lines with everything that has state or noise: slurs, bends, breaths, mouthpiece, air, tubes, echo.
const LINES: [&str; 6] = [
    "notes = \"slur( G4:half F#4:half | G4:whole ) breath | A4:quarter G4:quarter (staccato) rest:half\"\nhalf_steps = [0, -2]",
    "on = \"air\"\nnotes = \"in:whole | out:whole\"",
    "open = \"slur( C4:half G4:half | C4:whole )\"\ntubes = [\"0\", \"1-3\"]\narticulation = [\"slurred\", \"tongued\"]",
    "on = \"mouthpiece\"\nnotes = \"p C4:half cresc E4:half (ku) | G4:whole (air) f\"\ntempo = 91.7",
    "notes = \"triplet( C4:quarter E4:quarter G4:quarter ) slur( E4:quarter Eb4:quarter (bend) )\"\nmeter = \"4/4\"\nguide = \"echo\"",
    "notes = \"slur( G4:half F#4:half | G4:whole ) breath | A4:quarter G4:quarter (staccato) rest:half\"\nhalf_steps = [0, -2]",
];

/// All of them, rendered once for both tests.
fn whole() -> &'static Rendered {
    static WHOLE: OnceLock<Rendered> = OnceLock::new();
    WHOLE.get_or_init(|| Rendered::of(&trumpet("113.3", &LINES), &Take::default()))
}

/// What a line sounds like, fade included.
fn sound(rendered: &Rendered, line: usize) -> [&[i16]; 4] {
    let cue = &rendered.cues[line];
    let from = cue.frame as usize;
    let to = from + cue.frames as usize + frame(3, 10);
    [
        &rendered.mix,
        &rendered.guide,
        &rendered.drone,
        &rendered.click,
    ]
    .map(|part| &part[from..to.min(part.len())])
}

#[test]
fn one_changed_line_changes_no_other_lines_samples() {
    let before = whole();
    // Other notes; other length, tempo and meter, so that all lines after it lie elsewhere.
    let changes = [
        (
            0,
            "notes = \"slur( G4:half F#4:half | G4:whole ) breath | B4:quarter G4:quarter (staccato) rest:half\"\nhalf_steps = [0, -2]",
        ),
        (
            1,
            "notes = \"C4:half.\"\nmeter = \"6/8\"\ntempo = 77.777\nrest = \"7.001 s\"",
        ),
        (
            2,
            "open = \"slur( C4:half G4:half | C4:whole )\"\ntubes = [\"0\"]\ndrone = \"tonic and fifth\"",
        ),
        (4, "notes = \"C4:eighth\"\ntempo = 61"),
    ];
    for (changed, to) in changes {
        let mut lines = LINES;
        lines[changed] = to;
        let after = Rendered::of(&trumpet("113.3", &lines), &Take::default());
        for line in 0..LINES.len() {
            let same = sound(before, line) == sound(&after, line);
            assert_eq!(
                same,
                line != changed,
                "line {} when line {} changes",
                line + 1,
                changed + 1
            );
        }
        if changed == 1 || changed == 4 {
            let last = LINES.len() - 1;
            assert_ne!(
                before.cues[last].frame % 64,
                after.cues[last].frame % 64,
                "it lies elsewhere in its blocks"
            );
        }
    }
    // Where a line stands in the routine does not matter either: the last is the first over again.
    assert!(sound(before, 0) == sound(before, LINES.len() - 1));
}

#[test]
fn a_line_rendered_alone_is_the_same() {
    for (line, text) in LINES.iter().enumerate() {
        let alone = Rendered::of(&trumpet("113.3", &[text]), &Take::default());
        assert!(
            sound(whole(), line) == sound(&alone, 0),
            "line {}",
            line + 1
        );
    }
}
