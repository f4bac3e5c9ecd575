//! Classes of cross-sections: how far a wall yields before it buckles (EN 1993-1-1 5.5, Table 5.2).

mod written;

use super::profile::{Form, Profile};

pub(super) use written::write;

/// Class of a cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// A plastic hinge that turns.
    One,
    /// Plastic resistance.
    Two,
    /// Yield at the extreme fibre.
    Three,
    /// Walls buckle before they yield.
    Four,
}

impl Class {
    /// 1 to 4.
    pub const fn number(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
            Self::Four => 4,
        }
    }

    /// Whether the section reaches its plastic resistance.
    pub const fn is_plastic(self) -> bool {
        matches!(self, Self::One | Self::Two)
    }

    /// The class of a wall as slender as `ratio` where classes 1 to 3 reach up to `limits`.
    fn within(ratio: f64, limits: [f64; 3]) -> Self {
        // A hair wide, so that a wall on the limit by the numbers of its table stays on its better side.
        let holds = |limit: f64| ratio <= limit * (1.0 + 1e-12);
        if holds(limits[0]) {
            Self::One
        } else if holds(limits[1]) {
            Self::Two
        } else if holds(limits[2]) {
            Self::Three
        } else {
            Self::Four
        }
    }
}

/// Forces below this share of the section's own resistance are rounding: they are not there.
pub(super) const NOTHING: f64 = 1e-9;

/// How a wall is stressed, as Table 5.2 asks for it; the more severe, the greater are both.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Pressed {
    /// Share of the wall that is compressed when all of it yields.
    alpha: f64,
    /// Least over greatest compressive stress when its edge yields.
    psi: f64,
}

impl Pressed {
    /// Compressed evenly.
    const EVENLY: Self = Self { alpha: 1.0, psi: 1.0 };

    /// Limits of c/t for classes 1 to 3.
    ///
    /// ```text
    /// α > 0.5: 396ε/(13α − 1),  456ε/(13α − 1);  α = 0.5: 36ε/α,  41.5ε/α;  42ε/(0.67 + 0.33ψ),  ψ = −1: 124ε
    /// ```
    fn limits(self, epsilon: f64) -> [f64; 3] {
        let Self { alpha, psi } = self;
        let third = if psi > -1.0 { 42.0 * epsilon / (0.67 + 0.33 * psi) } else { 124.0 * epsilon };
        let [first, second] = if alpha > 0.5 {
            [396.0, 456.0].map(|c| c / (13.0 * alpha - 1.0))
        } else {
            [36.0, 41.5].map(|c| c / alpha)
        };
        [first * epsilon, second * epsilon, third]
    }
}

/// One pair of opposite walls of a rectangular section.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Pair {
    /// c = h − 3t, m.
    flat: f64,
    /// `None`: nowhere compressed.
    pressed: Option<Pressed>,
}

impl Pair {
    fn class(&self, wall: f64, epsilon: f64) -> Class {
        self.pressed.map_or(Class::One, |pressed| Class::within(self.flat / wall, pressed.limits(epsilon)))
    }
}

/// What a section is under: compression positive, N; moments as magnitudes, N·m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Under {
    /// N, tension negative.
    pub compression: f64,
    /// M_y and M_z.
    pub moment: [f64; 2],
}

