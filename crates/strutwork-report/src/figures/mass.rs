//! What the frame and its load weigh, as bars: groups of tubes, panels, what is carried.

use strutwork_loads::MassModel;
use strutwork_loads::masses::{MassItem, MassKind};

use super::svg::{Anchor, Svg};
use super::{Figure, WIDTH, ink};
use crate::number::significant;

/// Bars that are drawn; the lightest beyond that are added up in one.
const BARS: usize = 24;
const ROW: f64 = 16.0;
const TOP: f64 = 8.0;
const NUMBERS: f64 = 64.0;
const BAR: f64 = 10.0;

/// How wide a chart is, and how much of that its names take, px.
pub(crate) type Widths = (f64, f64);
/// Over a page, and on half of one.
pub(crate) const WHOLE: Widths = (WIDTH, 190.0);
pub(crate) const HALF: Widths = (360.0, 130.0);

/// The frame with its panels, and what it carries, each at a scale of its own; what weighs nothing is left out.
pub fn draw(mass: &MassModel, widths: Widths) -> Vec<Figure> {
    let frame = |item: &MassItem| item.kind != MassKind::Carried;
    let carried = |item: &MassItem| item.kind == MassKind::Carried;
    let frame = bars(mass, widths, frame, "Mass of the frame", "Filled: tubes by group; grey: panels.");
    let carried = bars(mass, widths, carried, "Mass of what the frame carries", "");
    [frame, carried].into_iter().flatten().collect()
}

/// Bars of mass, the heaviest first; `None` where nothing has a mass.
fn bars(
    mass: &MassModel,
    (width, names): Widths,
    of: impl Fn(&MassItem) -> bool,
    what: &str,
    how: &str,
) -> Option<Figure> {
    let mut items: Vec<&MassItem> = mass.items.iter().filter(|item| item.mass > 0.0 && of(item)).collect();
    // Equals stay in the order of the table of masses.
    items.sort_by(|a, b| b.mass.total_cmp(&a.mass));
    let most = items.first()?.mass;
    let shown = if items.len() > BARS { BARS - 1 } else { items.len() };
    let rest: f64 = items[shown..].iter().map(|item| item.mass).sum();
    let mut bars: Vec<(String, f64, String)> =
        items[..shown].iter().map(|item| (name(item), item.mass, look(item.kind))).collect();
    if rest > 0.0 {
        bars.push((format!("{} lighter ones together", items.len() - shown), rest, open()));
    }
    let most = bars.iter().map(|bar| bar.1).fold(most, f64::max);
    let height = TOP + ROW * bars.len() as f64 + 6.0;
    let mut svg = Svg::new(width, height, "chart", what);
    let room = width - names - NUMBERS;
    for (place, (_, kg, look)) in bars.iter().enumerate() {
        let corner = (names, TOP + ROW * place as f64 + 1.0);
        svg.rectangle(corner, (room * kg / most, BAR), look);
    }
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    for (place, (name, kg, _)) in bars.iter().enumerate() {
        let base = TOP + ROW * place as f64 + 10.0;
        svg.text((names - 6.0, base), Anchor::End, name);
        svg.text((names + room * kg / most + 5.0, base), Anchor::Start, &format!("{} kg", significant(*kg, 3)));
    }
    svg.close();
    let total: f64 = items.iter().map(|item| item.mass).sum();
    let caption = format!("{what}: {} kg. {how}", significant(total, 4));
    Some(Figure { svg: svg.finish(), caption, wide: false })
}

/// How a bar of its kind is filled: never by colour alone.
fn look(kind: MassKind) -> String {
    match kind {
        MassKind::Tubes => format!("fill=\"{}\"", ink::BLUE),
        MassKind::Panel => format!("fill=\"{}\"", ink::GREY),
        MassKind::Carried => open(),
    }
}

/// A bar that is an outline alone.
fn open() -> String {
    format!("fill=\"{}\" stroke=\"{}\"", ink::PAPER, ink::INK)
}

fn name(item: &MassItem) -> String {
    match (item.kind, item.name.as_str()) {
        (MassKind::Tubes, "") => "tubes without a group".to_owned(),
        (MassKind::Tubes, group) => format!("tubes: {group}"),
        (_, name) => name.to_owned(),
    }
}
