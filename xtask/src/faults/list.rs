//! The faults that are planted: one slip of a pen each, of the kind that compiles and looks right.

use crate::failure::Failure;

/// A fault: in this file, this text becomes that.
pub(super) struct Fault {
    /// What is wrong then.
    pub(super) what: &'static str,
    /// The file, from the root.
    pub(super) file: &'static str,
    /// What stands there, once.
    pub(super) right: &'static str,
    /// What is planted.
    pub(super) wrong: &'static str,
}

const fn fault(what: &'static str, file: &'static str, right: &'static str, wrong: &'static str) -> Fault {
    Fault { what, file, right, wrong }
}

const STIFFNESS: &str = "crates/strutwork-element/src/beam/stiffness.rs";
const DEFORMATION: &str = "crates/strutwork-element/src/beam/deformation.rs";
const FIXED_END: &str = "crates/strutwork-element/src/beam/fixed_end.rs";
const ENDS: &str = "crates/strutwork-element/src/beam/ends.rs";
const MASS: &str = "crates/strutwork-element/src/beam/mass.rs";

/// All of them, through every part of the solver.
const FAULTS: &[Fault] = &[
    fault("shear from a turn of the far end has the wrong sign", STIFFNESS, "set(v, r + 6, b);", "set(v, r + 6, -b);"),
    fault("G·J/L is doubled", STIFFNESS, "(3, self.shear * self.j / l)", "(3, 2.0 * self.shear * self.j / l)"),
    fault(
        "Iy and Iz are exchanged",
        STIFFNESS,
        "(self.iz, 1, 5, 1.0), (self.iy, 2, 4, -1.0)",
        "(self.iy, 1, 5, 1.0), (self.iz, 2, 4, -1.0)",
    ),
    fault(
        "of a tube with soft ends, 4EI/L is 3EI/L at one end",
        DEFORMATION,
        "k[(first + 1, first + 1)] = 4.0 * c;",
        "k[(first + 1, first + 1)] = 3.0 * c;",
    ),
    fault(
        "fixed-end moment of an even load: L²/11 for L²/12",
        FIXED_END,
        "f[r] = sign * l * l * (3.0 * a + 2.0 * b) / 60.0;",
        "f[r] = sign * l * l * (3.0 * a + 2.0 * b) / 55.0;",
    ),
    fault(
        "fixed-end moment of a point load takes a for b",
        FIXED_END,
        "f[r] = sign * (p * a * b * b / l2",
        "f[r] = sign * (p * a * a * b / l2",
    ),
    fault(
        "a warm tube pulls where it should push",
        FIXED_END,
        "f[0] = -push;\n                f[6] = push;",
        "f[0] = push;\n                f[6] = -push;",
    ),
    fault("releases are ignored", ENDS, "Some(0.0) => released.push(i),", "Some(0.0) => {}"),
    fault("end springs are twice as stiff", ENDS, "springs.push(stiffness);", "springs.push(2.0 * stiffness);"),
    fault(
        "the arm of an offset has the wrong sign",
        ENDS,
        "moment += Vector3::from(*arm).cross(&force);",
        "moment -= Vector3::from(*arm).cross(&force);",
    ),
    fault(
        "a panel's G·t is half of it",
        "crates/strutwork-element/src/panel/quadrilateral.rs",
        "area / (skin.shear * skin.thickness) + slant + slip",
        "area / (0.5 * skin.shear * skin.thickness) + slant + slip",
    ),
    fault(
        "consistent mass: 13 for 22 of L²/420",
        MASS,
        "set(v, r, sign * 22.0 * l * unit);",
        "set(v, r, sign * 13.0 * l * unit);",
    ),
    fault(
        "lumped mass: a third for a half",
        MASS,
        "m[(end + u, end + u)] = whole / 2.0;",
        "m[(end + u, end + u)] = whole / 3.0;",
    ),
    fault(
        "the wall's part of J is left out of a hollow section",
        "crates/strutwork-model/src/model/section/hollow.rs",
        "let j = t.powi(3) * line / 3.0 + 2.0 * k * cell;",
        "let j = 2.0 * k * cell;",
    ),
    fault(
        "roll turns y the other way",
        "crates/strutwork-element/src/axes.rs",
        "let rolled_y = y * cos + z * sin;\n        let rolled_z = z * cos - y * sin;",
        "let rolled_y = y * cos - z * sin;\n        let rolled_z = z * cos + y * sin;",
    ),
    fault(
        "support springs are twice as stiff",
        "crates/strutwork-solve/src/assembly/system.rs",
        "self.add_support_spring(numbering, support.joint.index(), dof, stiffness);",
        "self.add_support_spring(numbering, support.joint.index(), dof, 2.0 * stiffness);",
    ),
    fault(
        "a prescribed movement pushes the wrong way",
        "crates/strutwork-solve/src/assembly/load_vectors.rs",
        "numbering.gather(joint, &force, -1.0, &mut right);",
        "numbering.gather(joint, &force, 1.0, &mut right);",
    ),
    fault(
        "bushes stretch by the joint alone",
        "crates/strutwork-solve/src/elements/bush.rs",
        "std::array::from_fn(|dof| point[dof] - joint[dof])",
        "std::array::from_fn(|dof| -joint[dof])",
    ),
    fault(
        "geometric stiffness a tenth too small",
        "crates/strutwork-element/src/beam/geometric.rs",
        "let share = force * weight * l / 2.0;",
        "let share = force * weight * l / 2.2;",
    ),
    fault(
        "moments along a tube grow with the wrong sign",
        "crates/strutwork-element/src/beam/recovery.rs",
        "[-f[4], -f[2], 0.0, 0.0],",
        "[-f[4], f[2], 0.0, 0.0],",
    ),
    fault(
        "inertia pushes where it should hold back",
        "crates/strutwork-loads/src/build/inertia.rs",
        "self.act(acceleration.map(|a| -a))?;",
        "self.act(acceleration)?;",
    ),
    fault(
        "gravity pulls with 9.8 in place of 9.80665 m/s²",
        "crates/strutwork-model/src/units.rs",
        "9.806_65;",
        "9.8;",
    ),
];

/// The faults whose description contains `part`; a failure where there is none, for then nothing would be tried.
pub(super) fn named(part: &str) -> Result<Vec<&'static Fault>, Failure> {
    let found: Vec<&Fault> = FAULTS.iter().filter(|fault| fault.what.contains(part)).collect();
    if found.is_empty() {
        return Err(Failure::Broken(vec![format!(
            "no fault's description contains `{part}`; they stand in xtask/src/faults/list.rs"
        )]));
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A list that has fallen behind the code would plant nothing.
    #[test]
    fn every_fault_still_finds_its_place() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("xtask stands in the project");
        for fault in FAULTS {
            let text = std::fs::read_to_string(root.join(fault.file)).expect(fault.file);
            let product = text.split("#[cfg(test)]").next().unwrap_or_default();
            assert_eq!(product.matches(fault.right).count(), 1, "{}: {}", fault.file, fault.what);
            assert_ne!(fault.right, fault.wrong);
        }
    }

    #[test]
    fn a_part_that_fits_no_fault_is_refused() {
        assert_eq!(named("").map(|all| all.len()).unwrap_or_default(), FAULTS.len());
        assert_eq!(named("Iy and Iz").map(|all| all.len()).unwrap_or_default(), 1);
        let refused = named("iy AND iz").map(|all| all.len()).expect_err("no fault has these words");
        assert!(refused.to_string().contains("`iy AND iz`"), "{refused}");
    }
}
