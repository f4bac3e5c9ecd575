//! Slenderness of a member, against a limit of good practice.

use super::Member;
use crate::calculation::{Pages, Sink, Unit};
use crate::code::class::Class;

/// Writes λ = L_cr/i about y and z against a limit, and λ̄; gives the greater λ over the limit.
///
/// ```text
/// i = √(I/A),  λ = L_cr/i;  λ̄ = λ/λ_1,  λ_1 = π √(E/f_y)
/// ```
///
/// # Source
/// Elementary; EN 1993-1-1:2005 6.3.1.3 (from memory).
pub fn slender(member: &Member, limit: f64, pages: &mut Pages) -> f64 {
    let profile = &member.section.profile;
    profile.write_sizes(pages);
    profile.write_strength(pages);
    pages.given("E", profile.youngs, Unit::MPA, "Young's modulus");
    let put = [("E", profile.youngs, Unit::MPA), ("f_y", profile.yield_stress, Unit::MPA)];
    let first = std::f64::consts::PI * (profile.youngs / profile.yield_stress).sqrt();
    pages.step("λ_1", "π · √(E / f_y)", &put, first, Unit::ONE, "slenderness at which Euler's load is the yield load");
    let (lambda, radii) = (member.slenderness(), profile.radii());
    for (axis, name) in ["y", "z"].into_iter().enumerate() {
        let [l, second, i, own, relative] = ["L_cr", "I", "i", "λ", "λ̄"].map(|symbol| {
            let comma = if symbol == "L_cr" { "," } else { "_" };
            format!("{symbol}{comma}{name}")
        });
        pages.given(&l, member.axes[axis].length, Unit::MM, member.axes[axis].why);
        pages.given(&second, profile.second[axis], Unit::MM4, "second moment");
        let put = [(second.as_str(), profile.second[axis], Unit::MM4), ("A", profile.area, Unit::MM2)];
        pages.step(&i, &format!("√({second} / A)"), &put, radii[axis], Unit::MM, "radius of gyration");
        let put = [(l.as_str(), member.axes[axis].length, Unit::MM), (i.as_str(), radii[axis], Unit::MM)];
        pages.step(&own, &format!("{l} / {i}"), &put, lambda[axis], Unit::ONE, "slenderness");
        let put = [(own.as_str(), lambda[axis], Unit::ONE), ("λ_1", first, Unit::ONE)];
        let value = member.reduced(axis, Class::One).slenderness;
        pages.step(&relative, &format!("{own} / λ_1"), &put, value, Unit::ONE, "up to 0.2 buckling plays no part");
    }
    pages.given("λ_limit", limit, Unit::ONE, "[members] slenderness_limit: good practice, not strength");
    let used = lambda[0].max(lambda[1]) / limit;
    let put = [("λ_y", lambda[0], Unit::ONE), ("λ_z", lambda[1], Unit::ONE), ("λ_limit", limit, Unit::ONE)];
    pages.step("U", "max(λ_y, λ_z) / λ_limit", &put, used, Unit::ONE, "no measure of strength: that is D022");
    used
}
