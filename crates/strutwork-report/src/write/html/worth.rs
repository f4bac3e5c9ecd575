//! Which tube earns its weight: what torsional stiffness costs on each.

use strutwork_model::Model;
use strutwork_study::sensitivity::{Rank, Worth};

use crate::figures::{Figure, view, worth as picture};
use crate::number::significant;
use crate::run::Run;
use crate::tables::worth as tables;

use super::table::TableView;

/// Groups and tubes that are shown; the rest stands in the file.
const GROUPS: usize = 24;
const TUBES: usize = 15;

/// What torsional stiffness costs on the tubes of a frame.
pub(crate) struct WorthView {
    /// The dearest and the cheapest group in one breath.
    pub(crate) words: String,
    pub(crate) pictures: Vec<Figure>,
    pub(crate) groups: TableView,
    pub(crate) tubes: TableView,
}

impl WorthView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let worth = run.worth?;
        let pictures = vec![picture::draw(run.model, worth, view::main(run.model))];
        Some(Self::of_model(run.model, worth, "worth.csv", pictures))
    }

    /// Of a model with these pictures; `place` is where the rows that are left out stand.
    pub(crate) fn of_model(model: &Model, worth: &Worth, place: &str, pictures: Vec<Figure>) -> Self {
        Self {
            words: words(worth),
            pictures,
            groups: TableView::cut(&tables::of_groups(worth), GROUPS, place),
            tubes: TableView::cut(&tables::of_tubes(model, Some(worth)), TUBES, place),
        }
    }
}

/// One breath for the fabricator.
fn words(worth: &Worth) -> String {
    let priced = || worth.groups.iter().filter(|rank| rank.grams_per_nm_per_deg.is_some());
    let (Some(cheap), Some(dear)) = (priced().next(), priced().next_back()) else {
        return "A thicker wall brings torsional stiffness on no tube.".to_owned();
    };
    let price = |rank: &Rank| rank.grams_per_nm_per_deg.unwrap_or(f64::INFINITY);
    let mut text = format!(
        "Put steel on {} first: there every N·m/deg of torsional stiffness costs {} g",
        cheap.name,
        significant(price(cheap), 3)
    );
    if cheap.name != dear.name {
        text.push_str(&format!(
            "; on {} it costs {} g, and if weight must go, look there (the checks say whether strength allows it)",
            dear.name,
            significant(price(dear), 3)
        ));
    }
    text.push_str(
        ". Prices are slopes at the walls that the model has, from one solution of the case and no trial (adjoint method): good for \
         small changes; after a large one, run again.",
    );
    text
}
