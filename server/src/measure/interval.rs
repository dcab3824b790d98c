use std::ops::{Add, Div, Mul, Sub};

/// From `least` up to `most`, both included. `most` is `None` where the upper end is open: "plus more", "at least 2".
///
/// The same type holds plain numbers (`Interval`) and quantities with a dimension (`Interval<Volume>`).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval<Q = f64> {
    /// The lower end.
    pub least: Q,
    /// The upper end, if there is one.
    pub most: Option<Q>,
}

impl<Q: Copy + PartialOrd> Interval<Q> {
    /// One value.
    pub fn exactly(value: Q) -> Self {
        Interval { least: value, most: Some(value) }
    }

    /// Both ends, in whichever order they are given.
    pub fn between(one: Q, other: Q) -> Self {
        if other < one {
            Interval { least: other, most: Some(one) }
        } else {
            Interval { least: one, most: Some(other) }
        }
    }

    /// Open above.
    pub fn at_least(least: Q) -> Self {
        Interval { least, most: None }
    }

    /// Whether it holds a single value.
    pub fn is_exact(&self) -> bool {
        self.most.is_some_and(|most| most <= self.least)
    }

    /// Whether the upper end is open.
    pub fn is_open(&self) -> bool {
        self.most.is_none()
    }

    /// Whether `value` lies inside.
    pub fn contains(&self, value: Q) -> bool {
        self.least <= value && self.most.is_none_or(|most| value <= most)
    }

    /// Whether some value lies in both.
    pub fn overlaps(&self, other: &Self) -> bool {
        other.most.is_none_or(|most| self.least <= most) && self.most.is_none_or(|most| other.least <= most)
    }

    /// Puts both ends through `change`, which must keep their order.
    pub fn map<R: Copy + PartialOrd>(&self, change: impl Fn(Q) -> R) -> Interval<R> {
        Interval { least: change(self.least), most: self.most.map(change) }
    }
}

impl<Q: Copy + PartialOrd + Add<Output = Q>> Interval<Q> {
    /// Both together.
    pub fn plus(&self, other: &Self) -> Self {
        Interval {
            least: self.least + other.least,
            most: self.most.zip(other.most).map(|(mine, theirs)| mine + theirs),
        }
    }
}

impl<Q: Copy + PartialOrd + Default + Sub<Output = Q>> Interval<Q> {
    /// What is left when `other` is taken away. No amount is less than nothing, so both ends stop at zero.
    pub fn minus(&self, other: &Self) -> Self {
        let nothing = Q::default();
        let left = |from: Q, taken: Q| if taken < from { from - taken } else { nothing };
        Interval {
            least: other.most.map_or(nothing, |taken| left(self.least, taken)),
            most: self.most.map(|from| left(from, other.least)),
        }
    }
}

impl<Q: Copy + PartialOrd + Mul<f64, Output = Q>> Interval<Q> {
    /// `by` times as much; `by` is not negative.
    pub fn times(&self, by: f64) -> Self {
        self.map(|end| end * by)
    }

    /// As much as a share or a count that is itself an interval, neither of them negative.
    pub fn scaled(&self, by: &Interval) -> Self {
        Interval { least: self.least * by.least, most: self.most.zip(by.most).map(|(most, by)| most * by) }
    }
}

impl<Q: Copy + PartialOrd + Add<Output = Q> + Div<f64, Output = Q>> Interval<Q> {
    /// Half way between the ends; the lower end where the upper is open.
    pub fn middle(&self) -> Q {
        self.most.map_or(self.least, |most| self.least / 2.0 + most / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_never_falls_below_nothing() {
        let listed = Interval::between(2.0, 3.0);
        assert_eq!(listed.minus(&Interval::exactly(1.0)), Interval::between(1.0, 2.0));
        assert_eq!(listed.minus(&Interval::exactly(2.5)), Interval::between(0.0, 0.5));
        assert_eq!(listed.minus(&Interval::at_least(1.0)), Interval::between(0.0, 2.0));
        assert_eq!(Interval::at_least(2.0).minus(&Interval::exactly(1.0)), Interval::at_least(1.0));
    }

    #[test]
    fn an_open_end_stays_open() {
        let open = Interval::at_least(1.0);
        assert!(open.plus(&Interval::exactly(2.0)).is_open());
        assert!(open.times(3.0).is_open());
        assert!(open.contains(1e9) && !open.contains(0.5));
        assert!(open.overlaps(&Interval::at_least(7.0)));
        assert!(!open.overlaps(&Interval::between(0.1, 0.9)));
        assert_eq!(open.middle(), 1.0);
    }
}
