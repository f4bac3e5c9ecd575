//! Which of a response's values are better, and which two responses are drawn against each other.

use crate::outcome::Row;
use crate::response::Asked;
use crate::study::{Limit, Study};

/// Which values of a response one would rather have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Better {
    /// Small ones: mass, utilisation.
    Less,
    /// Large ones: stiffness, frequency, load factor.
    More,
}

impl Study {
    /// Which values of a response one would rather have: what it is says so, else the bounds on it; `None` where neither does.
    pub fn better(&self, response: usize) -> Option<Better> {
        match self.responses.get(response)?.asked {
            Asked::TubesMass | Asked::TotalMass | Asked::Utilisation(_) | Asked::OutsideScope => Some(Better::Less),
            Asked::TwistStiffness | Asked::Frequency(_) | Asked::Buckling(_) => Some(Better::More),
            Asked::Movement { .. } | Asked::Mount { .. } | Asked::Own => {
                let mut sides = self
                    .constraints
                    .iter()
                    .filter(|bound| bound.response == response)
                    .map(|bound| if matches!(bound.limit, Limit::AtMost(_)) { Better::Less } else { Better::More });
                let first = sides.next()?;
                sides.all(|side| side == first).then_some(first)
            }
        }
    }
}

/// Two responses that pull against each other: one of which less is better, one of which more is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plane {
    /// The place of the response of which less is better: the mass where it is asked.
    pub less: usize,
    /// The place of the response of which more is better: the torsional stiffness where it is asked.
    pub more: usize,
}

impl Plane {
    /// The two of a study; `None` where it has no two such responses.
    pub fn of(study: &Study) -> Option<Self> {
        let asked = |wanted: fn(&Asked) -> bool| study.responses.iter().position(|response| wanted(&response.asked));
        let first = |side: Better| (0..study.responses.len()).find(|place| study.better(*place) == Some(side));
        let mass = asked(|asked| *asked == Asked::TubesMass).or_else(|| asked(|asked| *asked == Asked::TotalMass));
        let less = mass.or_else(|| first(Better::Less))?;
        let more = asked(|asked| *asked == Asked::TwistStiffness).or_else(|| first(Better::More))?;
        Some(Self { less, more })
    }

    /// Where a variant lies; `None` where it lacks one of the two, or it has no bounds.
    pub fn at(&self, row: &Row) -> Option<(f64, f64)> {
        let value =
            |place: usize| row.outcome.responses.get(place).copied().flatten().filter(|value| value.is_finite());
        Some((value(self.less)?, value(self.more)?))
    }
}
