//! Pages of what is welded: joints, welds, the strength beside them.

use strutwork_model::explain::Page;

pub(super) const PAGES: &[Page] = &[
    Page {
        code: "D030",
        title: "a tube on the wall of another",
        meaning: "Where a tube is welded to the side of another, the wall of that other one (the chord) often bears less than the tube itself. Its forces at the joint are held against EN 1993-1-8 section 7: yielding of the chord's face, crushing of its side walls, punching, shear of the chord, and breaking of the tube where its load crowds to its corners. The chord is the largest tube that runs straight through the joint. How the tubes of one plane balance each other decides on the kind of joint (T, Y, X, K, N), part by part. Limits of the tables that are passed, walls under 2.5 mm among them, are named and the result is a screening, no pass; so are corners where no tube runs through and joints with tubes in several planes, which are beyond the code.",
        example: "A 25 × 1.5 diagonal at 45° on the face of a 40 × 2 rail in S235: the face bears 14.95 kN, 47 % of what the diagonal itself bears.",
        remedy: "A wider tube on the same chord (side walls carry from a width ratio of 0.85 on), a thicker chord, two diagonals that meet so that they balance each other, or a plate on the chord's face, judged by hand. Left out: shear and torsion of the tube, stiffeners, the welds.",
    },
    Page {
        code: "D031",
        title: "the weld at a tube's end",
        meaning: "The weld all round the end of a tube, as a closed line with the throat of [welds], against EN 1993-1-8: a fillet by the directional or the simplified method, a butt weld of full penetration as its weaker part. A tube that runs through a joint in two straight pieces has no weld of its own there. Left out: the wall that it stands on (D030), fatigue, distortion, faults of the weld. The code covers walls from 2.5 mm (bars 4 mm), throats from 3 mm, angles from 60 degrees, and on the wall of a tube only throats as strong as the tube's own wall; what is less is printed as outside scope and is no pass.",
        example: "A 1.5 mm tube pulled with 60 N/mm of its outline: a fillet of 1.5 mm carries it in S235, outside scope.",
        remedy: "A thicker throat (not over one and a half times the wall), a larger tube, a butt weld, or a plate that shares the load. Have thin welds tested on coupons.",
    },
    Page {
        code: "D032",
        title: "strength beside a weld",
        meaning: "Aluminium, and steel that owes its strength to cold work or heat treatment, is weaker beside a weld. From each joint with a weld, as far as the zone reaches, the von Mises stress is held against the yield and the ultimate strength that are left there, never the parent's. TIG and MIG differ for aluminium: see process in [welds]. Left out: brackets welded on between joints. A material that does not say what it keeps is printed as outside scope.",
        example: "6082-T6 of 250 MPa keeps 125 MPa beside a MIG weld and 100 MPa beside a TIG weld.",
        remedy: "Move the joint to where less acts, take thicker tube near it, or another alloy. For a material of your own give haz_yield_mpa and haz_ultimate_mpa with their source; equal to the parent's where nothing is lost.",
    },
];
