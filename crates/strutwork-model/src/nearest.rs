//! The known name that a misspelt one probably meant.

/// The known name nearest to `name`: the one with the fewest letters to change, if they are few.
///
/// Upper and lower case, spaces, `-` and `_` count as the same letter at first: `Front Left` finds `front-left`.
/// Otherwise at most a third of the letters may differ (at least one, at most three). Of equals the first is taken.
/// Where none is so near, the first that begins with the whole of `name` (three letters at least) is taken.
/// The exact name itself is never returned.
///
/// # Example
/// ```
/// use strutwork_model::nearest::nearest;
/// assert_eq!(nearest("FL1", ["fl1", "fr1"].into_iter()), Some("fl1"));
/// assert_eq!(nearest("thiknes_mm", ["thickness_mm", "note"].into_iter()), Some("thickness_mm"));
/// assert_eq!(nearest("x", ["engine"].into_iter()), None);
/// ```
pub fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = plain(name);
    let allowed = (wanted.len() / 3).clamp(1, 3);
    let mut best: Option<(usize, &'a str)> = None;
    let mut longer: Option<&'a str> = None;
    for candidate in known.filter(|&candidate| candidate != name) {
        let limit = best.map_or(allowed, |(distance, _)| distance.saturating_sub(1));
        let other = plain(candidate);
        if wanted.len() >= 3 && longer.is_none() && other.starts_with(&wanted) {
            longer = Some(candidate);
        }
        if wanted.len().abs_diff(other.len()) > limit || (other.len() <= 1 && wanted != other) {
            continue;
        }
        let distance = distance(&wanted, &other);
        if distance <= limit && best.is_none_or(|(found, _)| distance < found) {
            best = Some((distance, candidate));
        }
        if distance == 0 {
            break;
        }
    }
    best.map(|(_, candidate)| candidate).or(longer)
}

/// The help text ", did you mean …", or nothing.
pub(crate) fn did_you_mean<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<String> {
    nearest(name, known).map(|found| format!("did you mean `{found}`?"))
}

/// Lower case, with one sign for everything that parts words.
fn plain(name: &str) -> Vec<char> {
    let one = |letter: char| if matches!(letter, ' ' | '-' | '_' | '\u{a0}' | '–') { '-' } else { letter };
    name.trim().chars().take(200).flat_map(char::to_lowercase).map(one).collect()
}

/// Letters to insert, drop, change or swap with a neighbour (optimal string alignment).
fn distance(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, &x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, &y) in b.iter().enumerate() {
            let mut cost = (last[j] + usize::from(x != y)).min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && x == b[j - 1] && a[i - 1] == y {
                cost = cost.min(before[j - 1] + 1);
            }
            row.push(cost);
        }
        before = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_changes_as_a_typist_makes_them() {
        let d = |a: &str, b: &str| distance(&plain(a), &plain(b));
        assert_eq!(d("tube", "tube"), 0);
        assert_eq!(d("tbue", "tube"), 1);
        assert_eq!(d("tub", "tube"), 1);
        assert_eq!(d("", "abc"), 3);
        assert_eq!(d("Rail 1", "rail_1"), 0);
    }

    #[test]
    fn prefers_the_closest_then_the_first() {
        assert_eq!(nearest("A12", ["A13", "a12", "A11"].into_iter()), Some("a12"));
        assert_eq!(nearest("A12", ["A13", "A11"].into_iter()), Some("A13"));
        assert_eq!(nearest("A12", ["A12"].into_iter()), None);
        assert_eq!(nearest("joint.csv", ["joints.csv", "tubes.csv"].into_iter()), Some("joints.csv"));
    }

    #[test]
    fn does_not_guess_wildly() {
        assert_eq!(nearest("A", ["B", "C"].into_iter()), None);
        assert_eq!(nearest("engine", ["gearbox"].into_iter()), None);
        assert_eq!(nearest("S235", ["E235+N", "S235JRH"].into_iter()), Some("S235JRH"));
    }
}
