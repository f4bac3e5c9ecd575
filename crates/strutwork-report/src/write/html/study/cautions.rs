//! What a reader of a study must have read before the numbers.

use crate::study::StudyRun;

/// The cautions of a study.
pub(super) fn of(run: &StudyRun<'_>, sampled: bool) -> Vec<(&'static str, String)> {
    let mut cautions = vec![
        (
            "A variant within its limits is not a frame that passes.",
            "A study looks at what it was asked for and at nothing else. Run the variant that you choose as a model and read its report: \
             what is outside the scope of a clause, and what is not checked at all, stands there."
                .to_owned(),
        ),
        (
            "The best here is the best of what was tried.",
            "Other values, other groups, another diagonal may do better. Whether a size can be bought, bent and welded, and whether a \
             joint has room for it, nobody looked at."
                .to_owned(),
        ),
        (
            "Stiffness is one reason for a tube.",
            "A tube that does little for the twist may carry a load in a case that was not solved, hold a seat, keep a post from an \
             engine, or save a head. Nothing here says that it may be left out."
                .to_owned(),
        ),
        (
            "The model is linear, its joints are as stiff as the model has them.",
            "Real frames come out softer. Differences between variants are more to be trusted than their values; small differences are \
             not more than the model is worth. Measure the frame."
                .to_owned(),
        ),
    ];
    if run.start.worth.is_ok() {
        cautions.push((
            "Grams per N·m/deg are slopes.",
            "They hold for small changes of the walls that the model has now. After a change they are others."
                .to_owned(),
        ));
    }
    if sampled {
        cautions.push((
            "A band is no bound.",
            "It is the spread of these samples over what was varied, as far as it was varied. Frames outside of it can be built: joints, \
             materials and welds vary too."
                .to_owned(),
        ));
    }
    cautions.push((
        "People ride on it.",
        "Have a qualified engineer review the model, the load cases and the report of the frame that is built."
            .to_owned(),
    ));
    cautions
}
