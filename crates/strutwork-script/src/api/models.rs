//! Opening a model and looking at it.

use std::sync::Arc;

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::MassModel;
use strutwork_loads::wheels::cg_height;
use strutwork_model::model::{Model, Wheel};
use strutwork_model::units::{MM2, MM4, to_deg, to_mm, to_nm_per_deg};
use strutwork_model::{JointId, TubeId};

use super::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{map, names, optional};
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// The joint with this name.
///
/// # Errors
/// [`Fault::UnknownName`].
pub(in crate::api) fn joint_named(model: &Model, name: &str) -> Result<JointId, Fault> {
    let known = || model.joints().iter().map(|joint| joint.name.as_str());
    model.joint_named(name).ok_or_else(|| Fault::unknown("joint", name, known()))
}

/// The tube with this name.
///
/// # Errors
/// [`Fault::UnknownName`].
pub(super) fn tube_named(model: &Model, name: &str) -> Result<TubeId, Fault> {
    let known = || model.tubes().iter().map(|tube| tube.name.as_str());
    model.tube_named(name).ok_or_else(|| Fault::unknown("tube", name, known()))
}

/// The names of the tubes of a group, in the model's order.
///
/// # Errors
/// [`Fault::UnknownName`] where it has none.
pub(in crate::api) fn of_group<'m>(model: &'m Model, group: &str) -> Result<Vec<&'m str>, Fault> {
    let tubes: Vec<&str> =
        model.tubes().iter().filter(|tube| tube.group == group).map(|tube| tube.name.as_str()).collect();
    if tubes.is_empty() {
        let known = model.tubes().iter().map(|tube| tube.group.as_str()).filter(|group| !group.is_empty());
        return Err(Fault::unknown("group of tubes", group, known));
    }
    Ok(tubes)
}

/// A point, m, as a map in mm.
fn point(at: [f64; 3]) -> Map {
    map([("x_mm", to_mm(at[0])), ("y_mm", to_mm(at[1])), ("z_mm", to_mm(at[2]))])
}

fn vehicle_map(model: &Model) -> Result<Map, Fault> {
    let vehicle = model.vehicle().ok_or(strutwork_loads::LoadError::NoVehicle { wanted: "what its data are" })?;
    let mut data = map([
        ("wheelbase_mm", to_mm(vehicle.wheelbase())),
        ("track_front_mm", to_mm(vehicle.track_front())),
        ("track_rear_mm", to_mm(vehicle.track_rear())),
        ("cg_height_mm", to_mm(cg_height(vehicle, MassModel::of(model).centre))),
        ("front_roll_share", vehicle.front_roll_share),
        ("front_drive_share", vehicle.front_drive_share),
    ]);
    let share = optional(vehicle.front_brake_share);
    data.insert("front_brake_share".into(), share);
    for (axle, name) in vehicle.axles.iter().zip(["front", "rear"]) {
        let roll = optional(axle.roll_stiffness.map(to_nm_per_deg));
        let radius = optional(axle.wheel_radius.map(to_mm));
        data.insert(format!("{name}_roll_nm_per_deg").into(), roll);
        data.insert(format!("{name}_wheel_radius_mm").into(), radius);
    }
    Ok(data)
}

#[export_module]
mod functions {
    use super::*;

