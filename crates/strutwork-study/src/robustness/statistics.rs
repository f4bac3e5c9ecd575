//! Percentiles of a sample, each with the error that comes of the sample's size.

/// A percentile and how far the number of samples lets it be known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Percentile {
    /// 0 to 100.
    pub percent: f64,
    /// The sample's own.
    pub value: f64,
    /// Between these the whole population's lies, 95 times in 100; `None` where there are too few samples to say.
    pub between: Option<[f64; 2]>,
}

/// The band of one answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// What.
    pub name: &'static str,
    /// The door unit; empty for a ratio.
    pub unit: &'static str,
    /// Of the frame without any deviation.
    pub nominal: f64,
    /// How many frames it rests on.
    pub count: usize,
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub deviation: f64,
    /// Standard error of the mean.
    pub mean_error: f64,
    /// Least and greatest of the sample: no bounds of what can be.
    pub extremes: [f64; 2],
    /// 5, 50 and 95 per cent.
    pub percentiles: [Percentile; 3],
}

/// 1.96 standard deviations of a normal distribution leave 5 in 100 outside.
const NINETY_FIVE: f64 = 1.959_963_984_540_054;

impl Band {
    /// Of values in any order; all NaN where there are fewer than two.
    pub(super) fn of(name: &'static str, unit: &'static str, nominal: f64, mut values: Vec<f64>) -> Self {
        values.sort_by(f64::total_cmp);
        let count = values.len();
        let n = count as f64;
        let mean = values.iter().sum::<f64>() / n;
        let square: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
        let deviation = (square / (n - 1.0)).sqrt();
        let nan = f64::NAN;
        let [least, most] = [values.first(), values.last()].map(|value| value.copied().unwrap_or(nan));
        Self {
            name,
            unit,
            nominal,
            count,
            mean,
            deviation,
            mean_error: deviation / n.sqrt(),
            extremes: [least, most],
            percentiles: [5.0, 50.0, 95.0]
                .map(|percent| percentile(count as u64, |rank| values[rank as usize - 1], percent)),
        }
    }
}

/// Of `count` values, of which `at` gives the one at a rank from 1: the value at rank ⌈n p⌉; the ranks at n p ± 1.96 √(n p (1 − p)) hold the population's percentile between them.
///
/// # Source
/// Order statistics without any assumption on the distribution; the binomial taken as normal: Conover (1999), Practical
/// Nonparametric Statistics, 3rd ed., section 3.2 (from memory).
pub(crate) fn percentile(count: u64, at: impl Fn(u64) -> f64, percent: f64) -> Percentile {
    let n = count as f64;
    let share = percent / 100.0;
    let rank = |rank: f64| (rank >= 1.0 && rank <= n).then(|| at(rank as u64));
    let reach = NINETY_FIVE * (n * share * (1.0 - share)).sqrt();
    let low = rank((n * share - reach).floor());
    let high = rank((n * share + reach).ceil() + 1.0);
    Percentile {
        percent,
        value: rank((n * share).ceil().max(1.0)).unwrap_or(f64::NAN),
        between: low.zip(high).map(|(low, high)| [low, high]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_numbers() {
        let band = Band::of("x", "mm", 50.0, (1..=100).rev().map(f64::from).collect());
        assert_eq!((band.mean, band.count, band.extremes), (50.5, 100, [1.0, 100.0]));
        assert!((band.deviation - 29.011_491_975_882_016).abs() < 1e-12);
        let [five, fifty, ninety_five] = band.percentiles;
        assert_eq!((five.value, fifty.value, ninety_five.value), (5.0, 50.0, 95.0));
        // n p ± 1.96 √25 = 50 ± 9.8: ranks 40 and 61.
        assert_eq!(fifty.between, Some([40.0, 61.0]));
        // 5 ± 4.27: ranks 0 and 11. There is no rank 0.
        assert_eq!(five.between, None);
    }

    /// Percentiles of many small samples lie within what each says of itself about 95 times in 100.
    #[test]
    fn the_error_of_a_percentile_is_what_it_says() {
        let mut inside = 0;
        for sample in 0..1000 {
            let mut random = crate::random::Random::of_sample(5, sample);
            let band = Band::of("x", "", 0.5, (0..200).map(|_| random.share()).collect());
            let [low, high] = band.percentiles[2].between.expect("enough");
            inside += usize::from((low..=high).contains(&0.95));
        }
        assert!((930..=985).contains(&inside), "{inside}");
    }
}
