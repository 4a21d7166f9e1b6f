//! Intervals: their size, their pure ratios, and how fast they beat.

/// The size of a frequency ratio `p/q` in cents: 1200·log2(p/q).
pub fn cents(p: f64, q: f64) -> f64 {
    1200.0 * libm::log2(p / q)
}

/// The pure (just) ratio `(p, q)` of an interval inside the octave, 0–11 half steps upwards.
/// The minor seventh is 16/9; the tritone 45/32. Source: the five-limit table in any acoustics text.
pub fn just_ratio(half_steps: u8) -> (u32, u32) {
    const RATIOS: [(u32, u32); 12] = [
        (1, 1),
        (16, 15),
        (9, 8),
        (6, 5),
        (5, 4),
        (4, 3),
        (45, 32),
        (3, 2),
        (8, 5),
        (5, 3),
        (16, 9),
        (15, 8),
    ];
    RATIOS[usize::from(half_steps % 12)]
}

/// Beats a second between a note and a drone that should form the pure interval `p/q`:
/// |q·f_note − p·f_drone|, in Hz.
pub fn beats_hz(note_hz: f64, drone_hz: f64, (p, q): (u32, u32)) -> f64 {
    (f64::from(q) * note_hz - f64::from(p) * drone_hz).abs()
}
