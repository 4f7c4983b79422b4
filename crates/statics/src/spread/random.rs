//! Random numbers that depend on a seed and a block's number alone, so that blocks may be drawn in
//! any order, on any number of threads. Source: `steele-lea-flood-2014` (the mixer; `from memory`).

/// The odd number nearest to 2^64 over the golden ratio.
const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;
/// 2^-53: the spacing of the numbers below 1 that are drawn.
const STEP: f64 = 1.0 / 9_007_199_254_740_992.0;

/// A stream of random numbers.
pub(super) struct Random {
    state: u64,
    /// The second of a pair of normal values.
    kept: Option<f64>,
}

impl Random {
    /// The stream of one block.
    pub(super) fn of_block(seed: u64, block: u64) -> Random {
        Random { state: mix(seed ^ mix(block.wrapping_mul(GOLDEN))), kept: None }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(GOLDEN);
        mix(self.state)
    }

    /// Evenly between -1 and 1.
    fn even(&mut self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "53 bits fit a double exactly")]
        let parts = (self.next() >> 11) as f64;
        2.0 * STEP * parts - 1.0
    }

    /// A standard normal value, by the polar way: a point evenly within the unit circle gives two.
    /// Source: `marsaglia-bray-1964` (`from memory`; tested against moments and tails).
    pub(super) fn normal(&mut self) -> f64 {
        if let Some(kept) = self.kept.take() {
            return kept;
        }
        loop {
            let (x, y) = (self.even(), self.even());
            let square = x * x + y * y;
            if square < 1.0 && square > 0.0 {
                let stretch = (-2.0 * square.ln() / square).sqrt();
                self.kept = Some(y * stretch);
                return x * stretch;
            }
        }
    }
}

fn mix(value: u64) -> u64 {
    let value = (value ^ (value >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let value = (value ^ (value >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    value ^ (value >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mixer_gives_the_numbers_that_are_known_of_it() {
        // The first numbers from the state 1234567, `from memory`: two memories that agree.
        let mut random = Random { state: 1_234_567, kept: None };
        let got = [random.next(), random.next(), random.next()];
        assert_eq!(got, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423], "numbers");
    }

    #[test]
    fn normal_values_have_the_moments_and_tails_of_the_normal_distribution() {
        let mut random = Random::of_block(5, 7);
        let count = 400_000_u32;
        let values: Vec<f64> = (0..count).map(|_| random.normal()).collect();
        let mean_of = |power: i32| values.iter().map(|value| value.powi(power)).sum::<f64>() / f64::from(count);
        // Four standard errors of each: sqrt((E x^2p - (E x^p)^2)/n).
        for (power, want, deviation) in
            [(1, 0.0, 1.0), (2, 1.0, 2.0_f64.sqrt()), (3, 0.0, 15.0_f64.sqrt()), (4, 3.0, 96.0_f64.sqrt())]
        {
            let (got, allowed) = (mean_of(power), 4.0 * deviation / f64::from(count).sqrt());
            assert!((got - want).abs() < allowed, "moment {power}: got {got}, want {want}, allowed {allowed}");
        }
        for bound in [-2.0, -1.0, 0.5, 1.5, 2.5] {
            let share = values.iter().filter(|value| **value < bound).count() as f64 / f64::from(count);
            let want = super::super::normal::below(bound);
            let allowed = 4.0 * (want * (1.0 - want) / f64::from(count)).sqrt();
            assert!((share - want).abs() < allowed, "below {bound}: got {share}, want {want}, allowed {allowed}");
        }
    }
}
