//! Pages of supports, loads and masses.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::SUPPORT_TWICE,
        "a joint has two rows of supports",
        "What holds a joint stands in one row, so that nothing is held twice or lost.",
        "A,fixed,free,free,free,free,free\nA,free,fixed,free,free,free,free",
        "Write both in one row.",
    ),
    page(
        codes::SPRING_NOT_POSITIVE,
        "a support stiffness that is zero or negative",
        "A spring of 0 holds nothing, one below 0 pushes the wrong way.",
        "A,fixed,fixed,0,free,free,free",
        "Write free where nothing holds it, fixed where nothing gives.",
    ),
    page(
        codes::HOLDS_NOTHING,
        "a support that holds nothing",
        "Every freedom of the row is free.",
        "A,free,free,free,free,free,free",
        "Write fixed where it is held, or take the row out.",
    ),
    page(
        codes::SETTLEMENT_NOT_FIXED,
        "a settlement where nothing is fixed",
        "Only what a support fixes can be moved by it. A spring or a free joint moves by itself.",
        "sink,A,,,-5,,,   in settlements.csv, and uz of A free in supports.csv",
        "Write fixed in supports.csv, or leave the cell empty.",
    ),
    page(
        codes::SETTLED_TWICE,
        "a freedom is moved twice in one case",
        "Two rows of one case move the same freedom of a joint; it is not clear whether they add.",
        "sink,A,,,-5,,,\nsink,A,,,-3,,,",
        "Keep one, with the movement that is meant.",
    ),
    page(
        codes::NO_EXPANSION,
        "no coefficient of expansion",
        "A tube is warmed and its material does not say how much it expands.",
        "a material given by e_mpa and g_mpa alone, and a row in temperatures.csv",
        "Add thermal_per_k: steel 12e-6, aluminium 23e-6.",
    ),
    page(
        codes::NO_DENSITY,
        "weight is needed and there is no density",
        "Self weight, or the wheel loads of a vehicle, need the mass of every tube. Without density the frame would weigh nothing, which is unsafe.",
        "[options]\nself_weight = true   and a material without density_kg_m3",
        "Add density_kg_m3: steel 7850, aluminium 2700.",
    ),
    page(
        codes::OUTSIDE_TUBE,
        "a place outside the tube",
        "`at` is a share of the tube's length, from 0 at `from` to 1 at `to`. A distance in mm was perhaps typed.",
        "push,AB,global,250,0,0,-100,0,0,0",
        "Divide the distance by the tube's length.",
    ),
    page(
        codes::MASS_NOT_POSITIVE,
        "a mass that is zero or negative",
        "Masses that the frame carries are greater than 0.",
        "battery,0,500,0,200,A B",
        "Write the mass in kg, or take the row out.",
    ),
    page(
        codes::MASS_NOT_CARRIED,
        "a mass that nothing carries",
        "The force of a mass must go somewhere: the joints or the body that it is fixed to, or the upright of a linked corner.",
        "battery,40,500,0,200,",
        "Name the joints, separated by spaces, or write body: NAME or upright: front-left.",
    ),
    page(
        codes::FLOATS,
        "the frame floats",
        "There are loads, and neither supports.csv nor a vehicle, nor are they to be balanced by the frame's own inertia. Such a frame can only be solved if the loads balance each other.",
        "loads.csv without supports.csv",
        "Add supports.csv for a frame held to something, or a [vehicle] table for one on wheels, or inertia_relief = true under [options] for one that is free.",
    ),
];
