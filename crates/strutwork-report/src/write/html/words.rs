//! The fixed sentences of the report: cautions, assumptions, what each figure of trust means.

use strutwork_loads::case::Nature;
use strutwork_model::Model;
use strutwork_model::model::{BasisKind, SoftWhen};

type Caution = (&'static str, &'static str);

/// What a reader of this model's report must have read before the numbers.
pub(super) fn cautions(model: &Model) -> Vec<Caution> {
    let mut said = FIRST.to_vec();
    said.push(match model.options().soft_joints.when {
        SoftWhen::Off => RIGID_JOINTS,
        SoftWhen::Band | SoftWhen::Always => SOFT_JOINTS,
    });
    said.extend(STRENGTH);
    if !model.panels().is_empty() {
        said.push(PANELS);
    }
    said.push(if model.bodies().is_empty() { LOCAL } else { BOLTS });
    if model.vehicle().is_some() {
        said.push(MASSES);
    }
    said.extend(LAST);
    said
}

const FIRST: [Caution; 1] = [(
    "Not a proof of safety.",
    "A computed beam model shows how an idealised frame answers idealised loads. It does not show that a frame is safe \
         to use, and neither does the absence of an exceeded limit in this report.",
)];

const RIGID_JOINTS: Caution = (
    "Joints are taken as rigid, and tubes as lines that meet in points.",
    "The walls of a real joint give. Such models usually come out stiffer than the built frame, by 5 to 20 % and more \
         where small braces meet wide faces (from memory, no source): measure the frame and compare.",
);

const SOFT_JOINTS: Caution = (
    "The softness of joints is an estimate.",
    "It is derived for narrow tubes on the face of wider ones and has no test behind it. It shows how far the torsional \
     stiffness may depend on joints; it does not bound what the built frame will show: measure the frame and compare.",
);

const STRENGTH: [Caution; 2] = [
    (
        "“Outside scope” is not a pass.",
        "The rules for fillet welds and hollow-section joints begin at walls of 4 mm and 2.5 mm (EN 1993-1-8, sections 4 \
         and 7, from memory). Thinner tubes are put through the same formulas and marked as outside scope: full-strength \
         welds, procedure tests and inspection have to carry that burden.",
    ),
    (
        "Fatigue is ranked at most, never proved.",
        "Welds crack under repeated loads at stresses far below yield. A margin on yield in rare loads does not cover it.",
    ),
];

const PANELS: Caution = (
    "A skin is only as stiff as its fixing, and only until it buckles.",
    "Slip of rivets, softness of adhesives, openings and curvature decide what a panel gives (section 7); the values of \
     fixings are estimates until a real bay has been racked. Past its buckling stress a skin no longer answers as computed, \
     and no strength of a skin, rivet or bond is a pass unless section 10 says against which limit it was held.",
);

const LOCAL: Caution = (
    "Local effects are not computed.",
    "Brackets, bolts, plates, tube walls under bolts, edges of holes and dents need their own check.",
);

const BOLTS: Caution = (
    "Bolts are judged one by one, and only where the model says what they are.",
    "Bolts of bodies that have a size and a class are held against EN 1993-1-8 (section 6); of others the loads are stated \
     (section 7). The moment at a mount, prying, brackets and the bending of plates, welds of sleeves and plates, threads in \
     what they are screwed into, dents, and bolts of links, belts and seats need their own check.",
);

const MASSES: Caution = (
    "A free vehicle's loads are as right as its masses.",
    "Where nothing holds the vehicle, its own inertia balances what acts. A mass that is missing, or in the wrong place, \
     changes the loads of every tube: compare the masses of section 4 with the scales.",
);

const LAST: [Caution; 2] = [
    (
        "Rules of the country and of the sport come on top.",
        "This report answers none of them. An engineer licensed for the purpose has to judge the model, the loads and \
         the results, and to sign in section 13.",
    ),
    (
        "Measure and inspect.",
        "EN 10219-2 allows walls up to 5 mm to depart by ±10 %. Measure tubes and gauges, weigh the frame, inspect every \
         weld, and compare with the tables of section 4.",
    ),
];

/// The conventions that the tables rest on.
pub(super) const CONVENTIONS: &[(&str, &str)] = &[
    ("Units", "mm, kg, N, N·m, MPa (N/mm²), degrees, g = 9.80665 m/s²."),
    ("Axes", "x forward, y left, z up, right-handed (ISO 8855); the origin is the model's own."),
    (
        "Local axes of a tube",
        "x from its first joint to its second; z in the vertical plane through x, on the upper side; y = z × x; then turned \
         by the roll angle. A tube within 0.1° of vertical: z along −x when it points up, along +x when it points down.",
    ),
    (
        "Forces in a tube",
        "What the part toward the second joint exerts on the part toward the first: N is positive in tension; Vy, Vz, T, \
         My, Mz along and about local +y, +z, +x, +y, +z.",
    ),
    ("Sections", "Height along local z, width along local y. Iy resists bending in the local x–z plane."),
    ("Reactions", "What the supports exert on the frame, global axes."),
    (
        "Bolts of bodies",
        "What the body exerts on the frame at the joint, global axes. Along: the part along the bolt's axis, positive in the \
         axis's own direction; which way parts the joint depends on where the bolt's head is. Across: the rest.",
    ),
    (
        "Suspension links",
        "Force along the link: tension positive. Its vector: what the link exerts on the frame at its chassis end.",
    ),
    (
        "Panels",
        "Shear flow: force per length of edge, positive where the frame closes the angle at the panel's first joint. Edge 1 runs \
         from the first joint to the second, and so on round.",
    ),
    ("Torsional stiffness", "Couple divided by the twist between the two load stations."),
];

