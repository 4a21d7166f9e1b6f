//! The same sound every time.

use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Approach, Click, Content, Held, LineSound, Swell, Unit};

use crate::by_hand::*;

fn everything(s: u64) -> Unit {
    let valves = Approach::Valves {
        glide: s / 80,
        dip_db: 2.5,
    };
    unit(
        4 * s + 13,
        LineSound {
            clicks: (0..8)
                .map(|i| Click {
                    frame: i * s / 2,
                    accented: i % 4 == 0,
                })
                .collect(),
            drone: vec![
                Held {
                    frame: 0,
                    end: 2 * s,
                    hz: vec![116.541],
                    fade: 0,
                },
                Held {
                    frame: 2 * s,
                    end: 4 * s,
                    hz: vec![110.0, 164.814],
                    fade: s / 4,
                },
            ],
            tones: vec![
                then(tone(s + 5, 2 * s, 233.082, -5.0), s * 3 / 2, 220.0, valves),
                tone(2 * s, 3 * s, 220.0, 0.0),
            ],
            company: vec![],
            softer_db: 0.0,
            swells: vec![Swell {
                frame: 3 * s,
                end: 4 * s,
                inward: true,
                seed: 9,
            }],
        },
    )
}

#[test]
fn the_same_unit_gives_the_same_bits_whatever_came_before() {
    for rate in RATES {
        let one = everything(rate.into());
        let mut elsewhere = one.clone();
        elsewhere.first_frame = 123_457;
        let engine = Engine::new(rate);
        let first = perform(&engine, &one).mix();
        perform(
            &engine,
            &unit(
                3_000,
                LineSound {
                    tones: vec![tone(0, 2_000, 700.0, 4.0)],
                    ..LineSound::default()
                },
            ),
        );
        assert!(first == perform(&engine, &elsewhere).mix());
        assert!(first == perform(&Engine::new(rate), &one).mix());
        std::thread::scope(|scope| {
            let other = scope.spawn(|| perform(&engine, &one).mix());
            assert!(first == other.join().expect("a performance"));
        });
    }
}

#[test]
fn passing_over_silence_changes_nothing() {
    let engine = Engine::new(48_000);
    let mut sparse = everything(48_000);
    if let Content::Line(line) = &mut sparse.content {
        line.drone = vec![Held {
            frame: 30_000,
            end: 50_000,
            hz: vec![220.0],
            fade: 4_000,
        }];
        line.clicks = vec![Click {
            frame: 10_007,
            accented: false,
        }];
        line.swells.clear();
    }
    let whole = perform(&engine, &sparse).mix();
    let mut performance = engine.perform(&sparse);
    let (mut block, mut at, mut skipped) = (Block::SILENT, 0, 0);
    loop {
        let silent = performance.skip_silence() as usize;
        assert!(whole[at..at + silent].iter().all(|x| *x == 0.0));
        (at, skipped) = (at + silent, skipped + silent);
        let n = performance.next_block(&mut block);
        if n == 0 {
            break;
        }
        assert!(silent.is_multiple_of(64) && (0..n).all(|i| block.mix(i) == whole[at + i]));
        at += n;
    }
    assert_eq!(at, whole.len());
    assert!(skipped > 60_000, "{skipped}");
}

#[test]
fn engines_and_performances_cross_threads() {
    fn crosses<T: Send>() {}
    fn shared<T: Send + Sync>() {}
    shared::<Engine>();
    crosses::<leadpipe::synth::Performance<'static>>();
}
