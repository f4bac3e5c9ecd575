//! What `[welds]` becomes, and its faults, each by spoiling a good folder in one place.

use approx::assert_relative_eq;
use strutwork_model::model::{WeldKind, WeldMethod, WeldProcess};
use strutwork_model::{InputFile, InputFiles, codes};

use crate::faults::Case;
use crate::folder::{change, folder, model};

const TUBES: &str = "tube,from,to,section,material,group
AB,A,B,rail,mild,rails
BC,B,C,rail,mild,struts
CA,C,A,rail,mild,
";

const TABLES: &str = r#"[welds]
throat_mm = 2.5
method = "simplified"
process = "mig"
[welds.groups.rails]
kind = "butt"
[welds.groups.struts]
throat_mm = 3
[sections.rail]
"#;

/// A good folder with every key.
fn welded() -> InputFiles {
    let mut files = folder();
    change(&mut files, "model.toml", "[sections.rail]\n", TABLES);
    files.0.retain(|file| file.name != "tubes.csv");
    files.0.push(InputFile::new("tubes.csv", TUBES));
    files
}

fn toml(from: &str, to: &str) -> InputFiles {
    let mut files = welded();
    change(&mut files, "model.toml", from, to);
    files
}

pub(crate) fn cases() -> Vec<Case> {
    vec![
        (codes::WELD_GROUP, ("model.toml", 9, 15, 5), "`rails`", toml("groups.rails", "groups.railz")),
        (codes::UNKNOWN_WORD, ("model.toml", 10, 8, 5), "`butt`", toml("\"butt\"", "\"but\"")),
        (codes::UNKNOWN_WORD, ("model.toml", 7, 10, 12), "`simplified`", toml("\"simplified\"", "\"simplifyed\"")),
        (codes::UNKNOWN_WORD, ("model.toml", 8, 11, 5), "tig, mig", toml("\"mig\"", "\"arc\"")),
        (codes::UNKNOWN_KEY, ("model.toml", 12, 1, 6), "throat_mm", toml("throat_mm = 3", "method = \"x\"")),
        (codes::WELD_THROAT, ("model.toml", 6, 13, 2), "0.7 of its leg", toml("2.5", "-1")),
        (codes::NOT_FINITE, ("model.toml", 12, 13, 3), "finite", toml("= 3\n", "= inf\n")),
        (codes::BUTT_THROAT, ("model.toml", 11, 13, 1), "fillet", {
            toml("kind = \"butt\"", "kind = \"butt\"\nthroat_mm = 2")
        }),
        (codes::BUTT_THROAT, ("model.toml", 12, 13, 1), "partial", { toml("throat_mm = 2.5", "kind = \"butt\"") }),
        (codes::ODD_THROAT, ("model.toml", 12, 13, 3), "`BC` 2.00 mm", toml("= 3\n", "= 3.1\n")),
        (codes::ODD_THROAT, ("model.toml", 6, 13, 1), "`CA` 2.00 mm", toml("2.5", "4")),
        (codes::ODD_THROAT, ("model.toml", 6, 13, 3), "less than 1 mm", toml("2.5", "0.7")),
    ]
}

#[test]
fn a_weld_is_that_of_the_group_and_else_that_of_all() {
    let warned = model(&welded());
    assert_eq!(warned.warnings, []);
    let model = warned.value;
    assert_eq!((model.welds().method, model.welds().process), (WeldMethod::Simplified, WeldProcess::Mig));
    let of = |name: &str| model.weld(model.tube_named(name).expect("a tube"));
    // A butt weld is as thick as the wall.
    for (name, kind, throat, given) in [
        ("AB", WeldKind::Butt, 2e-3, false),
        ("BC", WeldKind::Fillet, 3e-3, true),
        ("CA", WeldKind::Fillet, 2.5e-3, true),
    ] {
        let weld = of(name);
        assert_eq!((weld.kind, weld.given), (kind, given), "{name}");
        assert_relative_eq!(weld.throat.expect("a throat"), throat, max_relative = 1e-15);
    }
}

#[test]
fn without_a_word_it_is_a_fillet_as_thick_as_the_wall() {
    let model = model(&folder()).value;
    let welds = model.welds();
    assert_eq!(
        (welds.kind, welds.method, welds.process),
        (WeldKind::Fillet, WeldMethod::Directional, WeldProcess::Tig)
    );
    for tube in model.tubes().ids() {
        let weld = model.weld(tube);
        assert_eq!((weld.kind, weld.throat, weld.given), (WeldKind::Fillet, Some(2e-3), false));
    }
}

/// Nobody knows how thick a fillet round a bar is.
#[test]
fn a_bar_has_no_throat_until_one_is_given() {
    let bar = |more: &str| {
        let mut files = folder();
        change(
            &mut files,
            "model.toml",
            "shape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0\n",
            "shape = \"solid-round\"\ndiameter_mm = 15\n",
        );
        change(&mut files, "model.toml", "[sections.rail]\n", &format!("{more}[sections.rail]\n"));
        let model = model(&files).value;
        model.weld(model.tube_named("AB").expect("a tube")).throat
    };
    assert_eq!(bar(""), None);
    assert_eq!(bar("[welds]\nthroat_mm = 3\n"), Some(3e-3));
}
