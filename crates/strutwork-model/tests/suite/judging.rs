//! What basis, member rules, buckling lengths, routes and switched-off checks become.

use approx::assert_relative_eq;
use strutwork_model::InputFiles;
use strutwork_model::model::{BasisKind, Buckling, Route, SWITCHABLE};

use crate::folder::{change, folder, model};

const TUBES: &str = "tube,from,to,section,material,group,release_to,buckling_y_mm,buckling_factor_z
AB,A,B,rail,mild,rails,,,
BC,B,C,rail,mild,struts,,750,0.9
CA,C,A,rail,mild,struts,ry,,
";

const TABLES: &str = r#"[basis]
kind = "eurocode"
gamma_m1 = { value = 1.1, source = "DE annex" }
[members]
braces = ["struts"]
chords = ["rails"]
slenderness_limit = 150
sway = true
[checks.D023]
off = true
reason = "ties only"
[sections.rail]
route = "hot-finished"
"#;

/// A good folder with every table and column of this kind.
pub(crate) fn judged() -> InputFiles {
    let mut files = folder();
    change(&mut files, "model.toml", "[sections.rail]\n", TABLES);
    files.0.retain(|file| file.name != "tubes.csv");
    files.0.push(strutwork_model::InputFile::new("tubes.csv", TUBES));
    files
}

/// The folder with a piece of one file replaced.
pub(crate) fn with(name: &str, from: &str, to: &str) -> InputFiles {
    let mut files = judged();
    change(&mut files, name, from, to);
    files
}

#[test]
fn a_model_says_what_it_is_judged_by() {
    let model = model(&judged()).value;
    let basis = model.basis();
    assert_eq!(basis.kind, BasisKind::Eurocode);
    assert_eq!((basis.gamma_m1.value, basis.gamma_m1.source.as_str()), (1.1, "DE annex"));
    let others = [&basis.gamma_m0, &basis.gamma_m2, &basis.gamma_m5, &basis.gamma_mf];
    assert_eq!(others.map(|gamma| gamma.value), [1.0, 1.25, 1.0, 1.35]);
    assert_eq!(model.members().slenderness_limit, 150.0);
    assert!(model.members().sway);
    let [off] = model.switched_off() else { panic!("one check") };
    assert_eq!((off.check.as_str(), off.reason.as_str()), ("D023", "ties only"));
    assert_eq!(model.sections().iter().next().expect("a section").route, Some(Route::HotFinished));
}

#[test]
fn buckling_lengths_are_given_or_follow_the_rule_of_the_group() {
    let model = model(&judged()).value;
    let lengths = |name: &str| {
        let tube = model.tube_named(name).expect("a tube");
        (model.length(tube), model.buckling_lengths(tube))
    };
    let (own, [y, z]) = lengths("AB");
    assert_relative_eq!(y.length, 0.9 * own, max_relative = 1e-15);
    assert_eq!(y, z);
    let (own, [y, z]) = lengths("BC");
    assert_relative_eq!(y.length, 0.75, max_relative = 1e-15);
    assert_relative_eq!(z.length, 0.9 * own, max_relative = 1e-15);
    assert_eq!(model.tubes()[model.tube_named("BC").expect("a tube")].buckling[1], Buckling::Factor(0.9));
    // A hinge about y at one end: the weld that the rule for braces rests on does not hold that end.
    let (own, [y, z]) = lengths("CA");
    assert_eq!((y.length, y.why), (own, "the tube's own length"));
    assert_relative_eq!(z.length, 0.75 * own, max_relative = 1e-15);
}

#[test]
fn without_a_word_the_basis_is_vehicle_practice_and_tube_is_cold_formed() {
    let model = model(&folder()).value;
    assert_eq!(model.basis().kind, BasisKind::Vehicle);
    assert_eq!(model.members().slenderness_limit, 180.0);
    assert!(!model.members().sway);
    assert!(model.switched_off().is_empty());
    assert_eq!(model.sections().iter().next().expect("a section").route, Some(Route::ColdFormed));
    let tube = model.tube_named("AB").expect("a tube");
    assert_eq!(model.buckling_lengths(tube).map(|buckling| buckling.length), [model.length(tube); 2]);
}

#[test]
fn what_is_not_checked_cannot_be_switched_off() {
    assert!(!SWITCHABLE.contains(&"D002"));
    assert!(SWITCHABLE.windows(2).all(|pair| pair[0] < pair[1]));
}
