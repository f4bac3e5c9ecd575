//! The frames that variants are held against, solved anew from their own folders.

use std::sync::Arc;

use strutwork_loads::LoadCases;
use strutwork_model::{Model, TubeId};
use strutwork_solve::reanalysis::{TubeSet, TubeStiffness, Variant};
use strutwork_solve::solve_cases;
use strutwork_testkit::{Folder, Lattice, buggy};

/// Walls of the rails and of the braces, mm, and the thickness of the floor.
pub(crate) type Sizes = [f64; 3];

/// The buggy with a bolted module on a rigid and on soft bolts, a floor panel, an offset brace, springs and releases, held in
/// part at one joint, on a spring at another, and at a joint that is bolted to the module.
pub(crate) fn rich([rail, brace, floor]: Sizes) -> Folder {
    let model = format!(
        "title = \"rich\"\n[options]\nself_weight = false\n[materials.mild]\ngrade = \"S235JRH\"\n\
         [sections.rail]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = {rail}\n\
         [sections.brace]\nshape = \"rectangular\"\nwidth_mm = 25.0\nheight_mm = 40.0\nwall_mm = {brace}\n"
    );
    let joints = "joint,x_mm,y_mm,z_mm\nFL,1800,400,0\nFR,1800,-400,0\nRL,0,420,0\nRR,0,-420,0\nFLT,1780,380,350\n\
                  FRT,1780,-380,350\nRLT,20,400,350\nRRT,20,-400,350\n";
    let mut tubes = String::from(
        "tube,from,to,section,material,group,release_from,release_to,roll_deg,offset_from_z_mm,offset_to_z_mm,\
         spring_from_ry_nm_per_deg,spring_to_rz_nm_per_deg,spring_to_ux_n_per_mm\n",
    );
    let plain = [
        "rail-left,RL,FL,rail",
        "rail-right,RR,FR,rail",
        "top-left,RLT,FLT,rail",
        "top-right,RRT,FRT,rail",
        "front-low,FL,FR,rail",
        "front-top,FLT,FRT,rail",
        "rear-low,RL,RR,rail",
        "rear-top,RLT,RRT,rail",
        "upright-FL,FL,FLT,rail",
        "upright-FR,FR,FRT,rail",
        "upright-RL,RL,RLT,rail",
        "upright-RR,RR,RRT,rail",
    ];
    for row in plain {
        tubes.push_str(&format!("{row},mild,rails,,,,,,,,\n"));
    }
    tubes.push_str("diagonal-left,RL,FLT,brace,mild,braces,ry,ry rz,20,,,,,\n");
    tubes.push_str("diagonal-right,RR,FRT,brace,mild,braces,,,0,30,-20,,,\n");
    tubes.push_str("diagonal-floor,RL,FR,brace,mild,braces,,,0,,,400,250,20000\n");
    tubes.push_str("diagonal-top,RLT,FRT,brace,mild,braces,uz,rx ry,0,15,,,300,\n");
    tubes.push_str("diagonal-front,FL,FRT,brace,mild,braces,,,45,,,,,\n");
    tubes.push_str("diagonal-rear,RL,RRT,brace,mild,braces,rx ry rz,ry rz,0,,,,,\n");
    Folder::default()
        .with("model.toml", model)
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,axis\nmodule,RL,,,,y\nmodule,RR,,,,y\nmodule,RLT,,,,\n\
             module,RRT,20000,20000,15000,x\n",
        )
        .with("panels.csv", format!("panel,joints,material,thickness_mm\nfloor,RL RR FR FL,mild,{floor}\n"))
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nRL,fixed,fixed,fixed,free,free,free\nFR,free,fixed,800,free,free,free\n\
             FLT,fixed,free,fixed,free,20,free\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\none,FRT,100,-300,-900,0,0,0\ntwo,FL,0,500,200,30,20,10\n\
             three,RR,250,0,-100,0,40,0\nfour,FRT,0,0,700,0,0,0\nfive,RRT,1,2,3,4,5,6\n",
        )
}

pub(crate) struct Frame {
    pub(crate) model: Arc<Model>,
    pub(crate) cases: LoadCases,
}

impl Frame {
    pub(crate) fn of(folder: &Folder) -> Self {
        let model = Arc::new(folder.model());
        let cases = strutwork_loads::derive_plain(&model).unwrap();
        Self { model, cases }
    }

    pub(crate) fn group(&self, group: &str) -> Vec<TubeId> {
        self.model.tubes().iter_with_id().filter(|(_, tube)| tube.group == group).map(|(id, _)| id).collect()
    }

