//! A second run renders only what changed.

use crate::{PLAIN, again, files, folder, made, render, three_lines, track};
use leadpipe::render::{Bits, RenderSettings, TrackOutcome};
use std::fs;

#[test]
fn a_second_run_renders_nothing() {
    let at = folder();
    let tracks = [
        track("a", three_lines(247.0, 500)),
        track("b", three_lines(262.0, 500)),
    ];
    assert_eq!(
        made(at.path(), PLAIN, &tracks),
        [TrackOutcome::New, TrackOutcome::New]
    );
    let before = files(at.path());
    let time = |name| {
        let metadata = fs::metadata(at.path().join(name)).unwrap();
        metadata.modified().unwrap()
    };
    let times = (time("a.wav"), time("b.wav"));
    let verify = RenderSettings {
        verify: true,
        ..PLAIN
    };
    for settings in [PLAIN, verify] {
        let unchanged = [TrackOutcome::Unchanged, TrackOutcome::Unchanged];
        assert_eq!(made(at.path(), settings, &tracks), unchanged);
    }
    assert_eq!((time("a.wav"), time("b.wav")), times);
    assert!(files(at.path()) == before);
    let force = RenderSettings {
        force: true,
        ..PLAIN
    };
    assert_eq!(made(at.path(), force, &tracks), [again(3, 3), again(3, 3)]);
    assert!(files(at.path()) == before);
}

#[test]
fn one_changed_line_is_rendered_and_the_others_are_copied() {
    for bits in [Bits::Sixteen, Bits::TwentyFour] {
        let settings = RenderSettings {
            bits,
            stems: true,
            ..PLAIN
        };
        let (at, fresh) = (folder(), folder());
        render(at.path(), settings, &[track("t", three_lines(247.0, 500))]);
        // Another second line, and everything after the first rest moved by an odd number of frames.
        let changed = [track("t", three_lines(248.0, 613))];
        assert_eq!(made(at.path(), settings, &changed), [again(1, 3)]);
        render(fresh.path(), settings, &changed);
        assert!(files(at.path()) == files(fresh.path()));
        assert_eq!(
            made(at.path(), settings, &changed),
            [TrackOutcome::Unchanged]
        );
    }
}

#[test]
fn another_label_alone_copies_every_line() {
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    let mut relabelled = three_lines(247.0, 500);
    relabelled.cues[1].label = "2 another name".to_owned();
    assert_eq!(
        made(at.path(), PLAIN, &[track("t", relabelled)]),
        [again(0, 3)]
    );
    let file = fs::read(at.path().join("t.wav")).unwrap();
    assert!(file.windows(14).any(|w| w == b"2 another name"));
}

#[test]
fn another_format_renders_everything() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    render(at.path(), PLAIN, &tracks);
    let wide = RenderSettings {
        bits: Bits::TwentyFour,
        ..PLAIN
    };
    assert_eq!(made(at.path(), wide, &tracks), [again(3, 3)]);
}

#[test]
fn stems_once_asked_for_are_kept_in_step() {
    let at = folder();
    let stems = RenderSettings {
        stems: true,
        ..PLAIN
    };
    render(at.path(), stems, &[track("t", three_lines(247.0, 500))]);
    let changed = [track("t", three_lines(248.0, 500))];
    render(at.path(), PLAIN, &changed);
    let fresh = folder();
    render(fresh.path(), stems, &changed);
    assert!(files(at.path()) == files(fresh.path()));
}
