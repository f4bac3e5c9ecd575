//! What a tenth of a millimetre of wall does to the torsional stiffness, group by group.

use strutwork_study::sensitivity::{Rank, Worth};

use super::data;
use crate::figures::furniture::cut;
use crate::figures::svg::{Anchor, Svg};
use crate::figures::{Figure, WIDTH, ink};
use crate::number::significant;

/// Groups that are drawn.
const BARS: usize = 24;
const ROW: f64 = 18.0;
const TOP: f64 = 40.0;
const NAMES: f64 = 176.0;
const NUMBERS: f64 = 230.0;
const BAR: f64 = 11.0;
const LETTERS: usize = 30;
/// The step of the wall that bars stand for, mm.
const STEP: f64 = 0.1;

/// Bars to both sides, the longest first; `None` where no group has a wall.
pub fn draw(worth: &Worth) -> Option<Figure> {
    let mut ranks: Vec<&Rank> = worth.groups.iter().collect();
    ranks.sort_by(|a, b| b.stiffness_nm_per_deg_per_mm.abs().total_cmp(&a.stiffness_nm_per_deg_per_mm.abs()));
    let hidden = ranks.len().saturating_sub(BARS);
    ranks.truncate(BARS);
    let most = ranks.first()?.stiffness_nm_per_deg_per_mm.abs() * STEP;
    let height = TOP + ROW * ranks.len() as f64 + 10.0;
    let mut svg =
        Svg::new(WIDTH, height, "chart", "What a tenth of a millimetre of wall does to the torsional stiffness");
    let (middle, half) = ((NAMES + WIDTH - NUMBERS) / 2.0, (WIDTH - NUMBERS - NAMES) / 2.0 - 6.0);
    let reach = |change: f64| if most > 0.0 { half * change / most } else { 0.0 };
    for (place, rank) in ranks.iter().enumerate() {
        let change = rank.stiffness_nm_per_deg_per_mm * STEP;
        let y = TOP + ROW * place as f64 + 2.0;
        let told = [
            ("group", rank.name.clone()),
            data("per-mm", rank.stiffness_nm_per_deg_per_mm),
            data("grams-per-mm", rank.mass_g_per_mm),
        ];
        svg.open_data(&format!("stroke=\"{}\" stroke-width=\"1\"", ink::INK), &told);
        let length = reach(change).abs();
        // A thicker wall to the side that it moves the stiffness to, filled; a thinner one to the other, open.
        let (thick, thin) = if change >= 0.0 { (middle, middle - length) } else { (middle - length, middle) };
        svg.rectangle((thick, y), (length, BAR), &format!("fill=\"{}\"", ink::BLUE));
        svg.rectangle((thin, y), (length, BAR), &format!("fill=\"{}\"", ink::TINT));
        svg.close();
    }
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\"", ink::INK));
    svg.line((middle, TOP - 4.0), (middle, height - 6.0));
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    svg.text((NAMES - 6.0, 14.0), Anchor::End, "group");
    svg.text((middle - 8.0, 14.0), Anchor::End, "0.1 mm thinner");
    svg.text((middle + 8.0, 14.0), Anchor::Start, "0.1 mm thicker");
    svg.text((WIDTH - NUMBERS + 70.0, 14.0), Anchor::End, "± N·m/deg");
    svg.text((WIDTH - NUMBERS + 126.0, 14.0), Anchor::End, "± g");
    svg.text((WIDTH - 8.0, 14.0), Anchor::End, "g per N·m/deg");
    for (place, rank) in ranks.iter().enumerate() {
        let base = TOP + ROW * place as f64 + 11.0;
        svg.text((NAMES - 6.0, base), Anchor::End, &cut(&rank.name, LETTERS));
        let change = significant(rank.stiffness_nm_per_deg_per_mm * STEP, 3);
        svg.text((WIDTH - NUMBERS + 70.0, base), Anchor::End, &change);
        svg.text((WIDTH - NUMBERS + 126.0, base), Anchor::End, &significant(rank.mass_g_per_mm * STEP, 3));
        let price = rank.grams_per_nm_per_deg.map_or_else(|| "–".to_owned(), |grams| significant(grams, 3));
        svg.text((WIDTH - 8.0, base), Anchor::End, &price);
    }
    svg.close();
    let mut caption = format!(
        "What a tenth of a millimetre of wall on all tubes of a group does to the torsional stiffness of the model as it is, {} N·m/deg \
         (case {}): slopes from one solution (adjoint method), the outside of the tubes kept. Filled: a thicker wall; open: a thinner \
         one.",
        significant(worth.stiffness_nm_per_deg, 4),
        worth.case
    );
    if hidden > 0 {
        caption.push_str(&format!(" {hidden} groups with less effect are left out."));
    }
    Some(Figure { svg: svg.finish(), caption, wide: false })
}
