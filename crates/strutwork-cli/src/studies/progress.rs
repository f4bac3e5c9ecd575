//! The progress bar: on standard error, and only where that is a terminal.

use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressState, ProgressStyle};

/// How long a batch of variants should take: short enough for Ctrl-C and the bar, long enough to keep all cores busy.
const BATCH: Duration = Duration::from_millis(400);

/// The largest batch, variants.
const LARGEST: u64 = 16_384;

/// A bar, and the pace of batches.
pub(crate) struct Progress {
    bar: ProgressBar,
    /// When the running batch was started.
    started: Instant,
    smallest: u64,
}

impl Progress {
    /// For so many variants, of which so many are done; batches have at least `smallest`.
    pub(crate) fn new(variants: u64, done: u64, smallest: u64) -> Self {
        let bar = ProgressBar::with_draw_target(Some(variants), ProgressDrawTarget::stderr());
        let style = ProgressStyle::with_template("{wide_bar} {pos} of {len} variants, {rate}/s, {eta} left");
        if let Ok(style) = style {
            let rate = |state: &ProgressState, text: &mut dyn std::fmt::Write| {
                let rate = state.per_sec();
                let decimals = usize::from(rate < 10.0);
                // A bar that cannot be drawn is no reason to stop.
                let _ = write!(text, "{rate:.decimals$}");
            };
            bar.set_style(style.with_key("rate", rate).progress_chars("=> "));
        }
        bar.set_position(done);
        // What was done before is no part of the rate.
        bar.reset_eta();
        Self { bar, started: Instant::now(), smallest }
    }

    /// A batch of so many is done: how many the next one should have.
    pub(crate) fn batch(&mut self, done: u64) -> u64 {
        self.bar.inc(done);
        let took = self.started.elapsed().as_secs_f64().max(1e-6);
        self.started = Instant::now();
        let fitting = done as f64 * BATCH.as_secs_f64() / took;
        // No more than four times as many at once: the next ones may be slower.
        (fitting as u64).clamp(self.smallest, (4 * done).clamp(self.smallest, LARGEST))
    }

    /// Takes the bar away.
    pub(crate) fn clear(&self) {
        self.bar.finish_and_clear();
    }
}
