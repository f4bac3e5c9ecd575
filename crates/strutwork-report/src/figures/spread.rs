//! How much of their limits the tubes use, case by case: a grid of counts.

use super::colour::{hex, ramp};
use super::svg::{Anchor, Svg};
use super::{Figure, WIDTH, furniture, ink};
use crate::run::Run;
use crate::utilisation::Utilisations;

/// Columns within the limit: tenths of it; one more column holds what is over.
const TENTHS: usize = 10;
const ROW: f64 = 17.0;
const HEAD: f64 = 40.0;
const FOOT: f64 = 12.0;
const NAMES: f64 = 190.0;
const RIGHT: f64 = 8.0;
/// A name longer than this is cut, letters.
const LETTERS: usize = 34;
/// The darkest shade of a cell, as a place of the ramp: a number must stay readable on it.
const DARKEST: f64 = 0.42;

/// Tubes counted by utilisation, a row a case; `None` where no tube was judged in any case.
pub fn draw(run: &Run<'_>, utilisations: &Utilisations<'_>) -> Option<Figure> {
    let rows: Vec<(&str, [usize; TENTHS + 1])> =
        run.cases.0.iter().map(|case| (case.name.as_str(), counts(run, utilisations, &case.name))).collect();
    let most = rows.iter().flat_map(|(_, counts)| counts).copied().max().unwrap_or(0);
    if most == 0 {
        return None;
    }
    let height = HEAD + ROW * rows.len() as f64 + FOOT;
    let cell = (WIDTH - NAMES - RIGHT) / (TENTHS + 1) as f64;
    let left = |column: usize| NAMES + cell * column as f64;
    let mut svg = Svg::new(WIDTH, height, "chart", "How many tubes use how much of their limit, case by case");
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\".6\"", ink::FAINT));
    for (place, (_, counts)) in rows.iter().enumerate() {
        for (column, count) in counts.iter().enumerate().filter(|(_, count)| **count > 0) {
            let share = (*count as f64 / most as f64).sqrt();
            let corner = (left(column), HEAD + ROW * place as f64);
            svg.rectangle(corner, (cell, ROW), &format!("fill=\"{}\"", hex(ramp(share * DARKEST))));
        }
    }
    svg.close();
    // The limit stands between the last two columns.
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.6\"", ink::RED));
    svg.line((left(TENTHS), HEAD - 20.0), (left(TENTHS), height - FOOT));
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    svg.text((NAMES - 6.0, 14.0), Anchor::End, "case");
    svg.text((NAMES, 14.0), Anchor::Start, "tubes whose utilisation is up to");
    for column in 0..=TENTHS {
        let head =
            if column == TENTHS { "over".to_owned() } else { format!("{:.1}", (column + 1) as f64 / TENTHS as f64) };
        svg.text((left(column) + cell / 2.0, HEAD - 6.0), Anchor::Middle, &head);
    }
    for (place, (name, counts)) in rows.iter().enumerate() {
        let base = HEAD + ROW * place as f64 + 12.5;
        svg.text((NAMES - 6.0, base), Anchor::End, &furniture::cut(name, LETTERS));
        for (column, count) in counts.iter().enumerate().filter(|(_, count)| **count > 0) {
            svg.text((left(column) + cell / 2.0, base), Anchor::Middle, &count.to_string());
        }
    }
    svg.close();
    let caption =
        "How many tubes use how much of their limit in each case, between their joints, by their governing check; \
                   what is outside the scope of a clause is counted with its number. Right of the line: over the limit."
            .to_owned();
    Some(Figure { svg: svg.finish(), caption, wide: false })
}

/// Tubes of a case by tenths of the limit, the last place for those over it.
fn counts(run: &Run<'_>, utilisations: &Utilisations<'_>, case: &str) -> [usize; TENTHS + 1] {
    let mut counts = [0; TENTHS + 1];
    for tube in run.model.tubes().ids() {
        if let Some(used) = utilisations.of_tube(tube, case).and_then(|finding| finding.utilisation) {
            let place = if used > 1.0 { TENTHS } else { ((used * TENTHS as f64).ceil() as usize).clamp(1, TENTHS) - 1 };
            counts[place] += 1;
        }
    }
    counts
}
