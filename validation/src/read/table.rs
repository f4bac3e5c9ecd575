//! `printed.csv`: the properties of sections as a table prints them, a row a section.

use crate::case::Quantity;
use crate::fault::CaseFault;
use crate::printed::Printed;
use crate::property::SectionProperty;
use crate::unit::Unit;
use crate::what::What;

/// Ends of column names, and the units they stand for.
const SUFFIXES: &[(&str, &str)] = &[
    ("_kg_per_m", "kg/m"),
    ("_m2_per_m", "m2/m"),
    ("_cm", "cm"),
    ("_mm2", "mm2"),
    ("_cm2", "cm2"),
    ("_mm3", "mm3"),
    ("_cm3", "cm3"),
    ("_mm4", "mm4"),
    ("_cm4", "cm4"),
];

/// Reads the table: the first column is `section`, the others are a property with its unit; an empty cell prints nothing.
pub(super) fn read(text: &str) -> Result<Vec<Quantity>, CaseFault> {
    let mut rows = text.lines().enumerate().filter(|(_, line)| !line.starts_with('#') && !line.trim().is_empty());
    let header = rows.next().map_or("", |(_, line)| line);
    let mut names = header.split(',').map(str::trim);
    if names.next() != Some("section") {
        return Err(CaseFault::Word { kind: "header: it starts with `section`", written: header.to_owned() });
    }
    let columns = names.map(column).collect::<Result<Vec<_>, _>>()?;
    let mut quantities = Vec::new();
    for (line, row) in rows {
        let cells: Vec<&str> = row.split(',').map(str::trim).collect();
        if cells.len() != columns.len() + 1 {
            return Err(CaseFault::Cells { line: line + 1, cells: cells.len(), columns: columns.len() + 1 });
        }
        for (cell, &(property, unit)) in cells[1..].iter().zip(&columns) {
            if !cell.is_empty() {
                quantities.push(Quantity {
                    what: What::Section { section: cells[0].to_owned(), property },
                    unit,
                    printed: Printed::read(cell)?,
                    formula: String::new(),
                    allowed: None,
                    seen: None,
                });
            }
        }
    }
    Ok(quantities)
}

fn column(name: &str) -> Result<(SectionProperty, Unit), CaseFault> {
    for (suffix, unit) in SUFFIXES {
        if let Some(property) = name.strip_suffix(suffix).and_then(SectionProperty::named) {
            let unit = Unit::named(unit)?;
            if unit.dimension == property.dimension() {
                return Ok((property, unit));
            }
        }
    }
    Err(CaseFault::Word { kind: "column of properties", written: name.to_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_prints_a_quantity_for_each_cell_that_is_not_empty() {
        let quantities = read("# c\nsection,area_cm2,surface_m2_per_m\n30x2, 2.14,\n40x2,2.94,0.153\n").unwrap();
        let printed: Vec<_> = quantities.iter().map(|q| (q.what.to_string(), q.unit.name, q.printed.text())).collect();
        assert_eq!(printed[0], ("A of 30x2".to_owned(), "cm2", "2.14"));
        assert_eq!(printed[2], ("surface per metre of 40x2".to_owned(), "m2/m", "0.153"));
        assert_eq!(printed.len(), 3);
    }

    #[test]
    fn unknown_columns_wrong_units_and_ragged_rows_are_errors() {
        for text in ["name,area_cm2\n", "section,colour\n", "section,area_cm4\n", "section,area_cm2\na,1.5,2.5\n", ""] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
