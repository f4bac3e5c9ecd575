//! How the force of each brace is balanced: beside it (K, N), through the chord (X), or by the chord's shear (T, Y).

/// One brace of a plane, as far as the balance asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pushed {
    /// What the brace pushes square into the chord, N sinθ, compression positive, N.
    pub push: f64,
    /// Whether it stands on the first side of the chord; `false`: on the other.
    pub first_side: bool,
}

/// Parts of a brace's force that are balanced in each way; they add up to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// Beside it, by braces of the same side that pull where it pushes.
    pub k: f64,
    /// Across the chord, by braces of the other side that push as it pushes.
    pub x: f64,
    /// By shear in the chord.
    pub y: f64,
}

/// The shares of every brace of one plane.
///
/// What pushes on one side is first balanced by what pulls on the same side, each brace in proportion to its push; what is left
/// on either side is balanced across the chord where both sides push or both pull; the rest goes into the chord as shear.
///
/// # Source
/// A brace that gives part of its load as a K joint and part as a T, Y or X joint is judged by the linear sum of the parts, told
/// apart by the components square to the chord: Packer, Wardenier, Zhao, van der Vegte & Kurobane, CIDECT Design Guide 3, 2nd ed.
/// (2009), section 4.1, page 34 (the page was read). That guide lets components that differ by up to 20 % pass for a K joint; here
/// the difference is always judged by itself, which is on the safe side and without a jump. EN 1993-1-8 Figure 7.1 shows the
/// types.
pub fn shares(braces: &[Pushed]) -> Vec<Shares> {
    let sum = |first: bool, pushing: bool| {
        let of = braces.iter().filter(|brace| brace.first_side == first && (brace.push > 0.0) == pushing);
        of.map(|brace| brace.push.abs()).sum::<f64>()
    };
    let [near, far] = [true, false].map(|side| Side::new(sum(side, true), sum(side, false)));
    let across = if near.left * far.left > 0.0 { near.left.abs().min(far.left.abs()) } else { 0.0 };
    braces
        .iter()
        .map(|brace| {
            let side = if brace.first_side { &near } else { &far };
            let total = if brace.push > 0.0 { side.pushing } else { side.pulling };
            if total <= 0.0 {
                return Shares { k: 0.0, x: 0.0, y: 1.0 };
            }
            let k = side.balanced() / total;
            // Only the braces of the side's greater sense have anything left to be balanced elsewhere.
            let over = (brace.push > 0.0) == (side.left > 0.0);
            let x = if over { across / total } else { 0.0 };
            Shares { k, x, y: (1.0 - k - x).max(0.0) }
        })
        .collect()
}

/// Sums of one side of the chord, N.
struct Side {
    pushing: f64,
    pulling: f64,
    /// What is not balanced on this side, pushing positive.
    left: f64,
}

impl Side {
    fn new(pushing: f64, pulling: f64) -> Self {
        Self { pushing, pulling, left: pushing - pulling }
    }

    fn balanced(&self) -> f64 {
        self.pushing.min(self.pulling)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(braces: &[(f64, bool)]) -> Vec<[f64; 3]> {
        let pushed: Vec<Pushed> = braces.iter().map(|&(push, first_side)| Pushed { push, first_side }).collect();
        shares(&pushed).into_iter().map(|share| [share.k, share.x, share.y]).collect()
    }

    #[test]
    fn the_plain_types() {
        assert_eq!(of(&[(5.0, true)]), [[0.0, 0.0, 1.0]]);
        assert_eq!(of(&[(5.0, true), (-5.0, true)]), [[1.0, 0.0, 0.0]; 2]);
        assert_eq!(of(&[(5.0, true), (5.0, false)]), [[0.0, 1.0, 0.0]; 2]);
        // One pushes down from above, the other pulls down from below: both go into the chord.
        assert_eq!(of(&[(5.0, true), (-5.0, false)]), [[0.0, 0.0, 1.0]; 2]);
    }

    #[test]
    fn a_mixed_joint_is_divided() {
        // 10 up here, 6 of it beside; 3 of the other 4 across; 1 is left.
        let found = of(&[(10.0, true), (-6.0, true), (3.0, false)]);
        assert_eq!(found[1], [1.0, 0.0, 0.0]);
        assert_eq!(found[2], [0.0, 1.0, 0.0]);
        for (value, expected) in found[0].iter().zip([0.6, 0.3, 0.1]) {
            assert!((value - expected).abs() < 1e-15);
        }
    }

    #[test]
    fn shares_always_add_up() {
        let found = of(&[(3.0, true), (-7.0, true), (2.5, true), (-1.0, false), (0.0, false)]);
        for share in found {
            assert!((share.iter().sum::<f64>() - 1.0).abs() < 1e-15 && share.iter().all(|part| *part >= 0.0));
        }
    }
}
