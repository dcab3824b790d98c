//! Chance that is the same in every run.

/// A small generator of numbers (xorshift, Marsaglia 2003); it starts with any number but 0.
#[derive(Debug)]
pub struct Dice(pub u64);

impl Dice {
    /// The next number; it is less than `limit`.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % limit as u64) as usize
    }
}
