//! The vehicle's data in tables: corners, axles, places.

use strutwork_model::model::{Role, Suspension, Wheel};
use strutwork_model::units::{NM_PER_DEG, to_mm};

use crate::number::{as_given, fixed};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::model::{PLACE, carrier, place};

/// Contact patches, and what takes their force.
pub(super) fn corners<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![Column::text("wheel", "wheel")];
    columns.extend(PLACE);
    columns.extend([Column::text("joints", "its force goes to"), Column::text("spring_joint", "twist read at")]);
    let rows = run.model.vehicle().into_iter().flat_map(|vehicle| {
        Wheel::ALL.into_iter().map(|wheel| {
            let corner = vehicle.corner(wheel);
            let mut row = vec![Cell::text(wheel.name())];
            row.extend(place(corner.contact));
            let taken = match &corner.suspension {
                Suspension::Rigid(by) => carrier(run, by),
                Suspension::Linked(links) => format!("{} links", links.len()),
            };
            row.extend([Cell::from(taken), Cell::from(corner.spring.name(run.model))]);
            row
        })
    });
    Table {
        name: "corners",
        caption: "Vehicle corners: contact patches, and what takes their force".into(),
        rows: rows.collect(),
        columns,
    }
}

/// What belongs to both wheels of an axle.
pub(super) fn axles<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.vehicle().into_iter().flat_map(|vehicle| {
        ["front", "rear"].into_iter().zip(&vehicle.axles).map(|(name, axle)| {
            let shaft = axle.shaft_reaction.as_ref();
            vec![
                Cell::text(name),
                Cell::from(axle.wheel_radius.map(to_mm)),
                Cell::text(if axle.inboard_brakes { "inboard" } else { "outboard" }),
                Cell::from(shaft.map_or_else(|| "the corner".to_owned(), |by| carrier(run, by))),
                Cell::from(axle.roll_stiffness.map(|stiffness| stiffness / NM_PER_DEG)),
            ]
        })
    });
    Table {
        name: "axles",
        caption: "Axles. Shaft torque: what takes the reaction of the drive shafts, and of inboard brakes".into(),
        columns: vec![
            Column::text("axle", "axle"),
            Column::number("wheel_radius_mm", "wheel radius", "mm", Digits::Given),
            Column::text("brakes", "brakes"),
            Column::text("shaft", "shaft torque goes to"),
            Column::number("roll", "roll stiffness", "N·m/deg", Digits::Each(4)),
        ],
        rows: rows.collect(),
    }
}

/// Single values.
pub(super) fn data<'a>(run: &Run<'a>) -> Table<'a> {
    let mut rows = Vec::new();
    let mut add = |what: &'static str, value: String, unit: &'static str| {
        rows.push(vec![Cell::text(what), Cell::from(value), Cell::text(unit)]);
    };
    if let Some(vehicle) = run.model.vehicle() {
        add("wheelbase", fixed(to_mm(vehicle.wheelbase()), 0), "mm");
        add("track, front", fixed(to_mm(vehicle.track_front()), 0), "mm");
        add("track, rear", fixed(to_mm(vehicle.track_rear()), 0), "mm");
        add("front share of roll stiffness", as_given(vehicle.front_roll_share), "");
        let braking = vehicle.front_brake_share.map_or("as the axle loads under braking".into(), as_given);
        add("front share of braking force", braking, "");
        add("front share of driving force", as_given(vehicle.front_drive_share), "");
        if let Some(height) = vehicle.cg_height {
            add("centre of gravity above the ground, set by the model", fixed(to_mm(height), 0), "mm");
        }
    }
    Table {
        name: "vehicle",
        caption: "Vehicle data".into(),
        columns: vec![Column::text("what", "what"), Column::text("value", "value"), Column::text("unit", "unit")],
        rows,
    }
}

/// Places at which standard cases act.
pub(super) fn places<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![Column::text("place", "place"), Column::text("role", "role")];
    columns.extend(PLACE);
    columns.extend([
        Column::text("joints", "its force goes to"),
        Column::text("group", "acts with"),
        Column::number("mass_kg", "mass", "kg", Digits::Given),
    ]);
    let rows = run.model.places().iter().map(|place_of| {
        let mut row = vec![Cell::text(&place_of.name), Cell::text(role_words(place_of.role))];
        row.extend(place(place_of.at));
        row.extend([
            Cell::from(carrier(run, &place_of.carrier)),
            Cell::text(&place_of.group),
            Cell::from(place_of.mass),
        ]);
        row
    });
    Table { name: "places", caption: "Places at which standard cases act".into(), rows: rows.collect(), columns }
}

const fn role_words(role: Role) -> &'static str {
    match role {
        Role::LapBelt => "lower belt anchorage",
        Role::ShoulderBelt => "upper belt anchorage",
        Role::Seat => "seat fixing",
        Role::MainHoop => "top of the main hoop",
        Role::FrontHoop => "top of the front hoop",
        Role::TowingEye => "towing eye",
        Role::Jack => "jacking point",
    }
}
