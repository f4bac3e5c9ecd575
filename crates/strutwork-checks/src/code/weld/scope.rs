//! What EN 1993-1-8 does not cover in a fillet weld.

/// What a weld's scope is judged by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// The thinner of the two walls joined, m.
    pub wall: f64,
    /// Whether both parts are hollow sections.
    pub hollow: bool,
    /// a, m; `None` for a butt weld of full penetration.
    pub throat: Option<f64>,
    /// Length of the weld all round, m.
    pub length: f64,
    /// θ between tube and face, rad.
    pub angle: f64,
    /// The throat as strong as the tube's wall, m, where the tube stands on the wall of a hollow section; `None` elsewhere.
    pub full_strength: Option<f64>,
}

/// The least wall of hollow sections, and of other parts, m.
const LEAST_WALL: [f64; 2] = [2.5e-3, 4e-3];
/// The least throat, m.
const LEAST_THROAT: f64 = 3e-3;
/// The least angle between the faces of a fillet, degrees.
const LEAST_ANGLE: f64 = 60.0;

/// Why the code does not cover the weld, one reason an entry; empty where it does.
///
/// # Source
/// Walls of 4 mm and over, of hollow section joints 2.5 mm and over: EN 1993-1-8:2005 4.1(1); throats of 3 mm and over:
/// 4.5.2(2) (both from memory; 4 mm read in E. Ellobody, Finite Element Analysis and Design of Steel and Steel–Concrete
/// Composite Bridges, 2014, 3.10.3); faces at 60° to 120°: 4.3.2.1 (read there); lengths of 6 a and 30 mm and over: 4.5.1(2) (read
/// in several design guides); on the wall of a hollow section, which does not carry evenly round the weld, a throat as strong as
/// the tube's wall: 7.3.1(1), (4), (6) (a copy was read).
pub fn outside(sizes: &Sizes) -> Vec<String> {
    let mut reasons = Vec::new();
    let least = LEAST_WALL[usize::from(!sizes.hollow)];
    if sizes.wall < least * (1.0 - 1e-9) {
        let what = if sizes.hollow { "joints of hollow sections" } else { "welds" };
        let (wall, least) = (sizes.wall * 1e3, least * 1e3);
        reasons.push(format!("wall {wall:.2} mm, EN 1993-1-8 covers {what} from {least} mm"));
    }
    let Some(throat) = sizes.throat else { return reasons };
    if throat < LEAST_THROAT * (1.0 - 1e-9) {
        reasons.push(format!("throat {:.2} mm, less than the {} mm of 4.5.2(2)", throat * 1e3, LEAST_THROAT * 1e3));
    }
    let angle = sizes.angle.to_degrees();
    if angle < LEAST_ANGLE - 1e-6 {
        reasons.push(format!("tube at {angle:.1}° to the face, fillets are covered from 60° to 120° (4.3.2.1)"));
    }
    if let Some(full) = sizes.full_strength
        && throat < full * (1.0 - 1e-9)
    {
        let (throat, full) = (throat * 1e3, full * 1e3);
        reasons.push(format!(
            "throat {throat:.2} mm, less than the {full:.2} mm as strong as the wall of 7.3.1(4): the whole length cannot be counted on"
        ));
    }
    let least = (6.0 * throat).max(30e-3);
    if sizes.length < least * (1.0 - 1e-9) {
        reasons.push(format!("{:.1} mm long, less than {:.1} mm (4.5.1(2))", sizes.length * 1e3, least * 1e3));
    }
    reasons
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOUND: Sizes =
        Sizes { wall: 4e-3, hollow: false, throat: Some(3e-3), length: 0.1, angle: 1.2, full_strength: None };

    #[test]
    fn each_limit_is_said_by_itself_and_holds_at_its_value() {
        assert_eq!(outside(&SOUND), Vec::<String>::new());
        let at_limits = Sizes {
            wall: 2.5e-3,
            hollow: true,
            throat: Some(5e-3),
            length: 30e-3,
            angle: 60.0_f64.to_radians(),
            full_strength: Some(5e-3),
        };
        assert_eq!(outside(&at_limits), Vec::<String>::new());
        for (sizes, piece) in [
            (Sizes { wall: 3.9e-3, ..SOUND }, "wall 3.90 mm, EN 1993-1-8 covers welds from 4 mm"),
            (Sizes { wall: 2.4e-3, hollow: true, ..SOUND }, "wall 2.40 mm, EN 1993-1-8 covers joints of hollow"),
            (Sizes { throat: Some(2.9e-3), ..SOUND }, "throat 2.90 mm, less than the 3 mm"),
            (Sizes { angle: 0.8, ..SOUND }, "tube at 45.8° to the face"),
            (
                Sizes { full_strength: Some(3.1e-3), ..SOUND },
                "throat 3.00 mm, less than the 3.10 mm as strong as the wall",
            ),
            (Sizes { length: 29e-3, ..SOUND }, "29.0 mm long, less than 30.0 mm"),
            (Sizes { throat: Some(6e-3), length: 35e-3, ..SOUND }, "35.0 mm long, less than 36.0 mm"),
        ] {
            let found = outside(&sizes);
            assert_eq!(found.len(), 1, "{found:?}");
            assert!(found[0].starts_with(piece), "{found:?}");
        }
    }

    /// A butt weld of full penetration has no throat and no angle to be judged; its wall must still be covered.
    #[test]
    fn a_butt_weld_is_judged_by_its_wall_alone() {
        let butt = Sizes { throat: None, angle: 0.5, length: 1e-3, ..SOUND };
        assert_eq!(outside(&butt), Vec::<String>::new());
        assert_eq!(outside(&Sizes { wall: 2e-3, hollow: true, ..butt }).len(), 1);
    }
}
