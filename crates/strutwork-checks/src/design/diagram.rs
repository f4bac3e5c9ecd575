//! The shape of a tube's moment diagrams, as the factors C_m take it.

use strutwork_solve::results::Station;

use crate::code::member::Diagram;

/// Deviation from a straight line, as a share of the greatest moment, that counts as none.
const STRAIGHT: f64 = 1e-6;

/// Diagrams of My and Mz along a tube: both ends, and between them the moment in the middle or an extreme that is greater.
pub(super) fn diagrams(stations: &[Station], is_concentrated: bool) -> [Diagram; 2] {
    let moments: [fn(&Station) -> f64; 2] = [|station| station.forces.my, |station| station.forces.mz];
    moments.map(|moment| diagram(stations, moment, is_concentrated))
}

fn diagram(stations: &[Station], moment: fn(&Station) -> f64, is_concentrated: bool) -> Diagram {
    let (Some(first), Some(last)) = (stations.first(), stations.last()) else { return Diagram::default() };
    let ends = [moment(first), moment(last)];
    let greatest = stations.iter().fold(0.0_f64, |most, station| most.max(moment(station).abs()));
    let is_straight = stations.iter().all(|station| {
        let straight = ends[0] + (ends[1] - ends[0]) * station.at;
        (moment(station) - straight).abs() <= STRAIGHT * greatest
    });
    let span = if is_straight { None } else { between(stations, moment) };
    Diagram { ends, span, is_concentrated }
}

/// The moment of the greatest magnitude among the middle and the extremes between the ends.
fn between(stations: &[Station], moment: fn(&Station) -> f64) -> Option<f64> {
    let inside = stations.windows(3).filter(|three| three[1].at > 0.0 && three[1].at < 1.0);
    let values = inside.filter_map(|three| {
        let [before, here, after] = [0, 1, 2].map(|place| moment(&three[place]));
        let is_middle = (three[1].at - 0.5).abs() < 1e-9;
        let is_extreme = (here >= before && here >= after) || (here <= before && here <= after);
        (is_middle || is_extreme).then_some(here)
    });
    values.fold(None, |most: Option<f64>, value| match most {
        Some(known) if known.abs() >= value.abs() => most,
        _ => Some(value),
    })
}

#[cfg(test)]
mod tests {
    use strutwork_solve::results::SectionForces;

    use super::*;

    fn stations(values: &[(f64, f64)]) -> Vec<Station> {
        let station = |&(at, my): &(f64, f64)| Station {
            at,
            forces: SectionForces { my, ..SectionForces::default() },
            stress: None,
            displacement: [0.0; 3],
        };
        values.iter().map(station).collect()
    }

    fn of(values: &[(f64, f64)]) -> Diagram {
        diagrams(&stations(values), false)[0]
    }

    #[test]
    fn a_line_has_no_span() {
        let found = of(&[(0.0, 4.0), (0.5, 1.0), (1.0, -2.0)]);
        assert_eq!((found.ends, found.span), ([4.0, -2.0], None));
        assert_eq!(diagrams(&stations(&[(0.0, 4.0), (1.0, 2.0)]), false)[1].factor(), 1.0, "no moment about z");
    }

    #[test]
    fn an_extreme_between_the_ends_counts_and_else_the_middle() {
        assert_eq!(of(&[(0.0, 2.0), (0.4, -1.2), (0.5, -1.0), (1.0, 1.0)]).span, Some(-1.2));
        assert_eq!(of(&[(0.0, 0.0), (0.5, 1.0), (0.8, 3.0), (1.0, 4.0)]).span, Some(1.0), "0.8 is no extreme");
        // A point load: its place appears twice.
        assert_eq!(of(&[(0.0, 0.0), (0.25, 3.0), (0.25, 3.0), (0.5, 2.0), (1.0, 0.0)]).span, Some(3.0));
    }
}
