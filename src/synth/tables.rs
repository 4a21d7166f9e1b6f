//! Single cycles of sound, over pitch and brightness, to be read at any speed.

use super::spectrum::Timbre;
use std::sync::OnceLock;

/// Points of a cycle; read with a straight line between them, 2048 keep what is not a partial below
/// −85 dB of the strongest one.
pub const POINTS: usize = 2048;
/// Right shift from a phase of 32 bits to a point.
pub const SHIFT: u32 = 32 - POINTS.ilog2();
/// From the bits of a phase below the point to 0..1.
const FRACTION: f32 = 1.0 / (1u32 << SHIFT) as f32;
/// No partial in any table passes this, Hz, so that nothing folds back at 44.1 kHz.
const HIGHEST_PARTIAL_HZ: f64 = 16_000.0;
/// Nor are there more partials than this: those of a tuba's lowest notes that lie beyond are 80 dB and more below its
/// strongest, and straight lines between points draw them badly.
const MOST_PARTIALS: usize = 320;
/// Half steps from one anchor pitch to the next.
pub const ANCHOR_STEP: f64 = 2.0;

/// One cycle, its first point repeated at its end.
pub type Cycle = [f32; POINTS + 1];

/// The cycle's value at `phase`, where 2³² is a whole turn.
#[inline(always)]
pub fn read(cycle: &Cycle, phase: u32) -> f32 {
    let i = (phase >> SHIFT) as usize;
    let fraction = (phase & ((1 << SHIFT) - 1)) as f32 * FRACTION;
    let a = cycle[i];
    a + fraction * (cycle[i + 1] - a)
}

/// Frames that are read at once: one where the machine has no vectors. The bits are the same.
pub const AT_ONCE: usize = if cfg!(any(
    target_feature = "sse2",
    target_feature = "neon",
    target_feature = "simd128"
)) {
    4
} else {
    1
};

/// What [`read`] gives for each of these phases, all at once.
#[inline(always)]
pub fn read_all(cycle: &Cycle, phases: &[u32; AT_ONCE]) -> [f32; AT_ONCE] {
    // Loops and no closures: each becomes one step for all four.
    let (mut a, mut b) = ([0.0; AT_ONCE], [0.0; AT_ONCE]);
    for i in 0..AT_ONCE {
        let point = (phases[i] >> SHIFT) as usize;
        a[i] = cycle[point];
        b[i] = cycle[point + 1];
    }
    for i in 0..AT_ONCE {
        let fraction = (phases[i] & ((1 << SHIFT) - 1)) as i32 as f32 * FRACTION;
        a[i] += fraction * (b[i] - a[i]);
    }
    a
}

/// Phase increment a frame for `hz`.
pub fn increment(hz: f64, sample_rate: f64) -> f64 {
    hz / sample_rate * 4_294_967_296.0
}

/// Frequency of a MIDI note number (A4 = 69 = 440 Hz): the anchors' grid, whatever the tuning of a take.
pub fn midi_hz(midi: f64) -> f64 {
    440.0 * libm::exp2((midi - 69.0) / 12.0)
}

/// The cycles of one timbre: anchor pitches two half steps apart, each with every layer of brightness. Those of an anchor
/// are built when the first of them is asked for.
#[derive(Debug)]
pub struct Bank {
    timbre: Timbre,
    lowest_midi: f64,
    brightness: Vec<f64>,
    scale: fn(f64, &[f64]) -> f64,
    anchors: Vec<OnceLock<Vec<Cycle>>>,
}

impl Bank {
    /// Brightness from one layer to the next.
    pub const LAYER_STEP: f64 = 0.2;

    /// Anchors from MIDI note `lowest_midi` on, with these layers of brightness, a step apart and the
    /// darkest first, each scaled by `scale` of its anchor's frequency and partial amplitudes.
    pub fn new(
        timbre: Timbre,
        lowest_midi: u8,
        anchors: usize,
        brightness: &[f64],
        scale: fn(f64, &[f64]) -> f64,
    ) -> Self {
        Self {
            timbre,
            lowest_midi: f64::from(lowest_midi),
            brightness: brightness.to_vec(),
            scale,
            anchors: vec![OnceLock::new(); anchors],
        }
    }

    fn build(&self, anchor: usize) -> Vec<Cycle> {
        let midi = self.lowest_midi + ANCHOR_STEP * anchor as f64;
        let f0 = midi_hz(midi);
        // A table is used up to the next anchor, and bent a little beyond.
        let count = (HIGHEST_PARTIAL_HZ / midi_hz(midi + ANCHOR_STEP)) as usize;
        let count = count.min(MOST_PARTIALS);
        let layers: Vec<Vec<f64>> = self
            .brightness
            .iter()
            .map(|&b| {
                let mut amplitudes = self.timbre.amplitudes(f0, b, count);
                let scale = (self.scale)(f0, &amplitudes);
                amplitudes.iter_mut().for_each(|a| *a *= scale);
                amplitudes
            })
            .collect();
        Circle::get().sum(self.timbre, &layers)
    }

    /// Where `brightness` lies among the layers: 0 at the darkest, held within them.
    pub fn layer(&self, brightness: f64) -> f64 {
        ((brightness - self.brightness[0]) / Self::LAYER_STEP).clamp(0.0, self.top_layer() as f64)
    }

