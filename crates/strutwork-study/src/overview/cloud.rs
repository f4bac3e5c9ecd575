//! Where variants lie in the plane of two responses: each by itself while they are few, then counts in a fixed number of cells.

use std::collections::BTreeMap;

use super::bins::{NO_WIDTH, finest, halvings, place};

/// More variants than this are counted in cells.
pub(crate) const MOST: usize = 3000;
/// Cells along each side, at most.
const SIDE: i64 = 64;

/// A variant in the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Its number.
    pub variant: u64,
    /// Of this less is better.
    pub x: f64,
    /// Of this more is better.
    pub y: f64,
    /// Whether it keeps every constraint; also where there are none.
    pub keeps: bool,
}

/// Where variants lie.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cloud {
    /// Each by itself; empty where they are counted in cells.
    pub points: Vec<Point>,
    /// Counts in cells, where there are many.
    pub density: Option<Density>,
}

/// Counts in equal cells, whose sides are powers of two.
#[derive(Debug, Clone, PartialEq)]
pub struct Density {
    exponents: [i32; 2],
    /// The least and the greatest place along each axis.
    ends: [[i64; 2]; 2],
    /// By the place of the cell: variants that keep every constraint, and those that do not.
    counts: BTreeMap<[i64; 2], [u64; 2]>,
}

impl Cloud {
    pub(super) fn add(&mut self, point: Point) {
        if let Some(density) = &mut self.density {
            density.add(&point);
            return;
        }
        self.points.push(point);
        if self.points.len() > MOST {
            let mut density = Density::new();
            std::mem::take(&mut self.points).iter().for_each(|point| density.add(point));
            self.density = Some(density);
        }
    }
}

impl Density {
    /// Lengths of the sides of a cell.
    pub fn sides(&self) -> [f64; 2] {
        self.exponents.map(|exponent| 2.0_f64.powi(exponent))
    }

    /// Cells that hold something, in a fixed order: the lower corner, how many variants keep every constraint and how many do not.
    pub fn cells(&self) -> impl Iterator<Item = ([f64; 2], [u64; 2])> {
        let [wide, high] = self.sides();
        self.counts.iter().map(move |([x, y], counts)| ([*x as f64 * wide, *y as f64 * high], *counts))
    }

    const fn new() -> Self {
        Self { exponents: [NO_WIDTH; 2], ends: [[i64::MAX, i64::MIN]; 2], counts: BTreeMap::new() }
    }

    fn add(&mut self, point: &Point) {
        let at = [point.x, point.y];
        for (axis, value) in at.into_iter().enumerate() {
            self.widen(axis, finest(value).max(self.exponents[axis]));
        }
        let cell = [0, 1].map(|axis| place(at[axis], self.exponents[axis]));
        self.counts.entry(cell).or_default()[usize::from(!point.keeps)] += 1;
        for (axis, place) in cell.into_iter().enumerate() {
            let [low, high] = self.ends[axis];
            self.ends[axis] = [low.min(place), high.max(place)];
            while self.ends[axis][1] - self.ends[axis][0] >= SIDE {
                self.widen(axis, self.exponents[axis] + 1);
            }
        }
    }

    /// Two cells become one along an axis, until its side is that.
    fn widen(&mut self, axis: usize, exponent: i32) {
        let by = halvings(self.exponents[axis], exponent);
        if by == 0 {
            return;
        }
        let mut counts: BTreeMap<[i64; 2], [u64; 2]> = BTreeMap::new();
        for (mut key, [keep, rest]) in std::mem::take(&mut self.counts) {
            key[axis] >>= by;
            let cell = counts.entry(key).or_default();
            *cell = [cell[0] + keep, cell[1] + rest];
        }
        self.counts = counts;
        self.exponents[axis] = exponent;
        if self.ends[axis][0] <= self.ends[axis][1] {
            self.ends[axis] = self.ends[axis].map(|end| end >> by);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_points_become_counts_and_none_is_lost() {
        let mut cloud = Cloud::default();
        let points = 20_000_u64;
        for variant in 0..points {
            let (x, y) = ((variant * 7919 % 1013) as f64 * 0.01 - 2.0, (variant * 104_729 % 997) as f64);
            cloud.add(Point { variant, x, y, keeps: variant % 3 == 0 });
        }
        assert!(cloud.points.is_empty());
        let density = cloud.density.unwrap();
        let [wide, high] = density.sides();
        let (mut keep, mut rest, mut cells) = (0, 0, 0);
        for ([x, y], [one, other]) in density.cells() {
            (keep, rest, cells) = (keep + one, rest + other, cells + 1);
            assert!(x >= -2.0 - wide && x < 8.2 && (0.0..997.0).contains(&y), "{x} {y}");
        }
        assert_eq!((keep, rest), (points.div_ceil(3), points - points.div_ceil(3)));
        assert!(cells <= 64 * 64 && (wide, high) == (0.25, 16.0), "{cells} {wide} {high}");
    }
}