/// The class of a section under an axial force and moments about both axes.
///
/// Walls of a rectangular section are internal parts with c = h − 3t. Where a moment bends a wall in its own plane (the walls
/// of height h under M_y):
///
/// ```text
/// α = ½ (1 + N/(2 t c f_y)),  ½ ≤ α ≤ 1        ψ = 2N/(A f_y) − 1,  −1 ≤ ψ ≤ 1
/// ```
///
/// that is, N stays and the moment grows until the section is plastic, or yields at its edge. A wall that lies across the
/// moment (the walls of width b under M_y) is compressed evenly where N and that moment compress it; so are all walls under N
/// alone. A wall that is one for M_y and the other for M_z takes the more severe. A wall that is nowhere compressed is class 1,
/// and so is a solid bar. A round tube that is compressed anywhere is judged by d/t.
///
/// More compression, more of all forces together, and more of a moment that is there never lead to a better class. A moment
/// about one axis added to N alone may, which is why checks hold N against its own class besides; so may tension that outweighs
/// the moments.
///
/// # Units and shapes
/// N, N·m.
///
/// # Assumes
/// Tension does not help a wall that a moment bends in its plane: α and ψ are not taken below those of bending alone.
///
/// # Source
/// EN 1993-1-1:2005 Table 5.2: bending 72ε, 83ε, 124ε (a design guide was read), the rest from memory; c = b − 3t: notes of a
/// handbook of section tables (read). α and ψ by N_Ed: common in design handbooks (from memory).
pub fn class(profile: &Profile, under: Under) -> Class {
    let epsilon = profile.epsilon();
    match profile.form {
        Form::SolidRound { .. } | Form::Flat { .. } => Class::One,
        Form::Round { diameter, wall } if round_pressed(profile, under) => {
            Class::within(diameter / wall, round_limits(epsilon))
        }
        Form::Round { .. } => Class::One,
        Form::Rectangular { height, width, wall } => {
            let [h, b] = pairs(profile, [height, width], wall, under);
            h.class(wall, epsilon).max(b.class(wall, epsilon))
        }
    }
}

fn round_limits(epsilon: f64) -> [f64; 3] {
    [50.0, 70.0, 90.0].map(|limit| limit * epsilon * epsilon)
}

/// Whether any of a round tube is compressed.
fn round_pressed(profile: &Profile, under: Under) -> bool {
    let [y, z] = under.moment;
    under.compression / profile.area + y.hypot(z) / profile.elastic[0] > NOTHING * profile.yield_stress
}

