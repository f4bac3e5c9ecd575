//! Pages of bolts and panels.

use strutwork_model::explain::Page;

pub(super) const PAGES: &[Page] = &[
    Page {
        code: "D003",
        title: "a panel buckles",
        meaning: "A thin panel takes shear only until it buckles. The stress is held against that of a flat panel with simply supported edges. Above it the panel goes on by diagonal tension alone, far more softly, so that the linear answer of the case no longer holds.",
        example: "A 1 mm aluminium panel of 500 × 400 mm buckles at about 3 MPa.",
        remedy: "Stiffen or divide the panel, take a thicker one, or leave it out of the model and count on the tubes alone.",
    },
    Page {
        code: "D004",
        title: "shear stress of a panel",
        meaning: "Shear flow over thickness, against the shear strength of the material over the margin; for a metal yield over √3.",
        example: "Glass mat with 62 MPa and margin 1.5: 41 MPa allowed.",
        remedy: "A thicker panel, or a diagonal beside it.",
    },
    Page {
        code: "D005",
        title: "load of one fastener",
        meaning: "Shear flow times pitch, against the shear strength of one rivet or screw over the margin, where the fixing gives one.",
        example: "20 N/mm at a pitch of 50 mm: 1000 N each.",
        remedy: "A closer pitch or stronger fasteners. Without strength_n in [fixings] nothing is held against it.",
    },
    Page {
        code: "D006",
        title: "shear stress of a bond line",
        meaning: "Shear flow over the width of the line, against the shear strength of the adhesive over the margin, where the fixing gives one. Peel, age and lasting load are left out.",
        example: "20 N/mm on 25 mm: 0.8 MPa.",
        remedy: "A wider line or a stronger adhesive. Without strength_mpa in [fixings] nothing is held against it.",
    },
    Page {
        code: "D009",
        title: "load of a bolt, not checked",
        meaning: "The greatest load over all cases of a bolted joint of a body whose bolt has no size or no property class. It is stated and held against nothing.",
        example: "2.1 kN across a bolt that is not named.",
        remedy: "Give size and grade in [bolts.NAME] and name the bolt in bodies.csv; D040 and D041 check it then.",
    },
    Page {
        code: "D040",
        title: "strength of a bolt",
        meaning: "The bolt of a body at one of its joints, in each case: shear, tension, both together, bearing on the wall, plate or sleeve that it goes through, and pulling through it, after EN 1993-1-8 Table 3.4; for the face of a tube after 7.5. The force along the bolt is taken as tension whichever way it acts. Without an axis the whole force is judged in its worst direction. Where the edge distance is not given the least that is allowed is taken. The moment at a mount is not carried by one bolt alone: where there is one it is printed as outside scope. Prying, bending and welds of plates and sleeves, and fatigue of the bolt are left out.",
        example: "M10 8.8 with 8 kN across it and 15 kN along it, γ_M2 = 1.25: 8/22.3 + 15/(1.4 · 33.4) = 0.68.",
        remedy: "A larger bolt or a higher class, the shank in the shear plane, two shear planes, a thicker plate, a sleeve welded into the tube, more distance to the edge.",
    },
    Page {
        code: "D041",
        title: "what a bolt clamps",
        meaning: "A thin tube gives way when a bolt is tightened across it: its faces bend, the preload is lost and the bolt works loose. A sleeve welded through both walls takes it. With `preload_n` the tube's face or the sleeve is held against it; without, what it bears is told beside what a fully tightened bolt pulls with, 0.7 f_ub A_s. With `friction` as well it is told whether the joint slips, which is no limit of strength. A warning says that a wall under 3 mm is clamped without a sleeve, or that it is not given what the bolt clamps.",
        example: "M10 8.8 across a tube 30 × 1.5: its face gives way at 4.3 kN; the bolt can pull with 32 kN.",
        remedy: "Weld a sleeve into the tube, such as 16 × 2.5 for M10, or bolt to a plate that is welded to it; give `clamps` in [bolts.NAME].",
    },
];
