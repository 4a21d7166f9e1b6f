//! How loud whole tracks are, by an independent R 128 meter (ITU-R BS.1770-5), as they play on two
//! loudspeakers: one channel on both.

use leadpipe::routine::Guide;
use leadpipe::score::Take;
use std::sync::OnceLock;

use crate::rendered::*;

/// Routines as teachers write them: long tones, tubes, a soft line, a quick one, breathing.
fn routines() -> Vec<(&'static str, String)> {
    let long = "notes = \"mf slur( G4:half F#4:half | G4:whole ) breath | slur( G4:half F#4:half | G4:whole )\"\n\
                half_steps = [0, -1, -2, -3]";
    let tubes = "open = \"slur( C4:half G4:half | C4:whole )\"\n\
                 tubes = [\"0\", \"2\", \"1\", \"1-2\", \"2-3\"]\narticulation = [\"slurred\", \"tongued\"]";
    let soft = "notes = \"p E4:whole | D4:whole | C4:whole\"\ntimes = 2";
    let quick = "notes = \"C4:quarter D4:eighth E4:eighth F4:quarter G4:quarter | G4:eighth F4:eighth E4:eighth D4:eighth C4:half\"\ntimes = 4";
    let air = "on = \"air\"\nnotes = \"in:whole out:whole\"\ntimes = 2";
    vec![
        ("long tones and tubes", trumpet("72", &[long, tubes])),
        (
            "a bit of everything",
            trumpet("66", &[air, long, quick, soft]),
        ),
        ("quick", trumpet("100", &[quick, tubes])),
    ]
}

/// The same as they are written, rendered once for all tests here.
fn tracks() -> &'static [(&'static str, String, Rendered)] {
    static TRACKS: OnceLock<Vec<(&str, String, Rendered)>> = OnceLock::new();
    TRACKS.get_or_init(|| {
        let rendered = routines().into_iter().map(|(name, text)| {
            let rendered = Rendered::of(&text, &Take::default());
            (name, text, rendered)
        });
        rendered.collect()
    })
}

/// Loudness of one channel on both loudspeakers.
fn on_two_loudspeakers(steps: &[i16]) -> f64 {
    let mut meter = ebur128::EbuR128::new(1, RATE, ebur128::Mode::I).unwrap();
    meter.set_channel(0, ebur128::Channel::DualMono).unwrap();
    meter.add_frames_i16(steps).unwrap();
    meter.loudness_global().unwrap()
}

/// AES TD1008 (2021): −16 LUFS for a music track. A take without the guide is not brought up to it.
#[test]
fn tracks_read_near_minus_16_lufs_and_no_louder_without_the_guide() {
    assert_eq!(Take::default().guide, Guide::Together);
    for (name, text, together) in tracks() {
        let take = |guide| Take {
            guide,
            ..Take::default()
        };
        let off = Rendered::of(text, &take(Guide::Off));
        let echo = Rendered::of(text, &take(Guide::Echo));
        let [with, without, echoed] = [together, &off, &echo].map(|r| on_two_loudspeakers(&r.mix));
        println!("{name}: together {with:.2}, echo {echoed:.2}, off {without:.2} LUFS");
        assert!((with + 16.0).abs() < 1.5, "{name}: {with:.2}");
        assert!(without < with - 3.0, "{name}: {without:.2}");
        assert!(echoed < with + 0.5, "{name}: {echoed:.2}");
        // Not by one step louder or softer: drone and click are the same whatever the guide does.
        assert!(off.guide.iter().all(|s| *s == 0));
        assert!(off.drone == together.drone && off.click == together.click);
    }
}

#[test]
fn stems_add_up_to_the_track() {
    for (name, _, rendered) in tracks() {
        for (i, mix) in rendered.mix.iter().enumerate() {
            let parts = [rendered.guide[i], rendered.drone[i], rendered.click[i]];
            let sum: i32 = parts.into_iter().map(i32::from).sum();
            // Each of four files is rounded by at most half a step.
            assert!(
                (i32::from(*mix) - sum).abs() <= 2,
                "{name}, frame {i}: {mix} and {sum}"
            );
        }
        for part in [&rendered.guide, &rendered.drone, &rendered.click] {
            assert!(part.iter().any(|s| s.abs() > 300), "{name}");
        }
    }
}
