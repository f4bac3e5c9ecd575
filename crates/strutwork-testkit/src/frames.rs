//! Regular frames of any size.

use std::fmt::Write as _;

use crate::Folder;

/// A block of cubes: edges, and one diagonal a face that alternates; held at its x = 0 face, loaded at its far corners.
#[derive(Debug, Clone, Copy)]
pub struct Lattice {
    /// Cubes along x, y, z.
    pub cubes: [usize; 3],
    /// Load cases.
    pub cases: usize,
}

impl Lattice {
    /// The model folder.
    pub fn folder(&self) -> Folder {
        let [nx, ny, nz] = self.cubes;
        let name = |[i, j, k]: [usize; 3]| format!("J{i}.{j}.{k}");
        let (mut joints, mut tubes) =
            (String::from("joint,x_mm,y_mm,z_mm\n"), String::from("tube,from,to,section,material,group\n"));
        let mut supports = String::from("joint,ux,uy,uz,rx,ry,rz\n");
        let mut count = 0;
        let mut add = |a: [usize; 3], b: [usize; 3], group: &str| {
            writeln!(tubes, "T{count},{},{},bar,plain,{group}", name(a), name(b)).expect("text");
            count += 1;
        };
        for k in 0..=nz {
            for j in 0..=ny {
                for i in 0..=nx {
                    writeln!(joints, "{},{},{},{}", name([i, j, k]), 500 * i, 500 * j, 500 * k).expect("text");
                    if i == 0 {
                        writeln!(supports, "{},fixed,fixed,fixed,fixed,fixed,fixed", name([i, j, k])).expect("text");
                    }
                    let at = [i, j, k];
                    let inside = [i < nx, j < ny, k < nz];
                    for axis in 0..3 {
                        if inside[axis] {
                            let mut to = at;
                            to[axis] += 1;
                            add(at, to, "edges");
                        }
                    }
                    for (a, b) in [(0, 1), (0, 2), (1, 2)] {
                        if inside[a] && inside[b] {
                            let (mut from, mut to) = (at, at);
                            to[b] += 1;
                            if (at[a] + at[b]) % 2 == 1 {
                                to[a] += 1
                            } else {
                                from[a] += 1
                            }
                            add(from, to, "diagonals");
                        }
                    }
                }
            }
        }
        let tips = [[nx, 0, 0], [nx, ny, 0], [nx, 0, nz], [nx, ny, nz]];
        let mut loads = String::from("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n");
        for case in 0..self.cases {
            let mut force = [0.0; 6];
            force[case % 3] = 1000.0;
            if case >= 4 {
                force[3 + case % 3] = 50.0;
            }
            let values: Vec<String> = force.iter().map(ToString::to_string).collect();
            writeln!(loads, "case-{case},{},{}", name(tips[case % 4]), values.join(",")).expect("text");
        }
        Folder::default()
            .with(
                "model.toml",
                "title = \"regular lattice\"\n\
                 [sections.bar]\nshape = \"properties\"\narea_mm2 = 214.0\niy_mm4 = 27200.0\niz_mm4 = 27200.0\nj_mm4 = 45400.0\n\
                 [materials.plain]\ne_mpa = 210000.0\ng_mpa = 81000.0\ndensity_kg_m3 = 7850.0\nyield_mpa = 235.0\nultimate_mpa = 360.0\n",
            )
            .with("joints.csv", joints)
            .with("tubes.csv", tubes)
            .with("supports.csv", supports)
            .with("loads.csv", loads)
    }
}