    /// Where `hz` lies among the anchors: 0 at the lowest, held within them.
    pub fn place(&self, log2_hz: f64) -> f64 {
        // log2 of MIDI note 0, 440 Hz being 69.
        const MIDI_0: f64 = 3.031_359_713_524_66;
        let midi = 12.0 * (log2_hz - MIDI_0);
        ((midi - self.lowest_midi) / ANCHOR_STEP).clamp(0.0, (self.anchors.len() - 1) as f64)
    }

    /// The highest layer, as a place among layers.
    pub fn top_layer(&self) -> usize {
        self.brightness.len() - 1
    }

    /// The lower of the two anchors around `place`.
    pub fn anchor_below(&self, place: f64) -> usize {
        (place as usize).min(self.anchors.len() - 2)
    }

    /// The cycle of an anchor and layer.
    pub fn cycle(&self, anchor: usize, layer: usize) -> &Cycle {
        &self.anchors[anchor].get_or_init(|| self.build(anchor))[layer]
    }

    /// Bytes of the cycles that have been built.
    pub fn bytes(&self) -> usize {
        let built = self.anchors.iter().filter_map(OnceLock::get);
        built.map(|cycles| cycles.len() * size_of::<Cycle>()).sum()
    }
}

/// The RMS of a cycle with these partial amplitudes.
pub fn rms(amplitudes: &[f64]) -> f64 {
    (amplitudes.iter().map(|a| a * a).sum::<f64>() / 2.0).sqrt()
}

/// Sine and cosine at the points of a turn: every partial of every table is read from these.
struct Circle {
    cos: Vec<f64>,
    sin: Vec<f64>,
}

impl Circle {
    fn get() -> &'static Self {
        static CIRCLE: OnceLock<Circle> = OnceLock::new();
        CIRCLE.get_or_init(Self::new)
    }

    fn new() -> Self {
        let angle = |i: usize| 2.0 * std::f64::consts::PI * i as f64 / POINTS as f64;
        Self {
            cos: (0..POINTS).map(|i| libm::cos(angle(i))).collect(),
            sin: (0..POINTS).map(|i| libm::sin(angle(i))).collect(),
        }
    }

    /// One cycle for each list of amplitudes.
    fn sum(&self, timbre: Timbre, layers: &[Vec<f64>]) -> Vec<Cycle> {
        let mut sums = vec![[0.0f64; POINTS]; layers.len()];
        let mut partial = [0.0f64; POINTS];
        for k in 1..=layers.iter().map(Vec::len).max().unwrap_or(0) {
            let (sin, cos) = libm::sincos(timbre.phase(k));
            for (n, value) in partial.iter_mut().enumerate() {
                let i = (k * n) % POINTS;
                *value = cos * self.cos[i] - sin * self.sin[i];
            }
            for (sum, amplitudes) in sums.iter_mut().zip(layers) {
                let amplitude = amplitudes[k - 1];
                for (s, p) in sum.iter_mut().zip(&partial) {
                    *s += amplitude * p;
                }
            }
        }
        let cycles = sums.iter().map(|sum| {
            let mut cycle = [0.0f32; POINTS + 1];
            for (point, s) in cycle.iter_mut().zip(sum) {
                *point = *s as f32;
            }
            cycle[POINTS] = cycle[0];
            cycle
        });
        cycles.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brass::Family;

    #[test]
    fn anchors_lie_where_their_pitch_is() {
        let bank = Bank::new(
            Timbre::Horn(Family::Trumpet),
            50,
            19,
            &[0.0, 0.2],
            |_, a| 1.0 / rms(a),
        );
        assert!((bank.place(libm::log2(440.0)) - 9.5).abs() < 1e-9);
        assert_eq!(bank.place(libm::log2(20.0)), 0.0);
        assert_eq!(bank.place(libm::log2(9000.0)), 18.0);
        assert_eq!(bank.anchor_below(18.0), 17);
        assert_eq!(
            [-1.0, 0.1, 0.2, 3.0].map(|b| bank.layer(b)),
            [0.0, 0.5, 1.0, 1.0]
        );
    }

    #[test]
    fn every_cycle_has_the_same_rms_and_closes() {
        let bank = Bank::new(
            Timbre::Horn(Family::Trumpet),
            50,
            19,
            &[0.0, 0.6, 1.4],
            |_, a| 1.0 / rms(a),
        );
        for anchor in 0..19 {
            for layer in 0..3 {
                let cycle = bank.cycle(anchor, layer);
                let power: f64 = cycle[..POINTS]
                    .iter()
                    .map(|&x| f64::from(x) * f64::from(x))
                    .sum();
                assert!(((power / POINTS as f64).sqrt() - 1.0).abs() < 1e-5);
                assert_eq!(cycle[0], cycle[POINTS]);
            }
        }
    }

    #[test]
    fn reading_is_a_straight_line_between_points() {
        let mut cycle = [0.0; POINTS + 1];
        cycle[1] = 1.0;
        assert_eq!(read(&cycle, 1 << SHIFT), 1.0);
        assert_eq!(read(&cycle, 1 << (SHIFT - 1)), 0.5);
        assert_eq!(read(&cycle, u32::MAX), 0.0);
    }
}
