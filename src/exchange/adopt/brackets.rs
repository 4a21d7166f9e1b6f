//! Completes the signs of repeats: brackets of endings that have no beginning, and the place where the coda is left.

use crate::exchange::piece::{Loss, Measure, Repeat};

/// The repeats of all measures, with what is missing in them supplied.
pub(super) fn whole(measures: &[Measure], losses: &mut Vec<Loss>) -> Vec<Repeat> {
    let mut repeats: Vec<Repeat> = measures.iter().map(|m| m.repeat.clone()).collect();
    let mut open = false;
    for (index, repeat) in repeats.iter_mut().enumerate() {
        open |= repeat.ending.is_some();
        if repeat.ending_over && !open && !repeat.over.is_empty() {
            repeat.ending = Some(repeat.over.clone());
            losses.push(Loss {
                measure: Some(index),
                what:
                    "its ending has a bracket that begins nowhere: it is taken for this bar alone"
                        .into(),
            });
        }
        open &= !repeat.ending_over;
    }
    leave_for_coda(&mut repeats);
    repeats
}

/// Of two signs of the coda the first is where one leaves, if nothing else says where.
fn leave_for_coda(repeats: &mut [Repeat]) {
    let jumps = repeats.iter().any(|r| r.da_capo || r.dal_segno);
    let codas = repeats.iter().filter(|r| r.coda).count();
    if !jumps || codas < 2 || repeats.iter().any(|r| r.to_coda) {
        return;
    }
    let Some(first) = repeats.iter().position(|r| r.coda) else {
        return;
    };
    repeats[first].coda = false;
    // A sign at the beginning of a bar stands where the bar before ends.
    let from = match first.checked_sub(1) {
        Some(before) if !repeats[first].coda_late => before,
        _ => first,
    };
    repeats[from].to_coda = true;
}
