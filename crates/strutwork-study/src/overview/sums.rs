//! A mean with its scatter, value by value.

/// How many values, their mean and their scatter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sums {
    /// How many.
    pub count: u64,
    /// Their mean; 0 for none.
    pub mean: f64,
    /// Sum of squared distances from the mean.
    squares: f64,
}

impl Sums {
    pub(super) fn add(&mut self, value: f64) {
        // Welford (1962), Technometrics 4, 419: mean and squares without the difference of large sums (from memory).
        self.count += 1;
        let off = value - self.mean;
        self.mean += off / self.count as f64;
        self.squares += off * (value - self.mean);
    }

    /// The mean; `None` for no value.
    pub fn known(&self) -> Option<f64> {
        (self.count > 0).then_some(self.mean)
    }

    /// Standard deviation; `None` for fewer than two values.
    pub fn deviation(&self) -> Option<f64> {
        (self.count > 1).then(|| (self.squares / (self.count - 1) as f64).sqrt())
    }

    /// Standard error of the mean; `None` for fewer than two values.
    pub fn error(&self) -> Option<f64> {
        Some(self.deviation()? / (self.count as f64).sqrt())
    }
}
