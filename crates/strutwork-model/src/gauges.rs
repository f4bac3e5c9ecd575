//! Wall thicknesses by gauge number.

/// Standard wire gauge: number and thickness in mm.
///
/// # Source
/// BS 3737:1964 (withdrawn), after an engineering table "SWG – Standard Wire Gauge"; read.
pub const SWG: &[(u8, f64)] = &[
    (8, 4.064),
    (9, 3.658),
    (10, 3.251),
    (11, 2.946),
    (12, 2.642),
    (13, 2.337),
    (14, 2.032),
    (15, 1.829),
    (16, 1.626),
    (17, 1.422),
    (18, 1.219),
    (19, 1.016),
    (20, 0.914),
    (21, 0.813),
    (22, 0.711),
];

/// A wall written as text, `16 swg` or `1.5 mm`, in mm; `None` where it is neither.
///
/// # Example
/// ```
/// assert_eq!(strutwork_model::gauges::wall_mm("16 swg"), Some(1.626));
/// assert_eq!(strutwork_model::gauges::wall_mm("16"), None);
/// ```
pub fn wall_mm(text: &str) -> Option<f64> {
    let text = text.trim().to_lowercase();
    if let Some(number) = text.strip_suffix("swg") {
        let number: u8 = number.trim().parse().ok()?;
        return SWG.iter().find(|(gauge, _)| *gauge == number).map(|&(_, size)| size);
    }
    let size: f64 = text.strip_suffix("mm")?.trim().parse().ok()?;
    size.is_finite().then_some(size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_gauges_and_millimetres() {
        assert_eq!(wall_mm("20 SWG"), Some(0.914));
        assert_eq!(wall_mm("1.5mm"), Some(1.5));
        assert_eq!(wall_mm("7 swg"), None);
        assert_eq!(wall_mm("1.5"), None);
        assert_eq!(wall_mm("inf mm"), None);
    }
}
