//! Pages of trust.

use strutwork_model::explain::Page;

pub(super) const PAGES: &[Page] = &[
    Page {
        code: "T001",
        title: "relative residual",
        meaning: "How well the equations of a case are solved: what is left of K·u = f beside the size of its terms. Rounding leaves about 1e-16.",
        example: "Residual 3e-17: solved. Residual 1e-6: do not use the case.",
        remedy: "If it fails, look for tubes whose stiffness differs by many powers of ten.",
    },
    Page {
        code: "T002",
        title: "equilibrium",
        meaning: "All applied loads and all reactions, forces and moments about the origin, must add up to nothing. The sum is made without the stiffness matrix, so it checks the solution independently. In second order (`--second-order`) the couples that axial forces make on the bent tubes belong to the sum.",
        example: "1000 N applied down, reactions 600 N and 400 N up at the right places: balanced.",
        remedy: "If it fails, the results of the case are wrong: report it as a fault of the program, with the model.",
    },
    Page {
        code: "T003",
        title: "condition number",
        meaning: "How much rounding the stiffness magnifies. About 16 less its power of ten digits remain certain.",
        example: "1e6 leaves ten digits. 1e13 leaves three.",
        remedy: "Look for very soft or very stiff tubes, springs or releases that leave a joint barely held.",
    },
    Page {
        code: "T004",
        title: "freedom left out",
        meaning: "A joint's freedom that no tube stiffens and no load works on takes no part: it is left out and shown as 0. Pin-jointed trusses have such rotations by nature.",
        example: "Every tube at a joint has `ry rz` freed at that end: the joint's own rotation means nothing.",
        remedy: "Nothing, if the pins are meant. Otherwise take the releases away.",
    },
    Page {
        code: "T005",
        title: "stocky tube",
        meaning: "Thin-beam theory leaves shear deformation out, which is small for tubes longer than about ten times their depth. A shorter one is softer in truth than computed.",
        example: "A 200 mm stub of 40 mm tube: 5 times as long as deep.",
        remedy: "Usually harmless where few tubes are short. Judge results that hang on them with care.",
    },
    Page {
        code: "T006",
        title: "a wheel would have to pull",
        meaning: "In a case that claims to be physical a wheel's vertical force comes out negative. A tyre cannot pull on the road, so the car would tip or lift that wheel before.",
        example: "Cornering at 2 g with a high centre of gravity: the inner wheels lift.",
        remedy: "Lower the factor of the case (in [factors] of model.toml), or read the case as a limit that is not reached.",
    },
    Page {
        code: "T007",
        title: "rotations too large for a linear analysis",
        meaning: "The analysis takes displacements as small. Beyond about ten degrees its numbers only say that the frame is far too soft.",
        example: "A thin wire under a heavy load.",
        remedy: "Check the loads' units and the sections' sizes.",
    },
    Page {
        code: "T008",
        title: "nothing left where a free frame was held",
        meaning: "A frame that nothing holds is held, while it is solved, by six freedoms that determine its place and strain nothing. As its loads are balanced by inertia, the reactions there must vanish.",
        example: "1e-14 of the loads: rounding. 1e-3: the loads were not balanced.",
        remedy: "If it fails, the results of the case are wrong: report it as a fault of the program, with the model.",
    },
];
