//! The 64-bit FNV-1a hash.

/// A hash in the making, and how many of the values that went in were not zero: equal hashes of silence
/// would prove nothing.
#[derive(Clone)]
pub struct Fnv {
    hash: u64,
    sounding: u64,
}

impl Fnv {
    pub fn new() -> Self {
        Self {
            hash: 0xcbf2_9ce4_8422_2325,
            sounding: 0,
        }
    }

    pub fn bytes(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.hash = (self.hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }

    pub fn value<const N: usize>(&mut self, bytes: [u8; N], zero: bool) {
        self.sounding += u64::from(!zero);
        self.bytes(&bytes);
    }

    pub fn finish(&self) -> String {
        format!("{:016x}", self.hash)
    }

    pub fn sounding(&self) -> u64 {
        self.sounding
    }
}
