//! Sets of up to so many of n things, by their number: the smaller first, then in order of their members.

/// How many sets there are; `None` where they cannot be counted in 64 bits.
pub(super) fn count(things: usize, most: usize) -> Option<u64> {
    (0..=most.min(things)).try_fold(0_u64, |sum, size| sum.checked_add(choose(things, size)?))
}

/// The members of a set, ascending.
///
/// # Assumes
/// The set is among those that [`count`] counts.
pub(super) fn members(things: usize, mut set: u64) -> Vec<usize> {
    let mut size = 0;
    while size < things {
        let of_size = choose(things, size).unwrap_or(u64::MAX);
        if set < of_size {
            break;
        }
        set -= of_size;
        size += 1;
    }
    let mut members = Vec::with_capacity(size);
    let mut next = 0;
    while members.len() < size {
        let with_next = choose(things - next - 1, size - members.len() - 1).unwrap_or(u64::MAX);
        if set < with_next {
            members.push(next);
        } else {
            set -= with_next;
        }
        next += 1;
    }
    members
}

/// n over k; `None` where it does not fit.
fn choose(n: usize, k: usize) -> Option<u64> {
    if k > n {
        return Some(0);
    }
    let mut product = 1_u128;
    for step in 0..k.min(n - k) as u128 {
        product = product.checked_mul(n as u128 - step)? / (step + 1);
    }
    u64::try_from(product).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_comes_once_and_the_smaller_first() {
        let all: Vec<Vec<usize>> = (0..count(4, 2).unwrap()).map(|set| members(4, set)).collect();
        let told: [&[usize]; 11] = [&[], &[0], &[1], &[2], &[3], &[0, 1], &[0, 2], &[0, 3], &[1, 2], &[1, 3], &[2, 3]];
        assert_eq!(all, told);
        assert_eq!(count(4, 9), Some(16), "no more than all four");
    }

    #[test]
    fn large_sets_are_counted_and_too_large_ones_are_told() {
        // C(24, 0) + … + C(24, 10), by hand.
        assert_eq!(count(24, 10), Some(4_540_386));
        assert_eq!(members(24, 4_540_385), (14..24).collect::<Vec<_>>(), "the last");
        assert_eq!(count(200, 100), None);
    }
}
