//! Numbers in sentences: as their author would write them.

/// Up to nine significant digits: `1.5`, not `1.5000000000000002`; −0 is 0.
pub(crate) fn shown(value: f64) -> String {
    let rounded = format!("{value:.8e}").parse::<f64>().unwrap_or(value);
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

/// A length in mm: to a thousandth, more only where it is shorter than a hundredth.
pub(crate) fn length(mm: f64) -> String {
    if mm.abs() < 0.01 { shown(mm) } else { shown((mm * 1e3).round() / 1e3) }
}

/// The same with its sign: `+10`, `−7.5`.
pub(crate) fn signed(value: f64) -> String {
    if value < 0.0 { format!("−{}", shown(-value)) } else { format!("+{}", shown(value)) }
}
