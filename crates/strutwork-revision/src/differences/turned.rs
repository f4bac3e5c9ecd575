//! Forces of a tube that runs the other way now, told from its other end.
//!
//! At a cut the forces are those of the `to` side on the `from` side. Turn the tube round and the sides change places: every
//! force and moment changes its sign, and is then read along axes of which x is opposite and the other two as the rule for
//! local axes has them. So N and T keep their signs, and each of the others is multiplied by minus the product of its old and
//! its new axis.

use std::borrow::Cow;
use std::collections::BTreeMap;

use strutwork_model::Model;

use crate::inputs::{Pairs, axes};
use crate::results::{ALONG, Quantity};

/// Tubes that run the other way: the signs of what acts along and about y and z.
#[derive(Default)]
pub(super) struct Turns(BTreeMap<String, Option<[f64; 2]>>);

impl Turns {
    pub(super) fn of(a: &Model, b: &Model, pairs: &Pairs) -> Self {
        let turned = a.tubes().iter_with_id().filter_map(|(id, tube)| {
            let pair = pairs.tube(id).filter(|pair| pair.reversed)?;
            let signs = axes(a, id).zip(axes(b, pair.tube)).and_then(|(was, is)| {
                let product = |axis: usize| was.rotation.row(axis).dot(&is.rotation.row(axis));
                let [y, z] = [product(1), product(2)];
                // Axes that are neither alike nor opposite have no signs: the tube was rolled as well.
                (y.abs() > 0.9 && z.abs() > 0.9).then(|| [-y.signum(), -z.signum()])
            });
            Some((tube.name.clone(), signs))
        });
        Self(turned.collect())
    }

    /// A quantity of a tube, from its other end where it runs the other way; `None` where the two cannot be compared.
    pub(super) fn turn(&self, one: &Quantity) -> Option<Quantity> {
        let Some(signs) = self.0.get(&one.subject) else { return Some(one.clone()) };
        for of in ALONG {
            let axis = match of.column {
                "vy_n" | "my_nm" => Some(0),
                "vz_n" | "mz_nm" => Some(1),
                _ => None,
            };
            let sign = match (axis, signs) {
                (None, _) => 1.0,
                (Some(axis), Some(signs)) => signs[axis],
                (Some(_), None) if of.is(&one.quantity) => return None,
                (Some(_), None) => continue,
            };
            if let Some([from, to]) = of.ends {
                let end = |quantity: &'static str| {
                    Some(Quantity { quantity: Cow::Borrowed(quantity), value: sign * one.value, ..one.clone() })
                };
                if one.quantity == from {
                    return end(to);
                }
                if one.quantity == to {
                    return end(from);
                }
            }
        }
        Some(one.clone())
    }
}
