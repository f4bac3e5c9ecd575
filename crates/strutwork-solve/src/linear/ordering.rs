//! Elimination order of the joints: nested dissection by their places.

/// Pieces this small are left to the minimum-degree order.
const LEAF: usize = 48;

/// An elimination order of joints: `order[new] = old`. Pieces of at most [`LEAF`] joints come out in the order of `first`.
///
/// The joints are halved along their longest extent; those of one half that touch the other form the separator and are
/// eliminated last. Fewer entries in the factor than minimum degree for large three-dimensional lattices.
///
/// # Source
/// George (1973), Nested dissection of a regular finite element mesh, SIAM Journal on Numerical Analysis 10(2),
/// pp. 345–363 (from memory); cut by coordinates instead of by grid lines.
pub(super) fn dissect(places: &[[f64; 3]], neighbours: &[Vec<u32>], first: &[usize]) -> Vec<usize> {
    let mut rank = vec![0; first.len()];
    for (new, &old) in first.iter().enumerate() {
        rank[old] = new;
    }
    let mut order = Vec::with_capacity(places.len());
    let mut side = vec![0u32; places.len()];
    let mut label = 0;
    cut(&mut (0..places.len()).collect::<Vec<_>>(), places, neighbours, &rank, &mut side, &mut label, &mut order);
    order
}

fn cut(
    joints: &mut [usize],
    places: &[[f64; 3]],
    neighbours: &[Vec<u32>],
    rank: &[usize],
    side: &mut [u32],
    label: &mut u32,
    order: &mut Vec<usize>,
) {
    if joints.len() <= LEAF {
        joints.sort_unstable_by_key(|joint| rank[*joint]);
        order.extend_from_slice(joints);
        return;
    }
    let extent = |axis: usize| {
        let values = || joints.iter().map(|joint| places[*joint][axis]);
        values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min)
    };
    let extents = [extent(0), extent(1), extent(2)];
    let axis = (0..3).max_by(|a, b| extents[*a].total_cmp(&extents[*b])).expect("three axes");
    joints.sort_unstable_by(|a, b| places[*a][axis].total_cmp(&places[*b][axis]).then(a.cmp(b)));
    let middle = joints.len() / 2;
    let (low, high) = (*label + 1, *label + 2);
    *label += 2;
    for (index, &joint) in joints.iter().enumerate() {
        side[joint] = if index < middle { low } else { high };
    }
    let touches = |joint: usize| neighbours[joint].iter().any(|other| side[*other as usize] == low);
    let (lower, upper) = joints.split_at_mut(middle);
    let mut separator: Vec<usize> = upper.iter().copied().filter(|joint| touches(*joint)).collect();
    let mut rest: Vec<usize> = upper.iter().copied().filter(|joint| !touches(*joint)).collect();
    if rest.is_empty() {
        // Nothing is gained by cutting a piece that is all separator.
        joints.sort_unstable_by_key(|joint| rank[*joint]);
        order.extend_from_slice(joints);
        return;
    }
    cut(lower, places, neighbours, rank, side, label, order);
    cut(&mut rest, places, neighbours, rank, side, label, order);
    separator.sort_unstable_by_key(|joint| rank[*joint]);
    order.extend(separator);
}
