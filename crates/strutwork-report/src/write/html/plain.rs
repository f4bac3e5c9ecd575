//! What matters most, in a welder's words: one sentence an item, and what usually helps.

use strutwork_checks::governing::Standing;
use strutwork_checks::{Finding, PAGES};

use crate::number::significant;
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
            sentence: in_short(&sentence(finding)),
            helps: helps(finding),
            calculation: calculations.number(finding),
        }
    });
    told.collect()
}

/// The finding's own sentence, as a sentence.
pub(super) fn sentence(finding: &Finding) -> String {
    let mut letters = finding.message.chars();
    let first = letters.next().map_or_else(String::new, |letter| letter.to_uppercase().to_string());
    let end = if finding.message.ends_with('.') { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

/// Where a sentence goes on to why it is no proof: its item says so by a word, and the calculation in full.
const ASIDES: [&str; 4] = ["; outside scope", "; no proof, as", "; not covered:", "; not a pass"];

/// A sentence without what it says of the scope of its clause.
fn in_short(sentence: &str) -> String {
    let end = ASIDES.iter().filter_map(|aside| sentence.find(aside)).min();
    end.map_or_else(|| sentence.to_owned(), |end| format!("{}.", &sentence[..end]))
}

/// What usually helps where a check is near its limit or over it.
pub(super) fn helps(finding: &Finding) -> &'static str {
    PAGES.iter().find(|page| page.code == finding.code.0).map_or("", |page| page.remedy)
}

#[cfg(test)]
mod tests {
    use super::in_short;

    #[test]
    fn the_scope_of_a_clause_is_no_part_of_the_plain_sentence() {
        assert_eq!(in_short("It holds; outside scope: thin wall; no proof, as."), "It holds.");
        assert_eq!(in_short("Tube A reaches 10 MPa."), "Tube A reaches 10 MPa.");
    }
}
