//! Sections and materials, told with the tubes that use them.

use strutwork_model::ids::Id;
use strutwork_model::model::Tube;

use super::change::{Change, How, Part};
use super::facts::differ;
use super::listed::{Listed, summary};
use super::names::Side;

/// Sections or materials: a change of one is told with the tubes that it touches; one that came or went with the tubes that
/// use it is told by those tubes.
pub(super) fn used(listed: &Listed, part: Part, a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    let of = |side: &Side<'_>, place: usize| -> Vec<String> {
        let uses = |tube: &&Tube| match part {
            Part::Section => tube.section.index() == place,
            _ => tube.material.index() == place,
        };
        side.model.tubes().iter().filter(uses).map(|tube| tube.name.clone()).collect()
    };
    for (place, (item, from)) in listed.after.iter().zip(listed.came_from()).enumerate() {
        let touched = of(b, place);
        match from {
            None if touched.is_empty() => {
                out.push(Change::added(part, &item.name, format!("{}; no tube uses it", summary(item))));
            }
            None => {}
            Some(was) => {
                let was = &listed.before[was];
                let mut details = differ(&was.facts, &item.facts);
                // Another grade has other values and another source: those follow.
                if details.len() > 1 {
                    details.retain(|detail| detail.what != "source");
                }
                if let Some(mut change) = Change::of(part, &was.name, &item.name, details) {
                    if change.how == How::Changed {
                        change.about = tubes_in_words(&touched);
                    }
                    out.push(change);
                }
            }
        }
    }
    for (place, (item, pair)) in listed.before.iter().zip(&listed.pairs).enumerate() {
        if pair.is_none() && of(a, place).is_empty() {
            out.push(Change::gone(part, &item.name, "no tube used it".to_owned()));
        }
    }
}

/// `tubes t1, t2, t3 and 14 more`.
fn tubes_in_words(names: &[String]) -> String {
    const SHOWN: usize = 4;
    match names.len() {
        0 => "no tube uses it".to_owned(),
        1 => format!("tube {}", names[0]),
        number if number <= SHOWN => format!("tubes {}", names.join(", ")),
        number => format!("{number} tubes: {} and {} more", names[..SHOWN - 1].join(", "), number - (SHOWN - 1)),
    }
}
