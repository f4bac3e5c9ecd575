//! Pictures of the parts that formulas of strength are about: a tube, a strut, a joint, a weld, a bolt, a panel, a curve.

use strutwork_model::model::Section;
use strutwork_report::figures::graph::{self, Graph, Scale, Series};
use strutwork_report::figures::svg::Anchor;
use strutwork_report::figures::{Figure, outline};
use strutwork_report::number::as_given;

use super::pen::{Pen, WIDTH};
use crate::case::Case;
use crate::formula::Formula;

const MM: f64 = 1e-3;

/// A picture for each kind of formula that the case asks for, of the first of its kind (all tubes and curves in one).
pub(super) fn figures(case: &Case) -> Vec<Figure> {
    let label = format!("The part: {}", case.title);
    let mut figures: Vec<Figure> = tubes(&case.formulas, &label).into_iter().collect();
    for group in case.formulas.chunk_by(|a, b| a.of == b.of) {
        let first = &group[0];
        figures.extend(match first.of.as_str() {
            "joint" => joint(first, &label),
            "weld" => weld(first, &label),
            "bolt" => bolt(first, &label),
            "panel" => panel(first, &label),
            "curve" => curves(group),
            "fatigue" => lives(group),
            _ => None,
        });
        if first.of == "member" {
            figures.extend(strut(first, &label));
        }
    }
    figures.dedup();
    figures
}

/// The outlines of the tubes whose sections or members are asked for, each once.
fn tubes(formulas: &[Formula], label: &str) -> Option<Figure> {
    let mut made: Vec<Section> = formulas
        .iter()
        .filter(|formula| matches!(formula.of.as_str(), "section" | "member"))
        .filter_map(|formula| {
            let mm = |key: &str| formula.number(key).map(|value| value * MM);
            let wall = mm("t_mm")?;
            match mm("d_mm") {
                Some(diameter) => Section::round(&formula.name, diameter, wall).ok(),
                None => Section::hollow(&formula.name, mm("h_mm")?, mm("b_mm")?, wall, mm("r_mm")).ok(),
            }
        })
        .collect();
    made.dedup_by(|b, a| a.shape == b.shape);
    outline::outlines(&made.iter().collect::<Vec<_>>(), label)
}

/// A compressed tube on two pins, with its buckling lengths.
fn strut(formula: &Formula, label: &str) -> Option<Figure> {
    let (y, z) = (formula.number("lcr_y_mm")?, formula.number("lcr_z_mm")?);
    let mut pen = Pen::new(96.0, label);
    let (left, right, height) = (110.0, WIDTH - 110.0, 40.0);
    pen.line(&[(left, height), (right, height)]);
    for (at, inward) in [(left, 1.0), (right, -1.0)] {
        pen.load((at - inward * 54.0, height), (at - inward * 6.0, height));
        pen.dot((at, height));
    }
    pen.text((left - 52.0, height - 7.0), Anchor::Start, &force(formula.number("n_n")?));
    pen.size(
        (left, height + 22.0),
        (right, height + 22.0),
        &format!("L_cr,y = {}, L_cr,z = {}", as_given(y), as_given(z)),
    );
    let moments: Vec<String> = [("my_nm", "M_y"), ("mz_nm", "M_z")]
        .into_iter()
        .filter_map(|(key, name)| {
            let (_, value) = formula.inputs.iter().find(|(known, _)| known == key)?;
            let ends: Vec<String> = value.as_array()?.iter().filter_map(toml::Value::as_float).map(as_given).collect();
            Some(format!("{name} at its ends: {} N·m", ends.join(" and ")))
        })
        .collect();
    if !moments.is_empty() {
        pen.text((WIDTH / 2.0, height + 44.0), Anchor::Middle, &moments.join(" · "));
    }
    Some(pen.finish("Lengths in mm; the length is not to scale."))
}

