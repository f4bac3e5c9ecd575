//! The date and the time taken. With `SOURCE_DATE_EPOCH` set, the date is that and no time is taken, so that the same
//! input gives the same bytes.

use std::time::Instant;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::exit::Failure;

/// A stopwatch with named laps, and today's date.
#[derive(Debug)]
pub(crate) struct Clock {
    date: String,
    lap: Option<Instant>,
    laps: Vec<(String, f64)>,
}

impl Clock {
    /// Starts it.
    ///
    /// # Errors
    /// [`Failure::Request`] when `SOURCE_DATE_EPOCH` is not a number of seconds since 1970 that a date can be made of.
    pub(crate) fn start() -> Result<Self, Failure> {
        let Some(value) = std::env::var_os("SOURCE_DATE_EPOCH").filter(|value| !value.is_empty()) else {
            return Ok(Self { date: iso_date(Timestamp::now()), lap: Some(Instant::now()), laps: Vec::new() });
        };
        let fixed = value.to_str().and_then(|text| text.parse().ok()).and_then(|s| Timestamp::from_second(s).ok());
        match fixed {
            Some(fixed) => Ok(Self { date: iso_date(fixed), lap: None, laps: Vec::new() }),
            None => Err(Failure::Request {
                what: format!("SOURCE_DATE_EPOCH is {value:?}, which is no number of seconds since 1970-01-01"),
                help: "give it whole seconds, or unset it".into(),
            }),
        }
    }

    /// Today, or the fixed date, in UTC: `2026-11-25`.
    pub(crate) fn date(&self) -> &str {
        &self.date
    }

    /// Ends a lap and names it.
    pub(crate) fn lap(&mut self, name: &str) {
        if let Some(start) = self.lap {
            let now = Instant::now();
            self.laps.push((name.to_owned(), (now - start).as_secs_f64() * 1e3));
            self.lap = Some(now);
        }
    }

    /// The laps, ms; empty where the date is fixed.
    pub(crate) fn laps(&self) -> &[(String, f64)] {
        &self.laps
    }
}

fn iso_date(moment: Timestamp) -> String {
    moment.to_zoned(TimeZone::UTC).date().to_string()
}
