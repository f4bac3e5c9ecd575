//! What sizes there are to choose from, as a script names them.

use rhai::{Array, Dynamic};
use strutwork_model::units::MM;
use strutwork_model::{Model, stock};
use strutwork_study::Levels;
use strutwork_study::sizing::{Choice, Size, with_wall};

use super::vary::walls;
use crate::fault::Fault;
use crate::number::{Named, kind, number, text};

/// Sizes as a script gives them: names, or maps with a price.
pub(super) fn sizes(model: &Model, given: &Array) -> Result<Choice, Fault> {
    let one = |item: &Dynamic| -> Result<Size, Fault> {
        if item.is_string() {
            return named(model, &text("a size", item)?);
        }
        let Ok(map) = item.as_map_ref() else {
            let (what, expected) = ("a size".to_owned(), "a text, or a map with `size` and `price_per_m`");
            return Err(Fault::WrongType { what, expected, got: kind(item) });
        };
        let map = Named::new("a size", &map, &["size", "price_per_m"])?;
        Ok(named(model, &map.needed_text("size")?)?.priced(map.needed("price_per_m")?))
    };
    given.iter().map(one).collect::<Result<_, _>>().map(Choice::List)
}

/// A section of the model, or a size of the stock list.
fn named(model: &Model, name: &str) -> Result<Size, Fault> {
    if let Some(section) = model.sections().iter().find(|section| section.name == name) {
        return Ok(Size { name: name.to_owned(), ..Size::new(section.clone()) });
    }
    let all: Vec<String> = stock::all().map(|size| size.name()).collect();
    let known = || model.sections().iter().map(|section| section.name.as_str()).chain(all.iter().map(String::as_str));
    let size = stock::find(name).ok_or_else(|| Fault::unknown("section or stock size", name, known()))?;
    Size::stock(&size).map_err(|fault| Fault::Task(fault.to_string()))
}

/// The section of a group's tubes with other walls.
pub(super) fn walls_of(model: &Model, group: &str, given: &Dynamic) -> Result<Choice, Fault> {
    let Levels::List(walls) = walls(given)? else { return Ok(Choice::List(Vec::new())) };
    let mut shapes =
        model.tubes().iter().filter(|tube| tube.group == group).map(|tube| &model.sections()[tube.section]);
    let like = shapes.next();
    let Some(like) = like.filter(|first| shapes.all(|other| other.shape == first.shape)) else {
        return Err(Fault::Task(format!(
            "the tubes of `{group}` have sections of more than one shape: give them sizes with choose_size"
        )));
    };
    let sizes = walls.into_iter().filter_map(|wall| wall.number()).map(|wall_mm| {
        let section = with_wall(like, wall_mm * MM)
            .ok_or_else(|| Fault::Task(format!("a wall of {wall_mm} mm makes no tube of the section of `{group}`")))?;
        Ok(Size { name: format!("{wall_mm} mm"), section, price_per_m: None })
    });
    sizes.collect::<Result<_, _>>().map(Choice::List)
}

/// A number above 0.
pub(super) fn positive(what: &str, value: &Dynamic) -> Result<f64, Fault> {
    let value = number(what, value)?;
    if value > 0.0 { Ok(value) } else { Err(Fault::OutOfRange { what: what.to_owned(), value, range: "above 0" }) }
}
