//! RandomStream that can be had again: the same seed and number give the same draws.

use chacha20::ChaCha8Rng;
use chacha20::rand_core::{Rng, SeedableRng};
use geometry::Portable;

/// The draws of one making.
///
/// ChaCha8 is a counter-based generator: the seed is its key and the making's number
/// its stream, so a making's draws depend on nothing else, neither on the makings
/// before it nor on the thread that works it through.
#[derive(Debug)]
pub struct RandomStream {
    numbers: ChaCha8Rng,
    /// The second of a pair.
    kept: Option<f64>,
}

impl RandomStream {
    /// The draws of a making.
    pub fn new(seed: u64, making: u64) -> Self {
        let mut key = [0; 32];
        key[..8].copy_from_slice(&seed.to_le_bytes());
        let mut numbers = ChaCha8Rng::from_seed(key);
        numbers.set_stream(making);
        Self {
            numbers,
            kept: None,
        }
    }

    /// A normal deviate: mean 0, standard deviation 1, at most 8.6 either way.
    ///
    /// Box and Muller (1958): two even numbers give a pair, so that every draw takes
    /// the same count of the generator's numbers.
    pub fn normal(&mut self) -> f64 {
        if let Some(second) = self.kept.take() {
            return second;
        }
        let r = (-2.0 * self.even().natural_log()).sqrt();
        let (s, c) = (std::f64::consts::TAU * self.even()).sine_cosine();
        self.kept = Some(r * s);
        r * c
    }

    /// Evenly spread over (0, 1], in steps of 2⁻⁵³.
    fn even(&mut self) -> f64 {
        ((self.numbers.next_u64() >> 11) + 1) as f64 * (f64::EPSILON / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_making_has_its_own_draws_and_has_them_again() {
        let draw = |seed, making| {
            let mut chance = RandomStream::new(seed, making);
            [chance.normal(), chance.normal(), chance.normal()]
        };
        assert_eq!(draw(1, 7), draw(1, 7));
        assert_ne!(draw(1, 7), draw(1, 8));
        assert_ne!(draw(1, 7), draw(2, 7));
    }

    #[test]
    fn draws_are_normal() {
        // Moments of the normal distribution: 0, 1, 0, 3; each within five standard
        // errors, which are sqrt(1, 2, 15, 96 / count) for them.
        let count = 200_000;
        let mut chance = RandomStream::new(11, 0);
        let draws: Vec<f64> = (0..count).map(|_| chance.normal()).collect();
        let moment = |k: u32| draws.iter().map(|x| x.to_the(k)).sum::<f64>() / f64::from(count);
        for (k, want, var) in [(1, 0.0, 1.0), (2, 1.0, 2.0), (3, 0.0, 15.0), (4, 3.0, 96.0)] {
            let error: f64 = f64::sqrt(var / f64::from(count));
            assert!((moment(k) - want).abs() < 5.0 * error, "moment {k}");
        }
        // 19 in 20 within 1.96.
        let out = draws
            .iter()
            .filter(|x| x.abs() > 1.959_963_984_540_054)
            .count();
        assert!((out as f64 / f64::from(count) - 0.05).abs() < 0.0025);
    }
}
