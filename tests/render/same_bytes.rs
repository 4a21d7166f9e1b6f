//! The same files whatever the threads, and what they hold.

use crate::{PLAIN, files, folder, render, three_lines, track};
use leadpipe::render::RenderSettings;

#[test]
fn one_thread_and_four_write_the_same_bytes() {
    let tracks = || {
        (0..6)
            .map(|n| track(&format!("t{n}"), three_lines(200.0 + f64::from(n), 500)))
            .collect::<Vec<_>>()
    };
    let (one, four) = (folder(), folder());
    let settings = |threads| RenderSettings {
        stems: true,
        threads: Some(threads),
        ..PLAIN
    };
    render(one.path(), settings(1), &tracks());
    render(four.path(), settings(4), &tracks());
    let files_of_one = files(one.path());
    assert_eq!(files_of_one.len(), 24);
    assert!(files_of_one == files(four.path()));
}

#[test]
fn the_sound_is_not_silence_and_stems_add_up_to_the_track() {
    let at = folder();
    let settings = RenderSettings {
        stems: true,
        ..PLAIN
    };
    render(at.path(), settings, &[track("t", three_lines(247.0, 500))]);
    let frames = |name: &str| -> Vec<i32> {
        let reader = hound::WavReader::open(at.path().join(name)).unwrap();
        reader.into_samples().map(Result::unwrap).collect()
    };
    let mix = frames("t.wav");
    let stems = [
        frames("t guide.wav"),
        frames("t drone.wav"),
        frames("t click.wav"),
    ];
    assert!(mix.iter().any(|frame| frame.abs() > 1000));
    for (i, frame) in mix.iter().enumerate() {
        let sum: i32 = stems.iter().map(|stem| stem[i]).sum();
        // Half a step of rounding in each of four files.
        assert!((frame - sum).abs() <= 2, "frame {i}: {frame} and {sum}");
    }
}
