//! The pages of the `L` codes.

use strutwork_model::explain::Page;

/// One page for each `L` code, in order.
pub const PAGES: &[Page] = &[
    Page {
        code: "L001",
        title: "A wheel would have to pull on the road",
        meaning: "A case that claims to be physical needs a negative vertical force on a wheel. A tyre cannot pull: the \
                  wheel lifts, the other three carry the vehicle, and the case cannot occur as it was set up.",
        example: "cornering at 1.4 g with a high centre of gravity and a narrow track: the inner rear wheel comes to \
                  −120 N",
        remedy: "Lower the acceleration in the factor that the case names, check the centre of gravity and the track, or \
                 treat the case as the limit at which the wheel lifts. A case that only shows one property, such as pure \
                 torsion, is to be marked notional.",
    },
    Page {
        code: "L002",
        title: "Nothing has mass",
        meaning: "Gravity, inertia, the balance of a free vehicle or the weight on the wheels was asked for, but nothing in \
                  the model weighs anything. The message lists what has no mass: materials without density, bodies that \
                  carry none, an empty list of masses.",
        example: "a vehicle without masses.csv whose material has density_kg_m3 = 0",
        remedy: "Give each material its density and list in masses.csv what the frame carries: people, battery, motor, \
                 fuel, seats, body.",
    },
    Page {
        code: "L003",
        title: "The model has no vehicle",
        meaning: "A load case asks for wheels, but model.toml has no [vehicle] table.",
        example: "strutwork run on a garden gate with a case script that calls c.wheel_loads(0, 0, 1)",
        remedy: "Add the [vehicle] table with its four corners, or write the loads in loads.csv or in a case script that \
                 does not need wheels.",
    },
    Page {
        code: "L004",
        title: "Two load cases have one name",
        meaning: "Results are filed by the name of their case, so each needs a name of its own.",
        example: "cases.rhai builds a case named \"bending\", which the standard cases have already",
        remedy: "Rename one, or switch the standard cases off in [options] with standard_cases = false.",
    },
    Page {
        code: "L005",
        title: "A number of a load is not finite",
        meaning: "A force, moment, acceleration, factor or step is infinite or not a number. Nothing is computed from it.",
        example: "c.joint_load(\"J1\", #{ fz_n: 1.0 / 0.0 })",
        remedy: "Look for a division by zero or an overflow in the step before; the message names the number.",
    },
    Page {
        code: "L006",
        title: "A name that is not in the model",
        meaning: "A load case names a joint, tube, wheel or freedom that does not exist. Names are compared exactly.",
        example: "c.hold(\"rear-lft\", \"ux uy uz\")",
        remedy: "Use the name as it is written in joints.csv or tubes.csv; the message proposes the nearest.",
    },
    Page {
        code: "L007",
        title: "A material without density",
        meaning: "The case needs the mass of every tube and panel, and materials in use have no density. The message \
                  lists everything that has no mass. A vehicle that nothing holds is balanced by its own inertia, so what \
                  it weighs decides what its frame carries.",
        example: "[materials.special] with e_mpa and g_mpa alone, in a vehicle that is run through the standard cases",
        remedy: "Add density_kg_m3 to each material in model.toml, and list in masses.csv what the frame carries.",
    },
    Page {
        code: "L008",
        title: "Nothing has inertia about an axis",
        meaning: "The case is to be balanced by inertia, but all mass lies on one line and a moment acts about that line. \
                  No finite acceleration balances it.",
        example: "one heavy mass, weightless tubes, and a force to one side of the mass",
        remedy: "Complete the masses: the tubes' density, and masses.csv with each mass at its place.",
    },
    Page {
        code: "L009",
        title: "A value of a load is out of its range",
        meaning: "The place along a tube must lie from 0 to 1, the stiffness of a support above zero, a load must be \
                  shared among at least one joint, a twist station must have breadth, roll stiffness must be above zero, a \
                  step lower than the wheel's centre.",
        example: "c.tube_point_load(\"T1\", \"global\", 1.2, #{ fz_n: -100 })",
        remedy: "Change the value; the message says which and what it must be.",
    },
    Page {
        code: "L010",
        title: "The wheels do not span a wheelbase and two tracks",
        meaning: "Wheel loads follow from statics only where the contact points form a rectangle or trapezium: the front \
                  wheels ahead of the rear ones (+x), the left wheels to the left of the right ones (+y).",
        example: "left and right swapped in the [vehicle] table",
        remedy: "Check the contact points of the four corners in model.toml.",
    },
    Page {
        code: "L011",
        title: "A factor that no load case asks for",
        meaning: "model.toml sets a factor, but no case of the run asks for one of that name, so it changes nothing.",
        example: "[factors.braking] where the case script asks for braking_g",
        remedy: "Correct the name after the case scripts or the report's table of factors, or take it out.",
    },
    Page {
        code: "L012",
        title: "A case or a factor without a name",
        meaning: "A load case or a factor was given an empty name, or one with control characters.",
        example: "model().new_case(\"\", \"\", \"physical\")",
        remedy: "Give it a name of at least one visible character.",
    },
    Page {
        code: "L013",
        title: "A settlement where nothing is held fixed",
        meaning: "A prescribed movement needs a freedom that the case holds fixed at that joint.",
        example: "c.settle(\"J4\", \"uz\", -2) without c.hold(\"J4\", \"uz\")",
        remedy: "Hold the freedom in the same case, or take the settlement out.",
    },
    Page {
        code: "L014",
        title: "A physical case that is not balanced",
        meaning: "The case is held as a free vehicle is, at three points that should take nothing, but its loads do not \
                  balance. The supports take the rest, which no road provides.",
        example: "c.wheel_force(…) and c.hold_vehicle() without c.balance()",
        remedy: "Leave out c.hold_vehicle(): a case that nothing holds is balanced by the vehicle's own inertia. Or mark \
                 the case notional and say what holds it.",
    },
    Page {
        code: "L015",
        title: "A corner of a body cannot be held at a joint",
        meaning: "The case holds the vehicle at the spring joints of its corners, as a rig does, and this corner belongs to \
                  a body.",
        example: "c.hold_vehicle() with `body = \"rear module\"` in [vehicle.corners.rear-left]",
        remedy: "Let the case balance itself (c.balance()) instead of holding it, or give the corner a spring_joint that is \
                 a joint of the frame.",
    },
    Page {
        code: "L016",
        title: "An upright that its links do not hold",
        meaning: "A linked corner's upright is a free body: the tyre pushes on it, the links hold it, and six equations of \
                  equilibrium give six unknown forces. Here the links leave a motion free, or hold it only at a dead \
                  centre, or bring more than six forces. The message tells the motion: a turn about an axis through a \
                  point, or a slide along a direction. A link cannot hold a turn when its line meets the axis or runs \
                  along it. Links count as too weak where a unit force makes link forces above 1000 times it.",
        example: "a track rod whose line passes through the axis of the two ball joints: nothing keeps the wheel from \
                  steering",
        remedy: "Check the hard points in suspension.csv against the car: two points swapped, one sign wrong, or upright \
                 and chassis end of another link. A corner takes six forces: link and spring bring 1, guide 2, strut and \
                 pivot 3.",
    },
    Page {
        code: "L017",
        title: "An axle without wheel radius",
        meaning: "The torque of drive shafts or inboard brakes is force times wheel radius, and a force at the wheel's \
                  centre acts that far above the road. The axle does not give the radius.",
        example: "c.drive_force(\"rear-left\", 900) with shaft_body = \"rear module\" and no wheel_radius_mm",
        remedy: "Give wheel_radius_mm under [vehicle.axles.front] or [vehicle.axles.rear]: the height of the wheel's centre \
                 above the road, the tyre loaded.",
    },
    Page {
        code: "L018",
        title: "Something acts after the balance",
        meaning: "Nothing holds the vehicle in this case: it is balanced by its own inertia, and every force must be there \
                  before the accelerations are worked out. Here a force came after c.balance().",
        example: "c.balance(); c.wheel_force(\"front-left\", #{ fz_n: 500 });",
        remedy: "Call c.balance() last, or leave it out: a case that nothing holds is balanced at its end.",
    },
    Page {
        code: "L019",
        title: "Cases that are held in different ways",
        meaning: "The sum of two cases makes sense where both are held in the same way: both free and balanced by their own \
                  inertia, or both held at the same freedoms. Forces in a held frame depend on its supports.",
        example: "c.add_case(…) of a case on a rig to one that is free",
        remedy: "Add cases that are held alike; free the rig's case, or hold the other as the rig does.",
    },
    Page {
        code: "L020",
        title: "A case of another model",
        meaning: "A case was added to one of another model. It acts on joints, tubes or bodies that this model does not have.",
        example: "a case built on a variant with more tubes, added to a case of the first frame",
        remedy: "Build both cases on the same model.",
    },
    Page {
        code: "L021",
        title: "An axle without roll stiffness",
        meaning: "How a frame that twists shares the roll couple between the axles follows from their roll stiffness and \
                  the frame's own; an axle does not give its.",
        example: "c.wheel_loads(…) with the frame's stiffness, in a vehicle that gives front_roll_share alone",
        remedy: "Give roll_stiffness_nm_per_deg under [vehicle.axles.front] and [vehicle.axles.rear]: springs, bars and \
                 tyres together.",
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_in_order_without_gaps() {
        for (place, page) in PAGES.iter().enumerate() {
            assert_eq!(page.code, format!("L{:03}", place + 1));
        }
    }
}
