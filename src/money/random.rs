//! A small generator for sums by simulation: the same numbers for the same seed on every machine.

/// `SplitMix64` (Steele, Lea and Flood 2014; constants from memory, checked against its published
/// first outputs in the tests).
pub(super) struct Random(u64);

impl Random {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(super) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Above 0 and at most 1.
    fn unit(&mut self) -> f64 {
        // 53 bits are exact in an f64.
        ((self.next() >> 11) + 1) as f64 / (1_u64 << 53) as f64
    }

    /// A standard normal number (Box and Muller 1958).
    pub(super) fn normal(&mut self) -> f64 {
        let (a, b) = (self.unit(), self.unit());
        (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::Random;

    /// First outputs for the seed 1234567, as published with implementations of `SplitMix64` (from
    /// memory).
    #[test]
    fn the_first_numbers_are_the_published_ones() {
        let mut random = Random::new(1_234_567);
        let first: Vec<u64> = (0..5).map(|_| random.next()).collect();
        let published = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(first, published);
    }

    #[test]
    fn normal_numbers_have_mean_nought_and_spread_one() {
        let mut random = Random::new(7);
        let drawn: Vec<f64> = (0..20_000).map(|_| random.normal()).collect();
        let mean = drawn.iter().sum::<f64>() / 20_000.0;
        let square = drawn.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 20_000.0;
        assert!(
            mean.abs() < 0.03 && (square - 1.0).abs() < 0.04,
            "{mean} {square}"
        );
    }
}
