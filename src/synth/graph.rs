//! Playing a fundsp graph out into memory, in whole blocks from its first frame.

use fundsp::prelude64::{An, AudioNode, BufferArray, BufferRef, U0, U1};

use super::block::BLOCK;

/// The first `frames` of a generator, from a fresh start at `sample_rate`. Its bits depend on the size of
/// blocks, so blocks are always whole.
pub fn play<N>(mut graph: An<N>, sample_rate: f64, frames: usize) -> Vec<f32>
where
    N: AudioNode<Inputs = U0, Outputs = U1>,
{
    graph.set_sample_rate(sample_rate);
    graph.reset();
    let mut buffer = BufferArray::<U1>::new();
    let mut played = Vec::with_capacity(frames.next_multiple_of(BLOCK));
    while played.len() < frames {
        graph.process(BLOCK, &BufferRef::empty(), &mut buffer.buffer_mut());
        played.extend_from_slice(&buffer.channel_f32(0)[..BLOCK]);
    }
    played.truncate(frames);
    played
}

/// A generator that gives a function of its frame, for envelopes that must be exact to the frame.
#[derive(Clone)]
pub struct Curve<F> {
    frame: u64,
    seconds_per_frame: f64,
    function: F,
}

/// A generator of `function` of the time in seconds since the start.
pub fn curve<F: Fn(f64) -> f64 + Clone + Send + Sync>(function: F) -> An<Curve<F>> {
    An(Curve {
        frame: 0,
        seconds_per_frame: 0.0,
        function,
    })
}

impl<F: Fn(f64) -> f64 + Clone + Send + Sync> AudioNode for Curve<F> {
    const ID: u64 = 0x6c70_0001;
    type Inputs = U0;
    type Outputs = U1;

    fn reset(&mut self) {
        self.frame = 0;
    }

    fn set_sample_rate(&mut self, sample_rate: f64) {
        self.seconds_per_frame = 1.0 / sample_rate;
    }

    fn tick(&mut self, _: &fundsp::Frame<f32, U0>) -> fundsp::Frame<f32, U1> {
        let seconds = self.frame as f64 * self.seconds_per_frame;
        self.frame += 1;
        [(self.function)(seconds) as f32].into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_is_exact_to_the_frame() {
        let gate = curve(|t| if t < 48.0 / 48_000.0 { 1.0 } else { 0.0 });
        let played = play(gate, 48_000.0, 100);
        assert_eq!(played.iter().sum::<f32>(), 48.0);
        assert_eq!((played[47], played[48]), (1.0, 0.0));
    }
}
