//! What holds for any input: no panic, the same answer twice, every fault with a place inside its file.

use proptest::prelude::*;
use strutwork_model::files::KNOWN_FILES;
use strutwork_model::spec::BondWritten;
use strutwork_model::{Diagnostic, Faults, InputFile, InputFiles, codes, explain, read_model, spec, validate};

use crate::folder::{change, folder};
use crate::vehicle::vehicle;

/// What must hold whatever the files say. Returns what was found.
fn holds(files: &InputFiles) -> Vec<Diagnostic> {
    let found = match read_model(files) {
        Ok(model) => model.warnings,
        Err(Faults(faults)) => {
            assert!(faults.iter().any(|fault| fault.severity == strutwork_model::Severity::Error));
            faults
        }
    };
    let again = match read_model(files) {
        Ok(model) => model.warnings,
        Err(Faults(faults)) => faults,
    };
    assert_eq!(found, again);
    for fault in &found {
        assert!(codes::ALL.contains(&fault.code) && explain::PAGES.iter().any(|page| page.code == fault.code.0));
        assert!(!fault.message.is_empty() && !fault.message.contains(char::is_control), "{fault}");
        let Some(place) = &fault.place else { continue };
        let Some(text) = files.get(&place.file).and_then(|bytes| std::str::from_utf8(bytes).ok()) else { continue };
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if place.line > 0 && place.column > 0 {
            let line = text.split('\n').nth(place.line - 1).expect("a line of the file");
            let length = line.chars().count();
            assert!(place.column + place.width <= length.max(1) + 2, "{fault}: {place:?} in `{line}`");
        }
    }
    found
}

fn name() -> impl Strategy<Value = &'static str> {
    prop::sample::select(KNOWN_FILES.iter().map(|known| known.name).collect::<Vec<_>>())
}

/// Texts made of the signs that matter to the readers.
fn near_text() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        ",",
        "\n",
        "\r\n",
        "\"",
        "\"\"",
        "#",
        ";",
        " ",
        "A",
        "B",
        "ä",
        "1e3",
        "-0",
        "nan",
        "fixed",
        "free",
        "[",
        "]",
        "=",
        "joint",
        "x_mm",
        "x_m",
        "tube",
        "case",
        "sections",
        ".",
        "'",
        "body:",
        "upright:",
        "rigid",
        "front-left",
        "\t",
        "1,5",
        "{",
        "}",
        "\u{0}",
    ]);
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_in_any_file_bring_no_panic(name in name(), bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let mut files = vehicle();
        files.0.retain(|file| file.name != name);
        files.0.push(InputFile::new(name, bytes));
        holds(&files);
    }

    #[test]
    fn near_texts_bring_no_panic(name in name(), text in near_text()) {
        let mut files = vehicle();
        files.0.retain(|file| file.name != name);
        files.0.push(InputFile::new(name, text));
        holds(&files);
    }

    #[test]
    fn a_good_file_with_a_piece_put_in_anywhere_brings_no_panic(row in 0..12_usize, at in any::<prop::sample::Index>(), text in near_text()) {
        let mut files = vehicle();
        let bytes = &mut files.0[row].bytes;
        let at = at.index(bytes.len() + 1);
        bytes.splice(at..at, text.bytes());
        holds(&files);
    }

    #[test]
    fn a_good_file_cut_anywhere_brings_no_panic(row in 0..12_usize, at in any::<prop::sample::Index>()) {
        let mut files = vehicle();
        let bytes = &mut files.0[row].bytes;
        bytes.truncate(at.index(bytes.len() + 1));
        holds(&files);
    }

    #[test]
    fn any_numbers_in_a_spec_bring_no_panic(x in any::<f64>(), kg in any::<f64>(), wall in any::<f64>(), e in any::<f64>()) {
        let (mut spec, _) = spec::parse(&vehicle());
        spec.joints[0].x_mm = x.into();
        spec.masses[0].kg = kg.into();
        spec.bodies[2].bonds[0] = BondWritten::Stiffness(x).into();
        spec.bodies[1].axis = Some([x, kg, wall].into());
        spec.suspension[0].upright_mm = [x.into(), kg.into(), wall.into()];
        spec.places[1].at_mm = Some([x, kg, wall].into());
        spec.weighed.frame_kg = Some(kg.into());
        spec.sections[0].wall_mm = Some(wall.into());
        spec.materials[0].e_mpa = Some(e.into());
        let _ = validate::validate(&spec);
    }

    #[test]
    fn any_name_may_be_a_name(name in "[^\\p{Cc}\",#]{1,20}") {
        prop_assume!(!name.trim().is_empty() && !["A", "B", "C"].contains(&name.trim()));
        let mut files = folder();
        let quoted = format!("\"{name}\"");
        change(&mut files, "joints.csv", "C,", &format!("{quoted},"));
        change(&mut files, "tubes.csv", "BC,B,C", &format!("BC,B,{quoted}"));
        change(&mut files, "tubes.csv", "CA,C", &format!("CA,{quoted}"));
        change(&mut files, "loads.csv", "brake,C", &format!("brake,{quoted}"));
        change(&mut files, "loads.csv", "snow,C", &format!("snow,{quoted}"));
        prop_assert_eq!(holds(&files), vec![]);
        let model = read_model(&files).expect("good").value;
        prop_assert!(model.joint_named(&name).is_some());
    }
}
