//! A bracket on a wall: rails, braces, a skin.

use strutwork_testkit::Folder;

/// Its settings.
pub(crate) const MODEL: &str = "\
title = \"bracket\"
[options]
self_weight = true
[materials.mild]
grade = \"S235JRH\"
[sections.rail]
shape = \"square\"
width_mm = 30.0
wall_mm = 2.0
[sections.brace]
stock = \"square 25x2\"
[fixings.soft]
kind = \"fasteners\"
pitch_mm = 50.0
slip_mm_per_kn = 0.2
source = \"invented\"
";

/// Its joints.
pub(crate) const JOINTS: &str = "joint,x_mm,y_mm,z_mm\nA,0,200,0\nB,0,-200,0\nC,500,200,0\nD,500,-200,0\nE,250,0,0\n";

/// Its tubes.
pub(crate) const TUBES: &str = "\
tube,from,to,section,material,group
left,A,C,rail,mild,sides
right,B,D,rail,mild,sides
front,C,D,rail,mild,front
d1,A,E,brace,mild,cross
d2,E,D,brace,mild,cross
d3,B,C,brace,mild,other
";

/// The bracket, with or without its own weight.
pub(crate) fn bracket(weight: bool) -> Folder {
    Folder::default()
        .with("model.toml", MODEL.replace("self_weight = true", &format!("self_weight = {weight}")))
        .with("joints.csv", JOINTS)
        .with("tubes.csv", TUBES)
        .with("panels.csv", "panel,joints,material,thickness_mm,fixing\nskin,A B D C,mild,1.0,soft\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nB,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nside,C,100,300,-200,0,0,0\n")
}
