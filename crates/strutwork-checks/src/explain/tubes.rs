//! Pages of tubes: stress, sections, members.

use strutwork_model::explain::Page;

pub(super) const PAGES: &[Page] = &[
    Page {
        code: "D001",
        title: "stress against yield",
        meaning: "The greatest von Mises stress along each tube, from axial force, bending in both planes, torsion and shear, against yield divided by the margin: [options] yield_margin (1.5 where not set) with the basis `vehicle`, γ_M0 and γ_F with the basis `eurocode`. Where the material is weaker beside a weld, that strength holds. In an ultimate case a steel tube over yield is only warned of, as D021 judges its plastic strength. EN 1993-1-1 6.2.1(5); aluminium by EN 1999-1-1 6.2.1(5), with γ_M1 = 1.10 in place of γ_M0.",
        example: "120 MPa in S235 with margin 1.5: 120 / 156.7 = 0.77.",
        remedy: "A thicker wall, a larger tube, or a diagonal that turns bending into axial force.",
    },
    Page {
        code: "D010",
        title: "how an ultimate case is judged",
        meaning: "Belts, hoops and the like must hold once, permanently bent if need be. Steel tubes are held against the plastic strength of their sections and against buckling, without a margin (D021, D022); first yield (D001) is only warned of. Other tubes are held against yield itself. Welds and bolts keep γ_M2. A linear analysis does not show how far the frame gives.",
        example: "1.2 times yield at one joint of a belt case, and 0.9 of the plastic strength there: it holds, and stays bent.",
        remedy: "Where D021 or D022 is exceeded: a stronger tube, or a calculation with yielding or a test.",
    },
    Page {
        code: "D020",
        title: "class of a thin wall",
        meaning: "EN 1993-1-1 sorts cross-sections into four classes by the slenderness of their walls. In classes 1 and 2 the section yields through; in class 3 it yields at its edge; in class 4 its walls buckle first, and only an effective part of them counts (EN 1993-1-5). Tubes of class 4 in some case are named. A round tube of class 4 is a shell, which EN 1993-1-1 does not cover. Sections with walls under 3 mm, for which EN 1993-1-1 was not written, are named as well.",
        example: "60 × 60 × 1.5 in S355: c/t = 37 > 42 · 0.81 = 34.2, class 4 in compression.",
        remedy: "Nothing, if the strength suffices (D021, D022). Else a thicker wall, or a softer steel: a higher grade gains little where walls buckle.",
    },
    Page {
        code: "D021",
        title: "strength of the cross-section",
        meaning: "The forces at every station of a tube, margin included, against what its section can carry: axial force, bending about both axes, shear, torsion, and all together, plastic, elastic or effective by its class. Shear above half of its resistance weakens the rest. EN 1993-1-1 6.2. Walls of rectangular tubes over 72 ε times as high as thick may buckle in shear: EN 1993-1-5 section 5, with η = 1, for ends without rigid posts and no stiffeners between them. Where one force alone uses the section up, nothing is left for the others: 1000 is printed, and the clause and the message name that force with its own share. A flat bar bent about its strong axis may tip over (6.3.2), which is not looked at: outside scope. The strength is the parent material's; the zone beside a weld is D032. Forces below a thousand-millionth of what the section carries of them are rounding and count as none, here and in D001, D020 and D022. Utilisations of sums that are no straight lines grow faster than the load: 1.5 does not mean that the tube must be 1.5 times as strong. At most 1000 is printed.",
        example: "Square 30 × 2, S235, 25 kN of tension: 25 / 50.2 = 0.50.",
        remedy: "A larger tube or a thicker wall; a diagonal that turns bending into axial force.",
    },
    Page {
        code: "D022",
        title: "buckling of a tube",
        meaning: "A tube in compression bows out before it yields, and bending makes it worse. A flat bar bent about its strong axis is named here without any compression as well: it may tip over (6.3.2), which is outside of what is computed. N_Ed is the greatest compression along it, the moments are the greatest along it. EN 1993-1-1 6.3.1 by the curve of its route (cold formed c, hot finished a), and 6.3.3 (6.61), (6.62) with Annex B. Buckling length: the tube's own length, 0.75 or 0.9 of it for braces and chords of [members], or as tubes.csv gives it. Moment factors C_m are those of the tube's own moments, about each axis by what acts across that axis (point loads alone, or a spread load), or 0.9 with [members] sway = true. With `--second-order` forces and moments are those of the bent frame (D024); the buckling lengths stay those of the tube between its joints (EN 1993-1-1 5.2.2(7)b), no length for the sway of the frame is needed, and the growth of moments within a tube, which 6.3.3 adds as well, counts twice: on the safe side.",
        example: "Square 25 × 1.5, S235, cold formed, 1 m long: 15.0 kN; 0.4 m: 27.7 kN.",
        remedy: "A larger tube of thinner wall, a joint in the middle, a shorter span. A stronger steel gains little in a slender tube. If its ends are held better or worse than assumed, give its buckling length.",
    },
    Page {
        code: "D023",
        title: "slenderness of a tube in compression",
        meaning: "Buckling length over radius of gyration of each tube that some case presses. Above the limit of [members] slenderness_limit (180 where not set) it is a warning: such a tube bows visibly, hums, and is bent by a knock. It is no measure of strength: D022 is. A tube with λ̄ up to 0.2 is so stocky that buckling plays no part.",
        example: "Round 20 × 1.5, i = 6.6 mm, 1.3 m long: 197 > 180.",
        remedy: "A larger tube, or a joint in the middle. For ties that are pressed only a little, raise the limit or switch the check off, with a reason.",
    },
];