    /// Opens the model in a folder. It becomes the model in hand, which `model()` gives.
    ///
    /// * The folder lies below the script's own, or is one of the script's arguments.
    /// * Faults in the model's files stop the script, each with its file and line.
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let frame = open_model("my-frame");
    /// print(frame.joints().len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn open_model(context: NativeCallContext, folder: &str) -> Result<Frame, Raised> {
        let session = Session::of(&context);
        session.only_free("open_model")?;
        session.may_read(folder)?;
        let files = session.host().read_model_folder(folder).map_err(Fault::from)?;
        // The whole way first: it leaves out what only follows from a fault of reading.
        let model = strutwork_model::read_model(&files).map_err(Fault::Model)?.value;
        let (spec, _) = strutwork_model::spec::parse(&files);
        let frame = Frame::open(spec, files.own_cases(), model);
        session.set_frame(frame.clone());
        Ok(frame)
    }

    /// The model in hand: in a case script that of the run, otherwise the one opened last.
    ///
    /// ```rhai
    /// print(model().tubes());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn model(context: NativeCallContext) -> Result<Frame, Raised> {
        Ok(Session::of(&context).frame()?)
    }

    /// The names of the bodies.
    ///
    /// ```rhai
    /// print(model().bodies());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn bodies(frame: Frame) -> Result<Array, Raised> {
        Ok(names(frame.model()?.bodies().iter().map(|body| body.name.as_str())))
    }

    /// The names of the panels.
    ///
    /// ```rhai
    /// print(model().panels());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn panels(frame: Frame) -> Result<Array, Raised> {
        Ok(names(frame.model()?.panels().iter().map(|panel| panel.name.as_str())))
    }

    /// Another frame with the same content, to be changed by itself: a variant.
    ///
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let variant = model().duplicate();
    /// variant.set_wall("brace", 2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn duplicate(frame: Frame) -> Result<Frame, Raised> {
        Ok(frame.duplicate()?)
    }

    /// Checks the model as it is now. Every fault stops the script.
    ///
    /// ```rhai
    /// model().validate();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn validate(frame: Frame) -> Result<(), Raised> {
        frame.model()?;
        Ok(())
    }

    /// The names of all joints, in the model's order.
    ///
    /// ```rhai
    /// for name in model().joints() { print(name); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn joints(frame: Frame) -> Result<Array, Raised> {
        Ok(names(frame.model()?.joints().iter().map(|joint| joint.name.as_str())))
    }

    /// The names of all tubes, in the model's order.
    ///
    /// ```rhai
    /// print(model().tubes().len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tubes(frame: Frame) -> Result<Array, Raised> {
        Ok(names(frame.model()?.tubes().iter().map(|tube| tube.name.as_str())))
    }

    /// The names of the tubes of a group, in the model's order.
    ///
    /// * A group without tubes is an unknown name.
    ///
    /// ```rhai
    /// for name in model().tubes_of("diagonals") { print(name); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tubes_of(frame: Frame, group: &str) -> Result<Array, Raised> {
        Ok(names(of_group(&*frame.model()?, group)?.into_iter()))
    }

    /// The names of the groups of tubes, in order of first use.
    ///
    /// ```rhai
    /// print(model().groups());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn groups(frame: Frame) -> Result<Array, Raised> {
        let model = frame.model()?;
        let mut groups: Vec<&str> = Vec::new();
        for tube in model.tubes() {
            if !tube.group.is_empty() && !groups.contains(&tube.group.as_str()) {
                groups.push(&tube.group);
            }
        }
        Ok(names(groups.into_iter()))
    }

    /// The names of all sections, in the model's order.
    ///
    /// ```rhai
    /// print(model().sections());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn sections(frame: Frame) -> Result<Array, Raised> {
        Ok(names(frame.model()?.sections().iter().map(|section| section.name.as_str())))
    }

    /// What a section is: its `label` in plain words, and its properties.
    ///
    /// # Units
    /// `area_mm2` in mm²; `iy_mm4`, `iz_mm4`, `j_mm4` in mm⁴.
    ///
    /// ```rhai
    /// let rail = model().section("rail");
    /// print(`${rail.label}: ${fixed(rail.area_mm2, 0)} mm²`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn section(frame: Frame, name: &str) -> Result<Map, Raised> {
        let model = frame.model()?;
        let known = || model.sections().iter().map(|section| section.name.as_str());
        let section = model
            .sections()
            .iter()
            .find(|section| section.name == name)
            .ok_or_else(|| Fault::unknown("section", name, known()))?;
        let mut data = map([
            ("area_mm2", section.area / MM2),
            ("iy_mm4", section.iy / MM4),
            ("iz_mm4", section.iz / MM4),
            ("j_mm4", section.j / MM4),
        ]);
        data.insert("label".into(), section.label.clone().into());
        Ok(data)
    }

    /// Where a joint is.
    ///
    /// # Units
    /// `x_mm`, `y_mm`, `z_mm` in mm.
    ///
    /// ```rhai
    /// let at = model().joint("FL");
    /// print(at.x_mm);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn joint(frame: Frame, name: &str) -> Result<Map, Raised> {
        let model = frame.model()?;
        Ok(point(model.joints()[joint_named(&model, name)?].at))
    }

    /// What a tube is: `from`, `to`, `section`, `material`, `group`, its length, its turn and its mass.
    ///
    /// # Units
    /// `length_mm` in mm between the joints; `roll_deg` in degrees; `mass_kg` in kg.
    ///
    /// ```rhai
    /// let rail = model().tube("rail-left");
    /// print(`${rail.section}, ${rail.length_mm} mm`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube(frame: Frame, name: &str) -> Result<Map, Raised> {
        let model = frame.model()?;
        let id = tube_named(&model, name)?;
        let row = &model.tubes()[id];
        let mut data = map([
            ("length_mm", to_mm(model.length(id))),
            ("roll_deg", to_deg(row.roll)),
            ("mass_kg", model.tube_mass(id)),
        ]);
        for (key, value) in [
            ("from", &model.joints()[row.from].name),
            ("to", &model.joints()[row.to].name),
            ("section", &model.sections()[row.section].name),
            ("material", &model.materials()[row.material].name),
            ("group", &row.group),
        ] {
            data.insert(key.into(), value.clone().into());
        }
        Ok(data)
    }

    /// Mass, centre of gravity and inertia of the frame with everything that it carries.
    ///
    /// # Units
    /// `total_kg` and `tubes_kg` in kg; `x_mm`, `y_mm`, `z_mm` of the centre of gravity in mm; `ixx_kg_m2`, `iyy_kg_m2`,
    /// `izz_kg_m2` about it in kg·m².
    ///
    /// ```rhai
    /// let mass = model().mass();
    /// print(`${fixed(mass.tubes_kg, 1)} kg of tubes in ${fixed(mass.total_kg, 1)} kg`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn mass(frame: Frame) -> Result<Map, Raised> {
        let model: Arc<Model> = frame.model()?;
        let mass = MassModel::of(&model);
        let tubes = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum::<f64>();
        Ok(map([
            ("total_kg", mass.total),
            ("tubes_kg", tubes),
            ("x_mm", to_mm(mass.centre[0])),
            ("y_mm", to_mm(mass.centre[1])),
            ("z_mm", to_mm(mass.centre[2])),
            ("ixx_kg_m2", mass.inertia[0][0]),
            ("iyy_kg_m2", mass.inertia[1][1]),
            ("izz_kg_m2", mass.inertia[2][2]),
        ]))
    }

    /// Whether the model describes a vehicle.
    ///
    /// ```rhai
    /// if model().has_vehicle() { print("on wheels"); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn has_vehicle(frame: Frame) -> Result<bool, Raised> {
        Ok(frame.model()?.vehicle().is_some())
    }

    /// The vehicle's data: `wheelbase_mm`, `track_front_mm`, `track_rear_mm`, `cg_height_mm`, `front_roll_share`,
    /// `front_drive_share`, `front_brake_share`, `front_roll_nm_per_deg`, `rear_roll_nm_per_deg`, `front_wheel_radius_mm`,
    /// `rear_wheel_radius_mm`.
    ///
    /// * Roll stiffnesses and wheel radii are `()` where the model does not give them.
    /// * `front_brake_share` is `()` where the model leaves it to the axle loads.
    /// * `cg_height_mm` is above the contact patches: the model's own where it gives one, otherwise what the masses give.
    ///
    /// # Units
    /// Lengths in mm; shares from 0 to 1; roll stiffness in N·m/deg.
    ///
    /// ```rhai
    /// print(model().vehicle().wheelbase_mm);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vehicle(frame: Frame) -> Result<Map, Raised> {
        Ok(vehicle_map(&*frame.model()?)?)
    }

    /// A wheel's contact point, and the name of its corner's `spring_joint`.
    ///
    /// # Units
    /// `x_mm`, `y_mm`, `z_mm` in mm.
    ///
    /// ```rhai
    /// let wheel = model().wheel("front-left");
    /// print(`${wheel.y_mm} mm to the left, spring at ${wheel.spring_joint}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wheel(frame: Frame, name: &str) -> Result<Map, Raised> {
        let model = frame.model()?;
        let wheel = Wheel::from_name(name)
            .ok_or_else(|| Fault::unknown("wheel", name, Wheel::ALL.into_iter().map(Wheel::name)))?;
        let vehicle = model
            .vehicle()
            .ok_or(Fault::Load(strutwork_loads::LoadError::NoVehicle { wanted: "where its wheels are" }))?;
        let corner = vehicle.corner(wheel);
        let mut data = point(corner.contact);
        data.insert("spring_joint".into(), corner.spring.name(&model).into());
        Ok(data)
    }
}
