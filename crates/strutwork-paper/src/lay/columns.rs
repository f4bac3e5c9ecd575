//! How wide the columns of a table are.

use crate::words::Want;

/// Widths of columns that want these, in a room of this width; `None` where not even their longest words fit.
///
/// Where all fits on one line each, columns take what they want, and a table that nearly fills the room fills it. Else each
/// takes its longest word at least, and longer texts take more of the rest.
pub(super) fn widths(wants: &[Want], room: f64) -> Option<Vec<f64>> {
    let lines: f64 = wants.iter().map(|want| want.line).sum();
    if lines <= room {
        let spare = if lines > 0.7 * room { room - lines } else { 0.0 };
        let each = spare / wants.len().max(1) as f64;
        return Some(wants.iter().map(|want| want.line + each).collect());
    }
    let words: f64 = wants.iter().map(|want| want.word).sum();
    if words > room {
        return None;
    }
    // Each column takes so much of its line, in the measure of others', that all fill the room: the longer the text, the
    // wider, and the fewer lines the tallest cell has.
    let taken = |level: f64| -> Vec<f64> {
        let of = |want: &Want| (level * want.line.max(0.0).powf(STRETCH)).clamp(want.word.min(want.line), want.line);
        wants.iter().map(of).collect()
    };
    let (mut low, mut high) = (0.0, room);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if taken(middle).iter().sum::<f64>() <= room { low = middle } else { high = middle }
    }
    Some(taken(low))
}

/// How much wider a column is whose text is longer: 1 would give all cells the same number of lines, and short names too many.
const STRETCH: f64 = 0.75;

/// Widths where not even the longest words fit: each column keeps so much of its longest word that all fit the room.
pub(super) fn squeezed(wants: &[Want], room: f64) -> Vec<f64> {
    // The cap on long words that makes the sum fit, found by lowering the longest ones first.
    let mut words: Vec<f64> = wants.iter().map(|want| want.word).collect();
    words.sort_by(f64::total_cmp);
    let mut rest = room;
    let mut cap = f64::INFINITY;
    for (at, word) in words.iter().enumerate() {
        let fair = rest / (words.len() - at) as f64;
        if *word > fair {
            cap = fair;
            break;
        }
        rest -= word;
    }
    wants.iter().map(|want| want.word.min(cap)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn want(line: f64, word: f64) -> Want {
        Want { line, word }
    }

    #[test]
    fn small_tables_stay_small_and_nearly_full_ones_fill_the_room() {
        assert_eq!(widths(&[want(20.0, 5.0), want(30.0, 30.0)], 100.0), Some(vec![20.0, 30.0]));
        assert_eq!(widths(&[want(50.0, 5.0), want(30.0, 30.0)], 100.0), Some(vec![60.0, 40.0]));
        assert_eq!(widths(&[], 100.0), Some(Vec::new()));
    }

    #[test]
    fn long_text_is_broken_and_numbers_are_not() {
        let widths = widths(&[want(400.0, 20.0), want(30.0, 30.0), want(25.0, 25.0)], 200.0);
        let widths = widths.expect("words fit");
        assert!(widths[1..] == [30.0, 25.0] && (widths[0] - 145.0).abs() < 1e-6, "{widths:?}");
    }

    #[test]
    fn two_long_columns_share_what_is_left() {
        let found = widths(&[want(400.0, 20.0), want(300.0, 40.0), want(10.0, 10.0)], 210.0).expect("words fit");
        assert!((found.iter().sum::<f64>() - 210.0).abs() < 1e-6, "{found:?}");
        assert!(found[2] == 10.0 && found[0] > found[1], "the longer text is given more: {found:?}");
    }

    #[test]
    fn words_that_do_not_fit_are_squeezed_the_longest_first() {
        let wants = [want(50.0, 50.0), want(900.0, 900.0), want(30.0, 30.0)];
        assert_eq!(widths(&wants, 200.0), None);
        assert_eq!(squeezed(&wants, 200.0), [50.0, 120.0, 30.0]);
        assert_eq!(squeezed(&[want(9.0, 9.0), want(9.0, 9.0)], 6.0), [3.0, 3.0]);
    }
}
