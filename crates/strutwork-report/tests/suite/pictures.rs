//! The pictures show what the results say.

use strutwork_report::figures::{deformed, frame, view::View};

use crate::fixture::{Finished, cantilever, twisted_box};

/// Lowest and highest y of a path of one start and relative steps, px downwards.
fn heights(path: &str) -> (f64, f64) {
    let (start, steps) = path.strip_prefix('M').unwrap().split_once('l').unwrap();
    let numbers = |text: &str| -> Vec<f64> {
        let spaced = text.replace('-', " -");
        spaced.split_whitespace().map(|number| number.parse().unwrap()).collect()
    };
    let mut y = numbers(start)[1];
    let (mut low, mut high) = (y, y);
    for step in numbers(steps).chunks(2) {
        y += step[1];
        (low, high) = (low.min(y), high.max(y));
    }
    (low, high)
}

/// Both ends are built in, so that no joint moves: all that bends is what the load adds between them.
#[test]
fn a_beam_between_walls_sags_under_its_load() {
    let finished = Finished::plain(
        &cantilever(0.0)
            .with(
                "supports.csv",
                "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\ntip,fixed,fixed,fixed,fixed,fixed,fixed\n",
            )
            .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n")
            .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\nsag,T1,global,0,0,-500\n"),
    );
    let figure =
        deformed::draw(&finished.run(), &finished.cases.0[0], &finished.results.cases[0], deformed::Rest::Drawn);
    let paths: Vec<&str> = figure.svg.split("<path d=\"").skip(1).filter_map(|tail| tail.split('"').next()).collect();
    let (rest, bent) = (heights(paths[0]), heights(paths[1]));
    assert_eq!(rest.0, rest.1, "the beam at rest is level");
    assert_eq!(bent.0, rest.0, "its ends stay where they are");
    // A round factor shows the sag between 3 % and 8 % of 500 mm, at 632 px for 500 mm.
    assert!((15.0..52.0).contains(&(bent.1 - bent.0)), "{bent:?}");
    assert!(figure.caption.contains("times as large"), "{}", figure.caption);
}

#[test]
fn a_flat_frame_is_drawn_only_where_it_shows() {
    assert_eq!(frame::views(&Finished::plain(&cantilever(-1.0)).model), [View::Side]);
    let across = cantilever(-1.0).with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,0,500,0\n");
    assert_eq!(frame::views(&Finished::plain(&across).model), [View::Plan]);
    assert_eq!(frame::views(&twisted_box().model), View::ALL);
}

#[test]
fn every_joint_is_named_where_there_is_room() {
    let finished = twisted_box();
    let drawing = frame::draw(&finished.run(), View::Isometric);
    for joint in finished.model.joints() {
        assert!(drawing.svg.contains(&joint.name), "{} is not named", joint.name);
    }
}
