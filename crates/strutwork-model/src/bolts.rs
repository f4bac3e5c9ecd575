//! Sizes and property classes of bolts that can be checked.

/// A size of bolt: its thread and its head.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltSize {
    /// As reports print it: `M10`, `M10 × 1.25`, `7/16 UNF`.
    pub name: &'static str,
    /// Other ways to write it, without blanks and in lower case.
    written: &'static [&'static str],
    /// d, mm.
    pub diameter_mm: f64,
    /// P, mm.
    pub pitch_mm: f64,
    /// A_s, mm².
    pub stress_area_mm2: f64,
    /// s, across the flats of head and nut, mm.
    pub flats_mm: f64,
    /// e, across the points of the head, the least allowed, mm.
    pub points_mm: f64,
    /// Whether its thread is made to inch standards.
    pub inch: bool,
}

/// A property class of bolts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltClass {
    /// `8.8`.
    pub name: &'static str,
    /// f_yb, MPa.
    pub yield_mpa: f64,
    /// f_ub, MPa.
    pub ultimate_mpa: f64,
    /// α_v where the thread is in the shear plane.
    pub thread_in_shear: f64,
    /// Whether EN 1993-1-8 Table 3.1 has it.
    pub in_code: bool,
}

/// Where the sizes come from, as a page prints it.
pub const SIZES_SOURCE: &str = "A_s: ISO 898-1, tables for coarse (read as quoted) and fine pitch (from memory); ASME B1.1 for \
                                inch threads (formula from memory, values read as quoted); heads: ISO 4014, ASME B18.2.1 (read as quoted)";

/// Where the classes come from, as a page prints it.
pub const CLASSES_SOURCE: &str = "EN 1993-1-8 Table 3.1 (read as quoted); 12.9: ISO 898-1 (from memory)";

const fn metric(
    name: &'static str,
    written: &'static [&'static str],
    [diameter_mm, pitch_mm, stress_area_mm2, flats_mm, points_mm]: [f64; 5],
) -> BoltSize {
    BoltSize { name, written, diameter_mm, pitch_mm, stress_area_mm2, flats_mm, points_mm, inch: false }
}

const fn inch(
    name: &'static str,
    written: &'static [&'static str],
    [diameter_mm, pitch_mm, stress_area_mm2, flats_mm, points_mm]: [f64; 5],
) -> BoltSize {
    BoltSize { name, written, diameter_mm, pitch_mm, stress_area_mm2, flats_mm, points_mm, inch: true }
}

/// Every size that is known.
///
/// # Units and shapes
/// d, P, A_s, s, e in mm and mm².
///
/// # Source
/// [`SIZES_SOURCE`].
pub const SIZES: &[BoltSize] = &[
    metric("M6", &["m6", "m6x1"], [6.0, 1.0, 20.1, 10.0, 11.05]),
    metric("M8", &["m8", "m8x1.25"], [8.0, 1.25, 36.6, 13.0, 14.38]),
    metric("M8 × 1", &["m8x1"], [8.0, 1.0, 39.2, 13.0, 14.38]),
    metric("M10", &["m10", "m10x1.5"], [10.0, 1.5, 58.0, 16.0, 17.77]),
    metric("M10 × 1.25", &["m10x1.25"], [10.0, 1.25, 61.2, 16.0, 17.77]),
    metric("M10 × 1", &["m10x1"], [10.0, 1.0, 64.5, 16.0, 17.77]),
    metric("M12", &["m12", "m12x1.75"], [12.0, 1.75, 84.3, 18.0, 20.03]),
    metric("M12 × 1.5", &["m12x1.5"], [12.0, 1.5, 88.1, 18.0, 20.03]),
    metric("M12 × 1.25", &["m12x1.25"], [12.0, 1.25, 92.1, 18.0, 20.03]),
    metric("M14", &["m14", "m14x2"], [14.0, 2.0, 115.0, 21.0, 23.36]),
    metric("M14 × 1.5", &["m14x1.5"], [14.0, 1.5, 125.0, 21.0, 23.36]),
    metric("M16", &["m16", "m16x2"], [16.0, 2.0, 157.0, 24.0, 26.75]),
    metric("M16 × 1.5", &["m16x1.5"], [16.0, 1.5, 167.0, 24.0, 26.75]),
    metric("M18", &["m18", "m18x2.5"], [18.0, 2.5, 192.0, 27.0, 30.14]),
    metric("M20", &["m20", "m20x2.5"], [20.0, 2.5, 245.0, 30.0, 33.53]),
    metric("M22", &["m22", "m22x2.5"], [22.0, 2.5, 303.0, 34.0, 37.72]),
    metric("M24", &["m24", "m24x3"], [24.0, 3.0, 353.0, 36.0, 39.98]),
    inch("3/8 UNF", &["3/8unf", "3/8-24unf"], [9.525, 25.4 / 24.0, 56.7, 14.288, 15.95]),
    inch("7/16 UNF", &["7/16unf", "7/16-20unf"], [11.113, 1.27, 76.6, 15.875, 17.73]),
    inch("1/2 UNF", &["1/2unf", "1/2-20unf"], [12.7, 1.27, 103.0, 19.05, 21.34]),
];