/// A basis by its name.
pub(super) const fn basis_name(kind: BasisKind) -> &'static str {
    match kind {
        BasisKind::Vehicle => "vehicle practice",
        BasisKind::Eurocode => "Eurocode partial factors",
    }
}

/// What a basis means.
pub(super) const fn basis(kind: BasisKind) -> &'static str {
    match kind {
        BasisKind::Vehicle => {
            "Dynamic factors stand in the load cases. In a case of service all that acts is multiplied by one margin on yield, \
             and strengths are divided by 1. An ultimate case has to be survived once, bent for good if need be: it has no \
             margin, and bolts and welds, which break without yielding first, keep their partial factor. Eurocode formulas are \
             used for resistances alone."
        }
        BasisKind::Eurocode => {
            "Strengths are divided by the partial factors of EN 1993. What acts in a service case that is derived from the \
             vehicle is multiplied by one factor on loads; the cases of loads.csv give design values and are taken as they \
             stand; an ultimate case is an accidental one, with a factor of 1 on loads."
        }
    }
}

/// What a case claims, for a reader who has not met the word.
pub(super) const fn nature(nature: Nature) -> &'static str {
    match nature {
        Nature::Plain => "loads as the model's author wrote them",
        Nature::Physical => "meant as something the vehicle can meet",
        Nature::Ultimate => "something the vehicle must survive once, permanently bent if need be",
        Nature::Notional => "cannot occur as it stands; shows one property by itself",
    }
}

/// What each figure of trust means.
pub(super) const TRUST: &[(&str, &str)] = &[
    (
        "Residual",
        "what is left when the displacements are put back into the equations, over the size of the terms. Rounding alone \
         leaves about 10⁻¹⁶; up to 10⁻¹⁰ is accepted. It speaks of the arithmetic, not of the model.",
    ),
    (
        "Imbalance",
        "applied loads and reactions added up about the origin, over the sum of their sizes. Both are summed without the \
         stiffness matrix; up to 10⁻⁸ is accepted. In second order the couples that axial forces make on the bent \
         tubes belong to the sum.",
    ),
    (
        "Condition",
        "how far an error of the input can grow in the solution. About 16 less its power of ten is the number of digits \
         that can be relied on; above 10¹² the report warns.",
    ),
    (
        "Smallest pivot",
        "the softest freedom met while solving, over its own stiffness. Near 10⁻¹² the frame is close to a mechanism.",
    ),
    (
        "Energy",
        "half the work of the loads on the displacements; the strain energy of the frame where nothing is moved.",
    ),
    (
        "Left over",
        "in a free case, what is found at the six freedoms that hold the vehicle inside while it is solved: a balanced case \
         leaves nothing but rounding there, up to 10⁻⁹ of the loads.",
    ),
    (
        "Slender tubes",
        "thin-beam theory is meant for tubes at least ten times as long as deep; shorter ones are listed, as they are \
         softer than computed.",
    ),
];

/// Where the balance of free cases comes from.
pub(super) const INERTIA_RELIEF: &str = "L. Liao, A Study of Inertia Relief Analysis, AIAA 2011-2002 (abstract read: applied \
                                         loads balanced by rigid-body inertia); the equations are derived.";
/// Where the buckling stress of panels comes from.
pub(super) const PANEL_BUCKLING: &str = "S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd edition 1961, section \
                                         9.7 (from memory): k π²E/(12(1−ν²)) (t/b)², k = 5.34 + 4 (b/a)².";
/// Where the sentence on boxes with an open side comes from.
pub(super) const CLOSED_BOX: &str =
    "D. C. Barton and J. D. Fieldhouse, Automotive Chassis Engineering, Springer 2018, page 228, equations 4.3 to 4.8.";

/// Where the methods of the report itself come from.
pub(super) const METHODS: &[&str] = &[
    "Axes: ISO 8855:2011, Road vehicles: vehicle dynamics and road-holding ability: vocabulary (from memory).",
    "Standard gravity 9.806 65 m/s²: ISO 80000-3:2019, item 3-9.2 (clause from memory).",
    "Wall tolerance ±10 % for walls up to 5 mm: EN 10219-2, tolerance table as reprinted by suppliers.",
    "Colour scale of utilisation and bays: own ramp of evenly falling lightness in CIE L*C*h.",
];
