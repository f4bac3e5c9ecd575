//! The report as PDF: whatever the model, it is written, and always the same.

use strutwork_report::{Sheet, report_html, report_pdf};
use strutwork_testkit::Lattice;

use crate::fixture::{Finished, cantilever, twisted_box};

/// The bytes, made twice.
#[track_caller]
fn pdf(finished: &Finished) -> Vec<u8> {
    let bytes = report_pdf(&finished.run(), Sheet::A4).expect("pages");
    assert!(bytes.starts_with(b"%PDF-1.5"));
    assert_eq!(bytes, report_pdf(&finished.run(), Sheet::A4).expect("pages"));
    bytes
}

#[test]
fn every_model_gives_pages_and_always_the_same() {
    let nothing_acts = cantilever(-100.0).with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n");
    for folder in [nothing_acts, cantilever(-100.0), cantilever(-4000.0)] {
        pdf(&Finished::plain(&folder));
    }
    pdf(&twisted_box());
}

#[test]
fn letter_is_another_size() {
    let finished = Finished::plain(&cantilever(-100.0));
    assert_ne!(pdf(&finished), report_pdf(&finished.run(), Sheet::Letter).expect("pages"));
}

#[test]
fn names_cannot_break_the_page() {
    let hostile = "</li></table><script>&amp;\u{202e}<b";
    let folder = cantilever(-100.0)
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\nwall,0,0,0\n{hostile},500,0,0\n"))
        .with("tubes.csv", format!("tube,from,to,section,material\n{hostile},wall,{hostile},rail,mild\n"))
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n<hr/>&#0;,{hostile},0,0,-9,0,0,0\n"));
    pdf(&Finished::plain(&folder));
}

#[test]
fn sixty_cases_grow_the_pages_in_proportion() {
    let of = |cases: usize| {
        let finished = Finished::plain(&Lattice { cubes: [2, 1, 1], cases }.folder());
        (report_html(&finished.run()).len(), pdf(&finished).len())
    };
    let (six, sixty) = (of(6), of(60));
    assert!(sixty.0 < 11 * six.0 && sixty.1 < 11 * six.1, "{six:?}, {sixty:?}");
}
