//! Chance from a seed: the same seed, the same sheet.

/// `SplitMix64` (Steele, Lea and Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014): small, quick, and good enough to pick moves by.
#[derive(Debug, Clone)]
pub(super) struct Chance(u64);

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(super) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number below `n`, which is above zero.
    pub(super) fn below(&mut self, n: usize) -> usize {
        let wide = u128::from(self.next()) * n as u128;
        // The upper half of a product of 64 and 64 bits is below `n`, so it fits.
        usize::try_from(wide >> 64).unwrap_or(0)
    }

    /// From zero up to one, one not included.
    pub(super) fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}
