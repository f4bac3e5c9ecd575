//! Variants that no other beats in both of two responses.

use crate::outcome::Row;

/// A front with more members than this is thinned.
const MOST: usize = 1000;

/// A variant on the front.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontMember {
    /// Of this less is better.
    pub x: f64,
    /// Of this more is better.
    pub y: f64,
    /// The variant.
    pub row: Row,
}

/// Variants that no other beats in both, by x and so by y too; of equals the first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Front {
    /// The members.
    pub members: Vec<FrontMember>,
    /// Whether members were left out for want of room: then one that is shown may be beaten by one that is not.
    pub thinned: bool,
}

impl Front {
    pub(super) fn add(&mut self, x: f64, y: f64, row: &Row) {
        let members = &mut self.members;
        let after = members.partition_point(|member| member.x <= x);
        if after > 0 && members[after - 1].y >= y {
            return;
        }
        // It beats one that weighs the same, and those that weigh more and are no better.
        let start = if after > 0 && members[after - 1].x == x { after - 1 } else { after };
        let end = after + members[after..].iter().take_while(|member| member.y <= y).count();
        members.splice(start..end, [FrontMember { x, y, row: row.clone() }]);
        if members.len() > MOST {
            let last = members.len() - 1;
            let mut place = 0;
            members.retain(|_| {
                let kept = place % 2 == 0 || place == last;
                place += 1;
                kept
            });
            self.thinned = true;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outcome::{Outcome, Status};

    fn row(variant: u64) -> Row {
        let outcome = Outcome {
            status: Status::Solved,
            responses: vec![],
            feasible: None,
            note: String::new(),
            way: crate::outcome::Way::Whole(crate::outcome::Why::FewAlike),
        };
        Row { variant, values: vec![], outcome }
    }

    /// Against the definition: a point is on the front if no other is at least as good in both and better in one.
    #[test]
    fn the_front_is_what_its_definition_says() {
        let points: Vec<(f64, f64)> =
            (0..300_u32).map(|i| (f64::from(i * 7919 % 41), f64::from(i * 104_729 % 37))).collect();
        let mut front = Front::default();
        for (variant, (x, y)) in points.iter().enumerate() {
            front.add(*x, *y, &row(variant as u64));
        }
        let beaten = |(x, y): (f64, f64)| points.iter().any(|&(a, b)| a <= x && b >= y && (a, b) != (x, y));
        let mut wanted: Vec<(f64, f64)> = points.iter().copied().filter(|point| !beaten(*point)).collect();
        wanted.sort_by(|a, b| a.0.total_cmp(&b.0));
        wanted.dedup();
        let found: Vec<(f64, f64)> = front.members.iter().map(|member| (member.x, member.y)).collect();
        assert_eq!(found, wanted);
        for member in &front.members {
            let first = points.iter().position(|point| *point == (member.x, member.y)).unwrap();
            assert_eq!(member.row.variant, first as u64, "of equals the first");
        }
        assert!(!front.thinned);
    }

    #[test]
    fn a_front_without_end_is_thinned_and_says_so() {
        let mut front = Front::default();
        (0..5000_u64).for_each(|variant| front.add(variant as f64, variant as f64, &row(variant)));
        assert!(front.thinned && front.members.len() <= MOST, "{}", front.members.len());
        assert_eq!((front.members[0].x, front.members.last().unwrap().x), (0.0, 4999.0));
    }
}
