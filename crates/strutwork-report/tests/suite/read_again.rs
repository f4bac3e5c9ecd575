//! What is read of result files again is what is written into them: both name columns, units and quantities.

use std::collections::{BTreeMap, BTreeSet};

use strutwork_report::table::Column;
use strutwork_report::tables;
use strutwork_revision::results::{ALONG, OF_FRAME, OF_TRUST, TABLES};

use crate::rolling::{narrow_braces, vehicle_with};

#[test]
fn every_column_that_is_read_is_written_with_its_unit() {
    let finished = vehicle_with(narrow_braces());
    let run = finished.run();
    let written: BTreeMap<String, Vec<Column>> = tables::ALL
        .iter()
        .map(|(make, _)| make(&run))
        .map(|table| (format!("{}.csv", table.name), table.columns))
        .collect();
    let unit = |file: &str, name: &str| {
        let columns = written.get(file).unwrap_or_else(|| panic!("{file} is not written"));
        columns.iter().find(|column| column.key == name).unwrap_or_else(|| panic!("{file} has no `{name}`")).unit
    };
    for of in TABLES {
        for name in of.subject.0.iter().chain(of.by_case.then_some(&"case")) {
            unit(of.file, name);
        }
        for (name, read) in of.numbers {
            assert_eq!(unit(of.file, name), *read, "{} {name}", of.file);
        }
    }
    for of in ALONG {
        assert_eq!(unit("member_forces.csv", of.column), of.unit, "{}", of.column);
    }
}

/// A vehicle that nothing holds, with soft joints, whose roll is measured, has them all.
#[test]
fn every_quantity_of_a_case_that_is_read_by_its_name_is_written() {
    let finished = vehicle_with(narrow_braces());
    let written: BTreeSet<String> = finished.rows("cases.csv").into_iter().skip(1).map(|row| row[1].clone()).collect();
    let gone: Vec<&str> = OF_FRAME.into_iter().chain(OF_TRUST).filter(|name| !written.contains(*name)).collect();
    assert!(gone.is_empty(), "{gone:?} are not among {written:?}");
}
