//! Frames and differences that the tests of this crate share.

use std::fmt::Write as _;

use strutwork_loads::case::{Measure, Nature};
use strutwork_loads::{CaseBuilder, LoadCases};
use strutwork_model::Model;
use strutwork_model::model::Point;
use strutwork_model::spec::{ModelSpec, parse};
use strutwork_solve::solve_cases;
use strutwork_testkit::Folder;

/// A sequence of numbers from a seed, always the same: a multiplicative congruence.
pub(crate) struct Random(pub(crate) u64);

impl Random {
    /// Between two bounds.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }

    /// With this chance.
    pub(crate) fn chance(&mut self, chance: f64) -> bool {
        self.between(0.0, 1.0) < chance
    }
}

/// What a folder says.
pub(crate) fn spec(folder: &Folder) -> ModelSpec {
    let (spec, faults) = parse(&folder.files());
    assert!(faults.is_empty(), "{faults:?}");
    spec
}

/// The demo car.
pub(crate) fn demo() -> ModelSpec {
    use strutwork_model::files::{InputFile, InputFiles};
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-models/trials-car");
    let files = std::fs::read_dir(folder).expect("the demo car is there").filter_map(|entry| {
        let entry = entry.ok()?;
        let bytes = std::fs::read(entry.path()).ok()?;
        Some(InputFile::new(entry.file_name().to_string_lossy().into_owned(), bytes))
    });
    let (spec, faults) = parse(&InputFiles(files.collect()));
    assert!(faults.iter().all(|fault| fault.severity != strutwork_model::Severity::Error), "{faults:?}");
    spec
}

/// Five-point difference of a function of a relative change.
pub(crate) fn differences(value: impl Fn(f64) -> f64) -> f64 {
    let step = 4e-3;
    let [far_low, low, high, far_high] = [-2.0, -1.0, 1.0, 2.0].map(|steps| value(steps * step));
    (far_low - 8.0 * low + 8.0 * high - far_high) / (12.0 * step)
}

/// A skew box with braces of every kind.
pub(crate) fn random_frame(random: &mut Random) -> ModelSpec {
    let mut joints = String::from("joint,x_mm,y_mm,z_mm\n");
    for corner in 0..8 {
        let at = [0, 1, 2].map(|axis| if corner >> axis & 1 == 1 { 700.0 } else { 0.0 } + random.between(-80.0, 80.0));
        // The panel's corners stay flat.
        let z = if corner < 4 { 0.0 } else { at[2] };
        writeln!(joints, "J{corner},{},{},{z}", at[0], at[1]).expect("text");
    }
    let pairs = [(0, 1), (2, 3), (0, 2), (1, 3), (4, 5), (6, 7), (4, 6), (5, 7), (0, 4), (1, 5), (2, 6), (3, 7)];
    let braces = [(0, 5), (2, 7), (1, 7), (0, 6), (4, 7)];
    let mut tubes = String::from(
        "tube,from,to,section,material,roll_deg,release_from,release_to,offset_from_x_mm,offset_to_z_mm,\
         spring_from_ry_nm_per_deg,spring_to_rx_nm_per_deg\n",
    );
    let mut sections = String::new();
    for (place, (from, to)) in pairs.into_iter().chain(braces).enumerate() {
        let brace = place >= pairs.len();
        let pinned = brace && random.chance(0.5);
        let release = if pinned { "ry rz" } else { "" };
        let some = |random: &mut Random, low: f64, high: f64| {
            if random.chance(0.3) { random.between(low, high).to_string() } else { String::new() }
        };
        let (offset_from, offset_to) = (some(random, -25.0, 25.0), some(random, -25.0, 25.0));
        let spring_from = if pinned { String::new() } else { some(random, 20.0, 200.0) };
        let spring_to = some(random, 20.0, 200.0);
        let roll = random.between(-40.0, 40.0);
        writeln!(
            tubes,
            "T{place},J{from},J{to},s{place},mild,{roll},{release},{release},{offset_from},{offset_to},{spring_from},{spring_to}"
        )
        .expect("text");
        let (height, width, wall) = (random.between(25.0, 50.0), random.between(20.0, 40.0), random.between(1.5, 3.0));
        writeln!(
            sections,
            "[sections.s{place}]\nshape = \"rectangular\"\nheight_mm = {height}\nwidth_mm = {width}\nwall_mm = {wall}"
        )
        .expect("text");
    }
    let folder = Folder::default()
        .with(
            "model.toml",
            format!(
                "title = \"random\"\n[options]\nself_weight = true\n[materials.mild]\ngrade = \"S235JRH\"\n\
                 [materials.skin]\ngrade = \"5251-H22 sheet\"\n{sections}"
            ),
        )
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with("panels.csv", "panel,joints,material,thickness_mm\nfloor,J0 J1 J3 J2,skin,1.2\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nJ0,fixed,fixed,fixed,free,free,free\nJ1,free,fixed,fixed,free,free,free\n\
             J2,2000,free,fixed,free,free,free\nJ3,free,300,900,free,free,free\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\none,J7,300,-200,-900,20,0,10\ntwo,J4,0,500,200,0,30,0\n",
        )
        .with(
            "tube_loads.csv",
            "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\none,T4,global,0,100,-400\ntwo,T12,local,0,50,-80\n",
        )
        .with("temperatures.csv", "case,tube,rise_k,gradient_y_k_per_m,gradient_z_k_per_m\ntwo,T5,40,100,-300\n");
    spec(&folder)
}

/// Pure twist between the axles of a vehicle, as one case.
pub(crate) fn twisted(model: &Model) -> LoadCases {
    let mut case = CaseBuilder::new(model, "twist", "twist", Nature::Notional).expect("a case");
    case.twist_axles(1000.0).expect("a vehicle");
    case.balance().expect("balanced");
    LoadCases(vec![case.finish().expect("a case")])
}

/// The torsional stiffness by the slopes at the stations of the first case, N·m/rad.
pub(crate) fn stiffness(model: &Model, cases: &LoadCases) -> f64 {
    let results = solve_cases(model, cases).expect("solved");
    let Measure::Twist { front, rear, couple } = cases.0[0].measures[0] else { panic!("a twist") };
    let slope = |pair: [Point; 2]| {
        let rise = pair.map(|point| match point {
            Point::Joint(joint) => results.cases[0].displacements[joint][2],
            Point::OnBody { body, at } => {
                let (about, moved) = (model.bodies()[body].at, results.cases[0].bodies[body]);
                moved[2] + moved[3] * (at[1] - about[1]) - moved[4] * (at[0] - about[0])
            }
        });
        (rise[0] - rise[1]) / (pair[0].at(model)[1] - pair[1].at(model)[1])
    };
    (couple / (slope(front) - slope(rear))).abs()
}
