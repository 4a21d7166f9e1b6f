//! Samples as other people's readers find them.

use std::fs::File;
use std::path::Path;
use symphonia::core::audio::SampleBuffer;
use symphonia::core::codecs::DecoderOptions;
use symphonia::core::formats::FormatOptions;
use symphonia::core::io::MediaSourceStream;
use symphonia::core::meta::MetadataOptions;
use symphonia::core::probe::Hint;

/// The samples of a WAV file in steps, those of a frame side by side.
pub fn wav(path: &Path) -> Vec<i32> {
    let reader = hound::WavReader::open(path).unwrap();
    reader.into_samples().map(Result::unwrap).collect()
}

/// Those of a FLAC file.
pub fn flac(path: &Path) -> Vec<i32> {
    let mut reader = claxon::FlacReader::open(path).unwrap();
    reader.samples().map(Result::unwrap).collect()
}

/// The samples of an MP3 file as a player without gaps plays them, full scale at ±1.
pub fn mp3(path: &Path) -> Vec<f32> {
    let stream = MediaSourceStream::new(Box::new(File::open(path).unwrap()), Default::default());
    let options = FormatOptions {
        enable_gapless: true,
        ..Default::default()
    };
    let probed = symphonia::default::get_probe()
        .format(&Hint::new(), stream, &options, &MetadataOptions::default())
        .unwrap();
    let mut format = probed.format;
    let parameters = format.default_track().unwrap().codec_params.clone();
    let mut decoder = symphonia::default::get_codecs()
        .make(&parameters, &DecoderOptions::default())
        .unwrap();
    let mut samples = vec![];
    while let Ok(packet) = format.next_packet() {
        let decoded = decoder.decode(&packet).unwrap();
        let mut buffer = SampleBuffer::<f32>::new(decoded.capacity() as u64, *decoded.spec());
        buffer.copy_interleaved_ref(decoded);
        samples.extend_from_slice(buffer.samples());
    }
    samples
}

/// Pearson's correlation.
pub fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let n = a.len().min(b.len());
    let (a, b) = (&a[..n], &b[..n]);
    let mean = |x: &[f64]| x.iter().sum::<f64>() / n as f64;
    let (of_a, of_b) = (mean(a), mean(b));
    let sum = |f: fn(f64, f64) -> f64| -> f64 {
        let pairs = a.iter().zip(b);
        pairs.map(|(a, b)| f(a - of_a, b - of_b)).sum()
    };
    sum(|a, b| a * b) / (sum(|a, _| a * a) * sum(|_, b| b * b)).sqrt()
}

/// Root of the mean square of every 441 samples: ten milliseconds of one channel.
pub fn envelope(samples: &[f64]) -> Vec<f64> {
    let rms = |x: &[f64]| (x.iter().map(|v| v * v).sum::<f64>() / x.len() as f64).sqrt();
    samples.chunks(441).map(rms).collect()
}
