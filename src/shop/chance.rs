//! Chance from a seed, and the spreads that are drawn from it.

/// `SplitMix64` (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA
/// 2014).
#[derive(Debug, Clone)]
pub(super) struct Chance(u64);

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// From zero up to one, one not included.
    pub(super) fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// How many of what happens `mean` times on average (Poisson, by multiplying chances).
    pub(super) fn count(&mut self, mean: f64) -> u32 {
        let limit = (-mean.clamp(0.0, 50.0)).exp();
        let (mut count, mut product) = (0, self.unit());
        while product > limit && count < 200 {
            count += 1;
            product *= self.unit();
        }
        count
    }
}

/// The value below which a triangular spread has the share `u`.
pub(super) fn triangular((low, likely, high): (f64, f64, f64), u: f64) -> f64 {
    let width = high - low;
    if width <= 0.0 {
        return likely;
    }
    let turn = (likely - low) / width;
    if u < turn {
        low + (u * width * (likely - low)).sqrt()
    } else {
        high - ((1.0 - u) * width * (high - likely)).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_keep_to_their_spreads() {
        let mut chance = Chance::new(7);
        let drawn: Vec<f64> = (0..20_000)
            .map(|_| {
                let u = chance.unit();
                triangular((10.0, 20.0, 60.0), u)
            })
            .collect();
        assert!(drawn.iter().all(|value| (10.0..=60.0).contains(value)));
        // The mean of a triangle is the mean of its corners: 30.
        let mean = drawn.iter().sum::<f64>() / 20_000.0;
        assert!((mean - 30.0).abs() < 0.5, "{mean}");
        let counts: u32 = (0..20_000).map(|_| chance.count(2.5)).sum();
        let mean = f64::from(counts) / 20_000.0;
        assert!((mean - 2.5).abs() < 0.06, "{mean}");
        assert!((triangular((3.0, 3.0, 3.0), 0.4) - 3.0).abs() < 1e-12);
    }
}