/// The walls of height h, which M_y bends in their plane, and those of width b, which M_z does.
fn pairs(profile: &Profile, sizes: [f64; 2], wall: f64, under: Under) -> [Pair; 2] {
    let nothing = NOTHING * profile.yield_stress;
    let axial = under.compression / profile.area;
    let bending = [0, 1].map(|axis| under.moment[axis] / profile.elastic[axis]);
    let is_bent = bending.map(|stress| stress > nothing);
    let psi = (2.0 * axial / profile.yield_stress - 1.0).clamp(-1.0, 1.0);
    [0, 1].map(|axis| {
        let (across, flat) = (1 - axis, sizes[axis] - 3.0 * wall);
        let evenly = axial + bending[across] > nothing && (is_bent[across] || !is_bent[axis]);
        let in_plane = is_bent[axis] && axial + bending[0] + bending[1] > nothing;
        let pressed = if evenly {
            Some(Pressed::EVENLY)
        } else if in_plane && flat > 0.0 {
            let alpha = 0.5 * (1.0 + under.compression / (2.0 * wall * flat * profile.yield_stress));
            Some(Pressed { alpha: alpha.clamp(0.5, 1.0), psi })
        } else {
            None
        };
        Pair { flat, pressed }
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::code::profiles::{rectangular, round};

    fn under(n: f64, my: f64, mz: f64) -> Under {
        Under { compression: n, moment: [my, mz] }
    }

    /// Consequences of Table 5.2 with c = b − 3t: 40 × 1.5 and smaller are class 1 in S355; 50 × 1.5 (c/t = 30.3) class 2 in
    /// S355; 60 × 1.5 (37.0) class 2 in S235 and class 4 in S355 (42ε = 34.2).
    #[test]
    fn common_tubes_in_compression() {
        for (side, f_y, class_number) in [(40.0, 355.0, 1), (50.0, 355.0, 2), (60.0, 235.0, 2), (60.0, 355.0, 4)] {
            let profile = rectangular(side, side, 1.5, f_y);
            assert_eq!(class(&profile, under(1e3, 0.0, 0.0)).number(), class_number, "{side} in S{f_y}");
            // Bending compresses one wall evenly.
            assert_eq!(class(&profile, under(0.0, 10.0, 0.0)).number(), class_number, "{side} bent");
        }
    }

    #[test]
    fn limits_of_compression_bending_and_between() {
        assert_eq!(Pressed::EVENLY.limits(1.0).map(|limit| (limit * 1e9).round() / 1e9), [33.0, 38.0, 42.0]);
        let bending = Pressed { alpha: 0.5, psi: -1.0 }.limits(1.0);
        assert_eq!(bending, [72.0, 83.0, 124.0]);
        // α = 0.75: 396/8.75 and 456/8.75; ψ = 0: 42/0.67.
        let between = Pressed { alpha: 0.75, psi: 0.0 }.limits(1.0);
        for (found, by_hand) in between.into_iter().zip([45.257_142_857, 52.114_285_714, 62.686_567_164]) {
            assert!((found - by_hand).abs() < 1e-8, "{between:?}");
        }
    }

    #[test]
    fn both_sides_of_every_limit() {
        // Even compression in S235, t = 2: c/t = b/2 − 3.
        for (limit, below) in [(33.0, 1), (38.0, 2), (42.0, 3)] {
            for (step, expected) in [(-1e-6, below), (0.0, below), (1e-6, below + 1)] {
                let side = 2.0 * (limit + step + 3.0);
                let found = class(&rectangular(side, side, 2.0, 235.0), under(1e3, 0.0, 0.0)).number();
                assert_eq!(found, expected, "c/t = {}", limit + step);
            }
        }
        for (limit, below) in [(50.0, 1), (70.0, 2), (90.0, 3)] {
            for (step, expected) in [(-1e-6, below), (0.0, below), (1e-6, below + 1)] {
                let found = class(&round(limit + step, 1.0, 235.0), under(0.0, 1.0, 0.0)).number();
                assert_eq!(found, expected, "d/t = {}", limit + step);
            }
        }
    }

    /// 100 × 50 × 2 in S235: walls of height h c/t = 47, of width b c/t = 22. N = 0: 72. At N = 40 kN α = ½(1 + 40000/(2·2·94·235))
    /// = 0.72635, so 396/(13α − 1) = 46.904 < 47 and 456/(13α − 1) = 54.0: class 2.
    #[test]
    fn a_wall_bent_in_its_plane_by_hand() {
        let profile = rectangular(100.0, 50.0, 2.0, 235.0);
        let of = |n: f64, my: f64, mz: f64| class(&profile, under(n, my, mz)).number();
        assert_eq!(of(0.0, 100.0, 0.0), 1);
        assert_eq!(of(39_700.0, 100.0, 0.0), 1);
        assert_eq!(of(40_000.0, 100.0, 0.0), 2);
        // Alone, N compresses the high walls evenly, as M_z does: 47 > 42.
        assert_eq!(of(40_000.0, 0.0, 0.0), 4);
        assert_eq!(of(0.0, 0.0, 100.0), 4);
        assert_eq!(of(0.0, 100.0, 100.0), 4);
    }

    #[test]
    fn what_is_pulled_is_class_one() {
        let profile = rectangular(60.0, 60.0, 1.5, 355.0);
        assert_eq!(class(&profile, under(-1e3, 0.0, 0.0)), Class::One);
        let (n, m) = (1e4, 1e4 * profile.elastic[0] / profile.area);
        assert_eq!(class(&profile, under(-n, 0.99 * m, 0.0)), Class::One);
        assert_eq!(class(&profile, under(-n, 1.01 * m, 0.0)), Class::Four);
        assert_eq!(class(&round(100.0, 1.0, 355.0), under(-1.0, 0.0, 0.0)), Class::One);
    }

    proptest! {
        #[test]
        fn more_never_makes_it_better(
            (h, b, t, f_y) in (30.0..160.0_f64, 30.0..160.0_f64, 1.0..4.0_f64, 200.0..700.0_f64),
            (n, y, z) in (-0.8..1.2_f64, 0.0..1.2_f64, 0.0..1.2_f64),
            (more, n_more, y_more, z_more) in (1.0..3.0_f64, 0.0..1.0_f64, 0.0..1.0_f64, 0.0..1.0_f64),
        ) {
            let p = rectangular(h, b, t, f_y);
            let of = |n: f64, y: f64, z: f64| {
                let force = p.area * p.yield_stress;
                let moment = p.plastic.map(|w| w * p.yield_stress);
                class(&p, under(n * force, y * moment[0], z * moment[1]))
            };
            let base = of(n, y, z);
            prop_assert!(of(more * n, more * y, more * z) >= base);
            prop_assert!(of(n, y + y_more, z) >= base);
            prop_assert!(of(n, y, z + z_more) >= base);
            prop_assert!(of(n + n_more, y, z) >= base);
        }
    }
}
