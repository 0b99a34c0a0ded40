//! Numbers drawn from a seed: the same seed gives the same problems on any machine.

/// A sequence of numbers that looks random and is fixed by its seed (64 bits, additive
/// counter with a mixing function; S. Vigna's public-domain description of splitmix64).
#[derive(Clone, Debug)]
pub(super) struct Dice(u64);

impl Dice {
    /// A sequence of its own for a seed and whatever it is for: topic, level, number.
    pub(super) fn new(seed: u64, purpose: &[u64]) -> Self {
        let mut dice = Self(seed);
        for part in purpose {
            dice.0 = dice.next() ^ part.wrapping_mul(0xd6e8_feb8_6659_fd93);
        }
        dice
    }

    /// The next number.
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// One of `0..count`; 0 where there is nothing to choose.
    pub(super) fn below(&mut self, count: usize) -> usize {
        // The remainder of a 64-bit number by a few dozen is even enough for choosing problems.
        let count = u64::try_from(count.max(1)).unwrap_or(1);
        usize::try_from(self.next() % count).unwrap_or(0)
    }

    /// One of several, of which there is at least one.
    pub(super) fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    /// An order of so many things, each order as likely as any other.
    pub(super) fn order(&mut self, count: usize) -> Vec<usize> {
        let mut order: Vec<usize> = (0..count).collect();
        for last in (1..count).rev() {
            let other = self.below(last + 1);
            order.swap(last, other);
        }
        order
    }

    /// A whole number from `least` to `most` in steps.
    pub(super) fn between(&mut self, least: u32, most: u32, step: u32) -> f64 {
        let count = most.saturating_sub(least) / step.max(1) + 1;
        let index = self.below(usize::try_from(count).unwrap_or(1));
        f64::from(least + step * u32::try_from(index).unwrap_or(0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_the_published_sequence_and_keeps_to_its_range() {
        // The first numbers from state 1234567 (published test vector, quoted from memory).
        let mut dice = Dice(1_234_567);
        assert_eq!(dice.next(), 6_457_827_717_110_365_317);
        assert_eq!(dice.next(), 3_203_168_211_198_807_973);
        let mut dice = Dice::new(7, &[1, 2]);
        let drawn: Vec<f64> = (0..200).map(|_| dice.between(10, 30, 5)).collect();
        for value in [10.0, 15.0, 20.0, 25.0, 30.0] {
            assert!(drawn.contains(&value));
        }
        assert!(drawn.iter().all(|value| value % 5.0 == 0.0));
    }
}
