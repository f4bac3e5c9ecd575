//! What matters most, in a welder's words: one sentence an item, and what usually helps.

use strutwork_checks::governing::Standing;
use strutwork_checks::{Finding, PAGES, aside};

use crate::number::significant;
use crate::opening::opening;
use crate::run::Run;
use crate::utilisation::Utilisations;

use super::calculations::Calculations;

/// Items that are told.
const TOLD: usize = 5;

/// One item that matters.
pub(super) struct Plain {
    /// `over`, `outside scope: no pass`, `within`.
    pub(super) standing: &'static str,
    pub(super) tag: &'static str,
    /// What the item is: `tube T1 at joint J`.
    pub(super) about: String,
    /// How much of its limit is used.
    pub(super) used: String,
    /// The sentence of the finding.
    pub(super) sentence: String,
    /// What usually helps.
    pub(super) helps: &'static str,
    /// The calculation that writes it out.
    pub(super) calculation: Option<usize>,
}

/// The items nearest to their limits, or farthest over them, the worst first.
pub(super) fn of(run: &Run<'_>, utilisations: &Utilisations<'_>, calculations: &Calculations<'_>) -> Vec<Plain> {
    let told = utilisations.items.iter().take(TOLD).map(|item| {
        let finding = item.governing;
        let (standing, tag) = match item.standing() {
            Standing::Exceeded => ("over its limit", "error"),
            Standing::Outside => ("outside scope: no pass", "warning"),
            Standing::Passed => ("within its limit", "plain"),
        };
        let used = finding.utilisation.map_or_else(String::new, |used| significant(used, 2));
        Plain {
            standing,
            tag,
            about: run.about(finding.subject),
            used,
            // That it is no proof, its item says by a word, and the calculation in full.
            sentence: as_sentence(aside::without(&finding.message)),
            helps: helps(finding),
            calculation: calculations.number(finding),
        }
    });
    told.collect()
}

/// The finding's own sentence, as a sentence.
pub(super) fn sentence(finding: &Finding) -> String {
    as_sentence(&finding.message)
}

fn as_sentence(text: &str) -> String {
    let end = if text.ends_with('.') { "" } else { "." };
    opening(text) + end
}

/// What usually helps where a check is near its limit or over it.
pub(super) fn helps(finding: &Finding) -> &'static str {
    PAGES.iter().find(|page| page.code == finding.code.0).map_or("", |page| page.remedy)
}

#[cfg(test)]
mod tests {
    use strutwork_checks::aside;

    use super::as_sentence;

    #[test]
    fn the_scope_of_a_clause_is_no_part_of_the_plain_sentence() {
        let told = |message: &str| as_sentence(aside::without(message));
        assert_eq!(told("it holds; outside scope: thin wall; no proof, as."), "It holds.");
        assert_eq!(told("tube A reaches 10 MPa."), "Tube A reaches 10 MPa.");
    }
}
