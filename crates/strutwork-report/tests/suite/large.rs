//! Large frames: tables and pictures are cut so that the report stays usable, and say so.

use strutwork_report::report_html;
use strutwork_testkit::Lattice;

use crate::fixture::Finished;
use crate::turn::without_view_program;

#[test]
fn a_large_frame_keeps_the_report_small_and_says_where_the_rest_stands() {
    let finished = Finished::plain(&Lattice { cubes: [12, 4, 4], cases: 2 }.folder());
    assert!(finished.model.tubes().len() > strutwork_report::figures::MANY_TUBES);
    let html = report_html(&finished.run());
    let rest = finished.model.tubes().len() - 60;
    assert!(html.contains(&format!("{rest} more rows: see tubes.csv.")));
    assert!(html.contains("more rows: see joints.csv."));
    assert!(html.contains("names of supported and wheel joints only"));
    let page = without_view_program(&html);
    assert!(page.len() < 600_000, "{} bytes", page.len());
    // The frame to turn holds every tube; about 180 bytes each, and 50 a case.
    let view = (html.len() - page.len()) / finished.model.tubes().len();
    assert!(view < 400, "{view} bytes a tube");
    // The files keep everything.
    assert_eq!(finished.rows("displacements.csv").len(), 1 + 2 * finished.model.joints().len());
}