/// A chord with its braces, seen from the side.
fn joint(formula: &Formula, label: &str) -> Option<Figure> {
    let depth = |tail: &str| formula.number(&format!("h{tail}_mm")).or_else(|| formula.number(&format!("d{tail}_mm")));
    let across = |tail: &str| formula.number(&format!("b{tail}_mm"));
    let (h0, h1, angle) = (depth("0")?, depth("1")?, formula.number("theta1_deg")?);
    let kind = formula.text("kind")?.to_owned();
    let second = depth("2").zip(formula.number("theta2_deg"));
    let scale = 62.0 / h0.max(h1);
    let (face, middle) = (168.0, WIDTH / 2.0);
    let mut pen = Pen::new(face + h0 * scale + 74.0, label);
    pen.area(&[(40.0, face), (WIDTH - 40.0, face), (WIDTH - 40.0, face + h0 * scale), (40.0, face + h0 * scale)]);
    // Half of what a brace covers of the face, px.
    let foot = |h: f64, degrees: f64| h * scale / (2.0 * degrees.to_radians().sin());
    let gap = match (kind.as_str(), second) {
        ("gap", Some((h2, other))) => foot(h1, angle) + foot(h2, other) + formula.number("gap_mm")? * scale,
        ("overlap", Some((h2, other))) => {
            foot(h1, angle) + foot(h2, other) - formula.number("overlap_pct")? / 100.0 * 2.0 * foot(h1, angle)
        }
        _ => 0.0,
    };
    let size = |tail: &str, h: f64| match (across(tail), formula.number(&format!("t{tail}_mm"))) {
        (Some(b), Some(t)) => format!("{} × {} × {}", as_given(h), as_given(b), as_given(t)),
        (None, Some(t)) => format!("⌀ {} × {}", as_given(h), as_given(t)),
        _ => as_given(h),
    };
    if let Some((h2, other)) = second.filter(|_| gap != 0.0) {
        pen.brace((middle + gap / 2.0, face), (h2 * scale, other, 1.0), &size("2", h2));
    }
    pen.brace((middle - gap / 2.0, face), (h1 * scale, angle, -1.0), &size("1", h1));
    if kind == "X" {
        pen.brace((middle, face + h0 * scale), (h1 * scale, -angle, -1.0), "");
    }
    pen.text((WIDTH - 46.0, face + h0 * scale / 2.0 + 4.0), Anchor::End, &size("0", h0));
    let mut words = vec![format!("{kind} joint, θ₁ = {}°", as_given(angle))];
    words.extend(second.map(|(_, other)| format!("θ₂ = {}°", as_given(other))));
    words.extend(formula.number("gap_mm").map(|gap| format!("gap {} mm", as_given(gap))));
    words.extend(formula.number("overlap_pct").map(|share| format!("overlap {} %", as_given(share))));
    let loads: Vec<String> =
        [("n1_n", "N₁", "N"), ("mip_nm", "M_ip", "N·m"), ("mop_nm", "M_op", "N·m"), ("n0_n", "N₀", "N")]
            .into_iter()
            .filter_map(|(key, name, unit)| {
                formula.number(key).map(|value| format!("{name} = {} {unit}", as_given(value)))
            })
            .collect();
    pen.text((WIDTH / 2.0, face + h0 * scale + 24.0), Anchor::Middle, &words.join(", "));
    pen.text((WIDTH / 2.0, face + h0 * scale + 42.0), Anchor::Middle, &loads.join(", "));
    Some(pen.finish("From the side, to scale, sizes in mm; tension positive."))
}

