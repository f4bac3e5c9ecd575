//! Pages of the frame as a whole: scope, bays, stiffness, fatigue, movement.

use strutwork_model::explain::Page;

pub(super) const PAGES: &[Page] = &[
    Page {
        code: "D002",
        title: "outside scope",
        meaning: "Something a reader might expect is not checked by this version, or the model switches a check off, or a tube has no stresses because its section is given by properties alone, or no limit because its material has no yield strength. It is not a pass.",
        example: "Corrosion; a check with off = true in [checks.D022]; a tube of a material without yield strength.",
        remedy: "Have it judged by the reviewing engineer, give the missing data, or switch the check on again.",
    },
    Page {
        code: "D007",
        title: "an open bay breaks a ring of stiff ones",
        meaning: "A closed ring of braced or panelled faces round the frame carries torsion as a box. One open face, such as a cockpit opening, leaves it to bending of the corners.",
        example: "Floor, sides and bulkheads braced, the top open.",
        remedy: "Brace the opening, put a hoop or a stiff frame round it, or accept it: openings have reasons.",
    },
    Page {
        code: "D008",
        title: "one of the softest bays",
        meaning: "Every plane bay of the frame has a stiffness in shear, told as the G·t of a skin that would be as stiff. The softest ones are where a brace or a skin does most.",
        example: "An open bay of 500 × 400 mm of 25 × 2 tube: a skin of 0.4 kN/mm would do the same.",
        remedy: "See the report: bays are ranked and drawn.",
    },
    Page {
        code: "D011",
        title: "stiffness beside the roll stiffness",
        meaning: "A frame that twists lets only a share K_c/(K_c + K_s) of a shift of roll couple between the axles through to the tyres. Below 0.8 springs and anti-roll bars tune the car less than they seem to.",
        example: "K_f = K_r = 400, so K_s = 200 N·m/deg: a frame of 800 passes 80 %.",
        remedy: "A stiffer frame between the spring places; see the softest bays.",
    },
    Page {
        code: "D024",
        title: "what second order adds",
        meaning: "With `--second-order` each case is in balance on the frame as it bends: a tube that is pushed and leans bends more. The greatest moment and movement of each case are told beside those of first order. A case under which the frame buckles has no state in which it stands still: it has no forces, nothing of it is judged, and it is an error with the share of its loads that the frame does stand. EN 1993-1-1 5.2. A lean or a bow from welding (5.3) is not added: draw it into the joints, or add its side loads, where it matters.",
        example: "A cantilevered post at half its buckling load: its foot bends 1.8 times as much as first order says.",
        remedy: "Growth of a few per cent: nothing. Doubled or more: brace the frame, as it is half way to buckling. Refused: see S007.",
    },
    Page {
        code: "D050",
        title: "fatigue of a tube's end, a ranking",
        meaning: "The stress ranges between the pairs of cases of [fatigue.pairs], at the most strained fibre of each end of each tube, against the S-N curve of its detail category (EN 1993-1-9), added up by Miner's rule. Loads count as they are, without the margin of the basis. A sum above 1 exceeds the limit. The categories rest on tests of walls from 4 mm, so for thinner tube the sum ranks the weld ends and is no life. A pair that names a case that is not there is an error: nothing is ranked then.",
        example: "100 000 cycles of 60 MPa in category 36 with a partial factor of 1.35: 0.57.",
        remedy: "Bring the stress range down where the ranking begins: a gusset, a diagonal, a larger tube, a smoother weld. Name the detail category where the weld is a better one.",
    },
    Page {
        code: "D060",
        title: "a movement against a limit",
        meaning: "How far a joint moves, moves against another, or how much the distance of two joints changes, against a limit of [limits.NAME]. Loads count as they are, without the margin of the basis. A limit that names a case that is not there is an error.",
        example: "A door opening that may change by 2 mm and changes by 1.3 mm: 0.65.",
        remedy: "Stiffen the frame there; the softest bays (D008) say where it helps most. Or reconsider the limit: it is yours.",
    },
];
