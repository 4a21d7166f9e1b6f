//! How sharp valve combinations are.

use crate::{near, trumpet};
use leadpipe::brass::{Tube, partials};

fn cents(tube: &str) -> f64 {
    partials::combination_cents(trumpet(), Tube::parse(tube).unwrap())
}

/// Cents with each valve exact alone: 100·h − 1200·log2(1 + Σ(2^(hᵢ/12) − 1)) (computed).
#[test]
fn combinations_are_as_sharp_as_the_sum_of_their_lengths() {
    for (tube, right) in [
        ("0", 0.0),
        ("1", 0.0),
        ("2", 0.0),
        ("3", 0.0),
        ("1-2", 10.63),
        ("2-3", 15.53),
        ("1-3", 30.32),
        ("1-2-3", 53.56),
    ] {
        near(cents(tube), right, 0.005);
    }
}

/// Published figures differ with how the third valve is cut, but not in their order: 1-2-3 is
/// sharper than 1-3, which is sharper than 1-2 and 2-3.
#[test]
fn the_longer_the_combination_the_sharper() {
    assert!(cents("1-2-3") > cents("1-3"));
    assert!(cents("1-3") > cents("1-2"));
    assert!(cents("1-3") > cents("2-3"));
    assert!(cents("1-3") > 0.0);
}

/// T. R. Moore, Acoustics Today, winter 2016: a trumpet of 140 cm needs 26.5 cm of tube for 1-2 and
/// gets 25.5, which is 10.4 cents sharp (seen).
#[test]
fn one_and_two_agrees_with_a_measured_trumpet() {
    near(cents("1-2"), 10.4, 0.5);
}
