//! Sizes as one number each: an area, a wall, or a place between the sizes of a list.

use strutwork_model::model::section::standard_outer_radius;
use strutwork_model::model::{Section, Shape};

use super::choice::{Choice, Size};
use crate::sensitivity::wall_rate;

/// How a number makes a section.
pub(super) enum Scale {
    /// The area, m².
    Area(Section),
    /// The wall, m.
    Wall(Section),
    /// The area, m², along the sizes of a list that are worth their area.
    Chain(Vec<Size>),
}

/// A number's scale and bounds.
pub(super) struct Relaxed {
    pub scale: Scale,
    pub least: f64,
    pub most: f64,
}

impl Relaxed {
    /// Of a choice.
    pub(super) fn of(choice: &Choice) -> Self {
        match choice {
            Choice::Area { least, most, like } => Self { scale: Scale::Area(like.clone()), least: *least, most: *most },
            Choice::Wall { least, most, like } => Self { scale: Scale::Wall(like.clone()), least: *least, most: *most },
            Choice::List(sizes) => {
                let chain = worth_their_area(sizes);
                let area = |size: Option<&Size>| size.map_or(0.0, |size| size.section.area);
                Self { least: area(chain.first()), most: area(chain.last()), scale: Scale::Chain(chain) }
            }
        }
    }

    /// The section of a number; between the sizes of a list one with properties in between.
    pub(super) fn section(&self, x: f64) -> Section {
        match &self.scale {
            Scale::Area(like) => bare(like.name.clone(), [x, like.iy, like.iz, like.j]),
            Scale::Wall(like) => with_wall(like, x).unwrap_or_else(|| like.clone()),
            Scale::Chain(chain) => {
                let (place, share) = between(chain, x);
                let [low, high] =
                    [place, (place + 1).min(chain.len() - 1)].map(|place| properties(&chain[place].section));
                let values = std::array::from_fn(|i| low[i] + share * (high[i] - low[i]));
                bare(chain[place].name.clone(), values)
            }
        }
    }

    /// Change of A, Iy, Iz, J with the number.
    pub(super) fn slope(&self, x: f64) -> [f64; 4] {
        match &self.scale {
            Scale::Area(_) => [1.0, 0.0, 0.0, 0.0],
            Scale::Wall(like) => {
                with_wall(like, x).and_then(|section| wall_rate(&section)).map_or([0.0; 4], |rate| rate.properties)
            }
            Scale::Chain(chain) => {
                let (place, _) = between(chain, x);
                if place + 1 >= chain.len() {
                    return [1.0, 0.0, 0.0, 0.0];
                }
                let [low, high] = [place, place + 1].map(|place| properties(&chain[place].section));
                std::array::from_fn(|i| (high[i] - low[i]) / (high[0] - low[0]))
            }
        }
    }
}

/// A, Iy, Iz, J.
pub(super) fn properties(section: &Section) -> [f64; 4] {
    [section.area, section.iy, section.iz, section.j]
}

fn bare(name: String, [area, iy, iz, j]: [f64; 4]) -> Section {
    Section::properties(name, area, iy, iz, j).expect("bug: properties between those of sections are above 0")
}

/// The same outside with another wall, m; the corner radius keeps its ratio to the wall where it is the standard one. `None`
/// for sections without a wall, and for walls that leave no hole.
pub fn with_wall(like: &Section, wall: f64) -> Option<Section> {
    let shape = match like.shape {
        Shape::Hollow { height, width, wall: old, outer_radius } => {
            let standard = (outer_radius - standard_outer_radius(old)).abs() <= 1e-9 * old;
            let outer_radius = if standard { outer_radius / old * wall } else { outer_radius };
            Shape::Hollow { height, width, wall, outer_radius }
        }
        Shape::Round { diameter, .. } => Shape::Round { diameter, wall },
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => return None,
    };
    Section::from_shape(like.name.clone(), shape).ok()
}

/// The sizes for which no other is as stiff in every way with no more area, by area.
fn worth_their_area(sizes: &[Size]) -> Vec<Size> {
    let mut chain: Vec<Size> = Vec::new();
    let mut sorted: Vec<&Size> = sizes.iter().collect();
    sorted.sort_by(|a, b| a.section.area.total_cmp(&b.section.area));
    for size in sorted {
        let stiffer = |known: &Size| {
            properties(&size.section)[1..].iter().zip(&properties(&known.section)[1..]).all(|(own, other)| own >= other)
        };
        if chain.last().is_none_or(|last| size.section.area > last.section.area * (1.0 + 1e-9) && stiffer(last)) {
            chain.push(size.clone());
        }
    }
    chain
}

/// The size at or below an area, and the share of the way to the next.
fn between(chain: &[Size], x: f64) -> (usize, f64) {
    let place = chain.partition_point(|size| size.section.area <= x).saturating_sub(1);
    let low = chain[place].section.area;
    match chain.get(place + 1) {
        Some(next) => (place, ((x - low) / (next.section.area - low)).clamp(0.0, 1.0)),
        None => (place, 0.0),
    }
}