const fn class(
    name: &'static str,
    yield_mpa: f64,
    ultimate_mpa: f64,
    thread_in_shear: f64,
    in_code: bool,
) -> BoltClass {
    BoltClass { name, yield_mpa, ultimate_mpa, thread_in_shear, in_code }
}

/// Every property class that is known.
///
/// # Source
/// [`CLASSES_SOURCE`]; α_v: EN 1993-1-8 Table 3.4 (read as quoted in design guides); that of 12.9 is taken as of 10.9.
pub const CLASSES: &[BoltClass] = &[
    class("4.6", 240.0, 400.0, 0.6, true),
    class("4.8", 320.0, 400.0, 0.5, true),
    class("5.6", 300.0, 500.0, 0.6, true),
    class("5.8", 400.0, 500.0, 0.5, true),
    class("6.8", 480.0, 600.0, 0.5, true),
    class("8.8", 640.0, 800.0, 0.6, true),
    class("10.9", 900.0, 1000.0, 0.5, true),
    class("12.9", 1080.0, 1200.0, 0.5, false),
];

/// The size that a text means: blanks, case, and `x` or `×` before the pitch do not count.
///
/// # Example
/// ```
/// use strutwork_model::bolts::size;
/// assert_eq!(size("M10 x 1,5"), None);
/// assert_eq!(size("m10 X 1.5").unwrap().name, "M10");
/// assert_eq!(size("7/16-20 UNF").unwrap().name, "7/16 UNF");
/// ```
pub fn size(text: &str) -> Option<&'static BoltSize> {
    let plain: String = text.chars().filter(|sign| !sign.is_whitespace()).flat_map(char::to_lowercase).collect();
    let plain = plain.replace('×', "x");
    SIZES.iter().find(|size| size.written.contains(&plain.as_str()))
}

/// The property class with this name; blanks do not count.
pub fn class_named(text: &str) -> Option<&'static BoltClass> {
    CLASSES.iter().find(|class| class.name == text.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A_s = π/4 (d − 0.9382 P)², ISO 898-1; inch threads π/4 (d − 0.9743 P)², ASME B1.1: the tables are these, rounded to
    /// three digits.
    #[test]
    fn stress_areas_are_those_of_their_threads() {
        for size in SIZES {
            let share = if size.inch { 0.9743 } else { 0.9382 };
            let area = std::f64::consts::FRAC_PI_4 * (size.diameter_mm - share * size.pitch_mm).powi(2);
            let rounding = if area < 100.0 { 0.05 } else { 0.5 };
            assert!((area - size.stress_area_mm2).abs() <= rounding, "{}: {area}", size.name);
        }
    }

    #[test]
    fn heads_are_hexagons() {
        for size in SIZES {
            let share = size.points_mm / size.flats_mm;
            // A sharp hexagon has 2/√3; heads are chamfered and made to a tolerance.
            assert!((1.09..=1.155).contains(&share), "{}: {share}", size.name);
        }
    }

    #[test]
    fn every_name_finds_its_own_size_and_no_text_means_two() {
        let mut seen: Vec<&str> = Vec::new();
        for expected in SIZES {
            assert_eq!(size(expected.name), Some(expected));
            for text in expected.written {
                assert!(!seen.contains(text), "{text}");
                seen.push(text);
            }
        }
        assert_eq!(size("M11"), None);
        assert_eq!(size(""), None);
    }

    /// The first figure is f_ub/100, the second the ratio of yield to it.
    #[test]
    fn classes_say_their_strength() {
        for class in CLASSES {
            let (first, second) = class.name.split_once('.').expect("two figures");
            let (first, second): (f64, f64) = (first.parse().unwrap(), second.parse().unwrap());
            assert_eq!(class.ultimate_mpa, first * 100.0);
            assert!((class.yield_mpa - first * 10.0 * second).abs() < 1e-9, "{}", class.name);
        }
        assert_eq!(class_named(" 8.8 ").expect("known").yield_mpa, 640.0);
        assert_eq!(class_named("8,8"), None);
    }
}
