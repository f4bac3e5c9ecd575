//! Values read off a calculation that is written out, as a report prints it.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Unit as Door;

use crate::unit::Dimension;

/// What a calculation's own end is called.
const UTILISATION: &str = "utilisation";

/// Door units, and what they measure.
const DOORS: &[(Door, Dimension)] = &[
    (Door::ONE, Dimension::Ratio),
    (Door::MM, Dimension::Length),
    (Door::MM2, Dimension::Area),
    (Door::MM3, Dimension::Modulus),
    (Door::MM4, Dimension::SecondMoment),
    (Door::N, Dimension::Force),
    (Door::NM, Dimension::Moment),
    (Door::MPA, Dimension::Stress),
    (Door::N_PER_MM, Dimension::ForcePerLength),
    (Door::DEG, Dimension::Angle),
];

/// The value, SI, of the last line with a symbol; of its end where the symbol is `utilisation`.
///
/// # Errors
/// In words: there is no such line, or its unit measures something else than the printed value's.
pub(crate) fn line(page: &Calculation, symbol: &str, wanted: Dimension) -> Result<f64, String> {
    if symbol == UTILISATION {
        return if wanted == Dimension::Ratio { Ok(page.utilisation) } else { Err("it is a plain number".to_owned()) };
    }
    let line = page.lines.iter().rev().find(|line| line.symbol == symbol);
    let line = line.ok_or_else(|| {
        let known: Vec<&str> = page.lines.iter().map(|line| line.symbol.as_str()).filter(|s| !s.is_empty()).collect();
        format!("the calculation has no line `{symbol}`; it has {}", known.join(", "))
    })?;
    let (door, dimension) = DOORS
        .iter()
        .find(|(door, _)| door.name == line.unit)
        .ok_or_else(|| format!("the calculation gives `{symbol}` in `{}`, which is not known here", line.unit))?;
    if *dimension == wanted {
        Ok(line.value * door.size)
    } else {
        Err(format!("the calculation gives `{symbol}` in `{}`", line.unit))
    }
}

#[cfg(test)]
mod tests {
    use strutwork_checks::calculation::{Pages, Sink};

    use super::*;

    #[test]
    fn a_line_is_found_by_its_symbol_and_turned_into_si() {
        let mut pages = Pages::default();
        pages.given("N", 2500.0, Door::N, "");
        pages.given("M", 12.0, Door::NM, "");
        let page = pages.finish("t", "c", "s", 0.25);
        assert_eq!(line(&page, "N", Dimension::Force), Ok(2500.0));
        assert_eq!(line(&page, "utilisation", Dimension::Ratio), Ok(0.25));
        assert!(line(&page, "M", Dimension::Force).unwrap_err().contains("N·m"));
        assert!(line(&page, "utilisation", Dimension::Force).is_err());
        assert!(line(&page, "V", Dimension::Force).unwrap_err().contains("it has N, M"));
    }
}
