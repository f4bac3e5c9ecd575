//! How wide the columns of a table are.

use crate::words::Want;

/// Widths of columns that want these, in a room of this width; `None` where not even their longest words fit.
///
/// Where all fits on one line each, columns take what they want, and a table that nearly fills the room fills it. Else each
/// takes its longest word, and the rest is shared by what each still wants.
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
    // A column whose fair share covers its line takes its line alone; the others share what is left.
    let mut widths: Vec<Option<f64>> = vec![None; wants.len()];
    loop {
        let taken: f64 = widths.iter().flatten().sum();
        let open: Vec<usize> = (0..wants.len()).filter(|at| widths[*at].is_none()).collect();
        let least: f64 = open.iter().map(|at| wants[*at].word).sum();
        let share = (room - taken - least).max(0.0) / open.len().max(1) as f64;
        let settled: Vec<usize> =
            open.iter().copied().filter(|at| wants[*at].line - wants[*at].word <= share).collect();
        if settled.is_empty() || open.is_empty() {
            return Some(shared(wants, &widths, share));
        }
        for at in settled {
            widths[at] = Some(wants[at].line);
        }
    }
}

fn shared(wants: &[Want], widths: &[Option<f64>], share: f64) -> Vec<f64> {
    wants.iter().zip(widths).map(|(want, width)| width.unwrap_or(want.word + share)).collect()
}

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
        assert_eq!(widths, Some(vec![145.0, 30.0, 25.0]));
    }

    #[test]
    fn two_long_columns_share_what_is_left() {
        let found = widths(&[want(400.0, 20.0), want(300.0, 40.0), want(10.0, 10.0)], 210.0).expect("words fit");
        assert!((found.iter().sum::<f64>() - 210.0).abs() < 1e-9, "{found:?}");
        assert_eq!(found[2], 10.0);
    }

    #[test]
    fn words_that_do_not_fit_are_squeezed_the_longest_first() {
        let wants = [want(50.0, 50.0), want(900.0, 900.0), want(30.0, 30.0)];
        assert_eq!(widths(&wants, 200.0), None);
        assert_eq!(squeezed(&wants, 200.0), [50.0, 120.0, 30.0]);
        assert_eq!(squeezed(&[want(9.0, 9.0), want(9.0, 9.0)], 6.0), [3.0, 3.0]);
    }
}