    pub(crate) fn stiffness(&self, tube: TubeId) -> TubeStiffness {
        let row = &self.model.tubes()[tube];
        TubeStiffness::new(&self.model.sections()[row.section], &self.model.materials()[row.material])
    }
}

/// Greatest difference of any displacement from those of the frame solved anew, over the greatest of its case and kind.
#[track_caller]
pub(crate) fn difference(frame: &Frame, joints: impl Fn(usize) -> Vec<[f64; 6]>) -> f64 {
    let anew = solve_cases(&frame.model, &frame.cases).unwrap();
    let mut worst = 0.0_f64;
    for (case, result) in anew.cases.iter().enumerate() {
        let got = joints(case);
        for kind in [0..3, 3..6] {
            let values =
                |rows: &[[f64; 6]]| -> Vec<f64> { rows.iter().flat_map(|row| row[kind.clone()].to_vec()).collect() };
            let expected: Vec<f64> = values(&result.displacements.iter().copied().collect::<Vec<_>>());
            let size = expected.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
            for (a, b) in values(&got).iter().zip(&expected) {
                worst = worst.max(if a.is_nan() { f64::INFINITY } else { (a - b).abs() / size });
            }
        }
    }
    worst
}

/// A lattice whose edges and diagonals have areas of their own.
pub(crate) fn lattice(edges: f64, diagonals: f64) -> Folder {
    let folder = Lattice { cubes: [4, 2, 2], cases: 8 }.folder();
    let tubes = String::from_utf8(folder.files().get("tubes.csv").unwrap().to_vec()).unwrap();
    let section = |name: &str, times: f64| {
        format!(
            "[sections.{name}]\nshape = \"properties\"\narea_mm2 = {}\niy_mm4 = {}\niz_mm4 = {}\nj_mm4 = {}\n",
            214.0 * times,
            27200.0 * times,
            27200.0 * times,
            45400.0 * times
        )
    };
    folder.with("tubes.csv", tubes.replace("bar,plain,diagonals", "brace,plain,diagonals")).with(
        "model.toml",
        format!(
            "title = \"lattice\"\n[options]\nself_weight = false\n{}{}[materials.plain]\ne_mpa = 210000.0\n\
                 g_mpa = 81000.0\ndensity_kg_m3 = 7850.0\nyield_mpa = 235.0\nultimate_mpa = 360.0\n",
            section("bar", edges),
            section("brace", diagonals)
        ),
    )
}

pub(crate) fn lattice_variants(count: usize) -> (Frame, Vec<(f64, f64)>) {
    let times = |i: usize| (0.6 + 0.1 * (i % 11) as f64, 1.6 - 0.07 * (i % 13) as f64);
    (Frame::of(&lattice(1.0, 1.0)), (0..count).map(times).collect())
}

pub(crate) fn with_times(frame: &Frame, sets: [(TubeSet, TubeId); 2], (edges, diagonals): (f64, f64)) -> Variant {
    let scaled = |tube: TubeId, times: f64| {
        let s = frame.stiffness(tube);
        TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz }
    };
    Variant::new().with(sets[0].0, scaled(sets[0].1, edges)).with(sets[1].0, scaled(sets[1].1, diagonals))
}

/// The buggy, held at its rear, with one more joint on a single leg.
pub(crate) fn buggy_on_legs() -> Folder {
    buggy()
        .and("joints.csv", "foot,1800,0,-100\n")
        .and("tubes.csv", "leg,FL,foot,rail,mild,legs\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nRL,fixed,fixed,fixed,free,free,free\nRR,fixed,fixed,fixed,free,free,free\n\
             RLT,fixed,free,free,free,free,free\n",
        )
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,foot,0,0,-500,0,0,0\n")
}

/// A folder without some tubes.
pub(crate) fn without(folder: &Folder, tubes: &[&str]) -> Folder {
    let text = String::from_utf8(folder.files().get("tubes.csv").unwrap().to_vec()).unwrap();
    let stays = |line: &&str| !tubes.iter().any(|tube| line.starts_with(&format!("{tube},")));
    let lines: Vec<&str> = text.lines().filter(stays).collect();
    folder.clone().with("tubes.csv", lines.join("\n") + "\n")
}

/// A frame under its own weight, held or free.
pub(crate) fn heavy(edges: f64, diagonals: f64, free: bool) -> Folder {
    let folder = lattice(edges, diagonals);
    let text = String::from_utf8(folder.files().get("model.toml").unwrap().to_vec()).unwrap();
    let options = if free { "inertia_relief = true" } else { "self_weight = true" };
    let folder = folder.with("model.toml", text.replace("self_weight = false", options));
    if free { folder.with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\n") } else { folder }
}