/// The end of a tube with a fillet all round it, as it meets its face.
fn weld(formula: &Formula, label: &str) -> Option<Figure> {
    let round = formula.number("d_mm");
    let (h, b) = (round.or_else(|| formula.number("h_mm"))?, round.or_else(|| formula.number("b_mm"))?);
    let throat = formula.number("a_mm")?;
    let scale = 120.0 / h.max(b);
    let mut pen = Pen::new(190.0, label);
    let centre = (120.0, 84.0);
    for (extra, heavy) in [(throat * std::f64::consts::SQRT_2, true), (0.0, false), (-formula.number("t_mm")?, false)] {
        let (w, d) = ((b / 2.0 + extra) * scale, (h / 2.0 + extra) * scale);
        if round.is_some() {
            pen.ring(centre, w, heavy);
        } else {
            let (cx, cy) = centre;
            pen.outline(&[(cx - w, cy - d), (cx + w, cy - d), (cx + w, cy + d), (cx - w, cy + d)], heavy);
        }
    }
    let size = if round.is_some() {
        format!("tube ⌀ {}", as_given(h))
    } else {
        format!("tube {} × {}", as_given(h), as_given(b))
    };
    let mut words = vec![
        format!("{size}, wall {}", formula.number("t_mm").map_or_else(String::new, as_given)),
        format!("fillet, throat a = {}", as_given(throat)),
        format!("angle θ = {}°", formula.number("theta_deg").map_or_else(String::new, as_given)),
    ];
    for (key, name, unit) in [
        ("n_n", "N", "N"),
        ("v_ip_n", "V_ip", "N"),
        ("v_op_n", "V_op", "N"),
        ("t_nm", "T", "N·m"),
        ("m_ip_nm", "M_ip", "N·m"),
        ("m_op_nm", "M_op", "N·m"),
    ] {
        words.extend(
            formula.number(key).filter(|value| *value != 0.0).map(|v| format!("{name} = {} {unit}", as_given(v))),
        );
    }
    for (place, line) in words.iter().enumerate() {
        pen.text((230.0, 40.0 + 16.0 * place as f64), Anchor::Start, line);
    }
    Some(pen.finish("Seen along the tube: the tinted rim is the fillet. Sizes in mm."))
}

/// A bolt in its plate, seen along the bolt.
fn bolt(formula: &Formula, label: &str) -> Option<Figure> {
    let get = |key: &str| formula.number(key);
    let (d, d0, e1, e2) = (get("d_mm")?, get("d0_mm")?, get("e1_mm")?, get("e2_mm")?);
    let scale = 110.0 / (e1.max(e2) + d0);
    let mut pen = Pen::new(190.0, label);
    let at = (40.0 + e1 * scale, 20.0 + e2 * scale);
    let (right, low) = (at.0 + (d0 + 6.0) * scale + 24.0, at.1 + d0 * scale + 16.0);
    pen.area(&[(40.0, 20.0), (right, 20.0), (right, low), (40.0, low)]);
    pen.ring(at, d0 / 2.0 * scale, false);
    pen.ring(at, d / 2.0 * scale, true);
    pen.size((40.0, low + 14.0), (at.0, low + 14.0), &format!("e₁ {}", as_given(e1)));
    pen.text((at.0 + d0 / 2.0 * scale + 4.0, 20.0 + e2 * scale / 2.0), Anchor::Start, &format!("e₂ {}", as_given(e2)));
    pen.line(&[(at.0, 20.0), (at.0, at.1)]);
    let mut words = vec![
        format!("bolt d = {}, hole d₀ = {}", as_given(d), as_given(d0)),
        format!("stress area {} mm²", get("area_mm2").map_or_else(String::new, as_given)),
        format!("plate t = {}", get("t_mm").map_or_else(String::new, as_given)),
    ];
    for (key, name) in [("shear_n", "F_v"), ("tension_n", "F_t")] {
        words.extend(get(key).filter(|force| *force != 0.0).map(|force| format!("{name} = {} N", as_given(force))));
    }
    for (place, line) in words.iter().enumerate() {
        pen.text((260.0, 50.0 + 17.0 * place as f64), Anchor::Start, line);
    }
    if get("shear_n").is_some_and(|shear| shear != 0.0) {
        pen.load((at.0, at.1), (at.0 - 34.0, at.1));
    }
    Some(pen.finish("Seen along the bolt, to scale, sizes in mm."))
}

