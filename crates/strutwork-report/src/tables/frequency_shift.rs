//! `frequency_shift.csv`: natural modes without and with what is there only while driven, paired by shape.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// The modes of the driven frame in order, each beside its partner, then those of the empty frame that have none; empty
/// where no mass is called driven.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let columns = vec![
        Column::number("mode", "mode driven", "", Digits::Decimals(0)),
        Column::number("empty_mode", "mode empty", "", Digits::Decimals(0)),
        Column::number("empty_hz", "empty", "Hz", Digits::Each(4)),
        Column::number("driven_hz", "driven", "Hz", Digits::Each(4)),
        Column::number("shift_percent", "shift", "%", Digits::Decimals(2)),
        Column::number("mac", "alike (MAC)", "", Digits::Decimals(3)),
        Column::text("name", "shape"),
    ];
    let mut rows = Vec::new();
    if let (Some(shift), Some(driven)) = (&run.asked.shift, &run.asked.modes) {
        for pair in &shift.pairs {
            let (with, without) = (pair.driven, pair.empty);
            let number = |place: Option<usize>, rigid: usize| Cell::from(place.map(|place| (rigid + place + 1) as f64));
            let with = with.map(|place| &driven.modes[place]);
            let without = without.map(|place| &shift.empty.modes[place]);
            rows.push(vec![
                number(pair.driven, driven.rigid),
                number(pair.empty, shift.empty.rigid),
                Cell::from(without.map(|mode| mode.frequency)),
                Cell::from(with.map(|mode| mode.frequency)),
                Cell::from(shift.shift(pair, driven).map(|[_, _, change]| change * 100.0)),
                Cell::Number(pair.alike),
                with.or(without).map_or(Cell::Empty, |mode| Cell::from(mode.name.words(run.model))),
            ]);
        }
    }
    let caption = "Natural frequencies without and with what is there only while driven".into();
    Table { name: "frequency_shift", caption, columns, rows }
}
