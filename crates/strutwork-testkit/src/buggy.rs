//! A small vehicle: a braced box on four wheels, invented, lopsided on purpose.

use crate::Folder;

/// A braced box of eight joints on four wheels, with a driver, a battery and a motor: invented, and lopsided on purpose, so
/// that no sum is zero by symmetry.
///
/// # Units and shapes
/// Lower joints `FL FR RL RR`, upper joints `FLT FRT RLT RRT`; wheelbase 1800 mm, tracks 1200 and 1250 mm; groups `rails`,
/// `uprights`, `diagonals`; sections `rail` and `brace`; material `mild`; masses `driver`, `battery`, `motor`.
pub fn buggy() -> Folder {
    Folder::default()
        .with("model.toml", MODEL)
        .with("joints.csv", JOINTS)
        .with("tubes.csv", TUBES)
        .with("masses.csv", MASSES)
}

const MODEL: &str = "\
title = \"invented buggy\"
[materials.mild]
grade = \"S235JRH\"
[sections.rail]
shape = \"square\"
width_mm = 30.0
wall_mm = 2.0
[sections.brace]
shape = \"square\"
width_mm = 25.0
wall_mm = 1.5
[vehicle]
wheelbase_mm = 1800.0
track_front_mm = 1200.0
track_rear_mm = 1250.0
front_axle_x_mm = 1800.0
ground_z_mm = -250.0
front_roll_share = 0.42
[vehicle.corners.front-left]
joints = [\"FL\", \"FLT\"]
spring_joint = \"FLT\"
[vehicle.corners.front-right]
joints = [\"FR\", \"FRT\"]
spring_joint = \"FRT\"
[vehicle.corners.rear-left]
joints = [\"RL\", \"RLT\"]
spring_joint = \"RLT\"
[vehicle.corners.rear-right]
joints = [\"RR\", \"RRT\"]
spring_joint = \"RRT\"
";

const JOINTS: &str = "\
joint,x_mm,y_mm,z_mm
FL,1800,400,0
FR,1800,-400,0
RL,0,420,0
RR,0,-420,0
FLT,1780,380,350
FRT,1780,-380,350
RLT,20,400,350
RRT,20,-400,350
";

const TUBES: &str = "\
tube,from,to,section,material,group
rail-left,RL,FL,rail,mild,rails
rail-right,RR,FR,rail,mild,rails
top-left,RLT,FLT,rail,mild,rails
top-right,RRT,FRT,rail,mild,rails
front-low,FL,FR,rail,mild,rails
front-top,FLT,FRT,rail,mild,rails
rear-low,RL,RR,rail,mild,rails
rear-top,RLT,RRT,rail,mild,rails
upright-FL,FL,FLT,rail,mild,uprights
upright-FR,FR,FRT,rail,mild,uprights
upright-RL,RL,RLT,rail,mild,uprights
upright-RR,RR,RRT,rail,mild,uprights
diagonal-left,RL,FLT,brace,mild,diagonals
diagonal-right,RR,FRT,brace,mild,diagonals
diagonal-floor,RL,FR,brace,mild,diagonals
diagonal-top,RLT,FRT,brace,mild,diagonals
diagonal-front,FL,FRT,brace,mild,diagonals
diagonal-rear,RL,RRT,brace,mild,diagonals
";

const MASSES: &str = "\
mass,kg,x_mm,y_mm,z_mm,joints
driver,80,700,150,250,RL RR RLT
battery,45,1200,-200,100,FL FR RR
motor,60,150,0,150,RL RR RLT RRT
";