/// A panel under shear flow.
fn panel(formula: &Formula, label: &str) -> Option<Figure> {
    let (a, b) = (formula.number("a_mm")?, formula.number("b_mm")?);
    let scale = (260.0 / a).min(130.0 / b);
    let (w, h, x, y) = (a * scale, b * scale, 90.0, 34.0);
    let mut pen = Pen::new(h + 86.0, label);
    pen.area(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]);
    pen.load((x + 12.0, y - 8.0), (x + w - 12.0, y - 8.0));
    pen.load((x + w - 12.0, y + h + 8.0), (x + 12.0, y + h + 8.0));
    pen.load((x + w + 8.0, y + h - 12.0), (x + w + 8.0, y + 12.0));
    pen.load((x - 8.0, y + 12.0), (x - 8.0, y + h - 12.0));
    pen.size((x, y + h + 28.0), (x + w, y + h + 28.0), &as_given(a));
    pen.text((x + w + 16.0, y + h / 2.0), Anchor::Start, &format!("b = {}", as_given(b)));
    let flow = formula.number("q_n_per_mm").map_or_else(String::new, as_given);
    pen.text((x + w / 2.0, y + h / 2.0), Anchor::Middle, &format!("q = {flow} N/mm"));
    pen.text((x + w / 2.0, y + h / 2.0 + 16.0), Anchor::Middle, &format!("t = {}", as_given(formula.number("t_mm")?)));
    Some(pen.finish("A skin in shear, sizes in mm."))
}

/// Reduction over slenderness, at the places that are asked for.
fn curves(formulas: &[Formula]) -> Option<Figure> {
    let mut series: Vec<Series> = Vec::new();
    for formula in formulas {
        let name = format!("curve {}", formula.text("curve")?);
        let page = formula.page();
        let chi = page.lines.iter().find(|line| line.symbol == "χ")?.value;
        let point = (formula.number("slenderness")?, chi);
        match series.iter_mut().find(|known| known.name == name) {
            Some(known) => known.points.push(point),
            None => series.push(Series { name, points: vec![point], marked: true }),
        }
    }
    for row in &mut series {
        row.points.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    graph::draw(&Graph {
        names: ["slenderness λ̄".to_owned(), "reduction χ".to_owned()],
        scales: [Scale::Linear; 2],
        series,
        caption: "The places at which the curve is compared, with our values.".to_owned(),
    })
}

/// Stress range over cycles for each category: slope 3 to 5 million, 5 to 100 million, then the cut-off; for node joints
/// slope 5 throughout.
fn lives(formulas: &[Formula]) -> Option<Figure> {
    let mut series: Vec<Series> = Vec::new();
    for formula in formulas {
        let (category, node) = (formula.number("category_mpa")?, formula.text("curve")? == "node");
        let name = as_given(category);
        if series.iter().any(|known| known.name == name) {
            continue;
        }
        let at = |from: (f64, f64), cycles: f64, slope: f64| from.1 * (from.0 / cycles).powf(1.0 / slope);
        let middle = (2e6, category);
        let first = if node { 5.0 } else { 3.0 };
        let knee = if node { 1e8 } else { 5e6 };
        let mut points = vec![(1e5, at(middle, 1e5, first)), (knee, at(middle, knee, first))];
        if !node {
            points.push((1e8, at(points[1], 1e8, 5.0)));
        }
        let cut_off = points[points.len() - 1].1;
        points.push((1e9, cut_off));
        series.push(Series { name, points, marked: false });
    }
    graph::draw(&Graph {
        names: ["cycles".to_owned(), "stress range, MPa".to_owned()],
        scales: [Scale::Logarithmic; 2],
        series,
        caption: "Lines of the detail categories as EN 1993-1-9 figure 7.1 has them, named by their range at two million cycles."
            .to_owned(),
    })
}

fn force(newtons: f64) -> String {
    format!("{} kN", as_given(newtons / 1000.0))
}
