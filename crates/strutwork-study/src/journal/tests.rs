//! Journals: cut off anywhere, damaged anywhere, put together from parts.

use super::*;
use crate::outcome::{Outcome, Status, Way, Why};
use crate::value::Value;

fn header(variants: u64, shard: Shard) -> Header {
    Header {
        journal: FORMAT.to_owned(),
        version: "1".to_owned(),
        study: "ab".to_owned(),
        name: "test".to_owned(),
        variants,
        shard,
        parameters: vec![Column { name: "wall_mm".to_owned(), number: true }],
        responses: vec!["kg".to_owned()],
        constrained: true,
    }
}

fn row(variant: u64) -> Row {
    let odd = variant % 2 == 1;
    let outcome = Outcome {
        status: if odd { Status::Solved } else { Status::Mechanism },
        responses: if odd { vec![Some(variant as f64 / 3.0)] } else { vec![] },
        feasible: Some(odd),
        note: if odd { String::new() } else { "mechanism at \"A\", über alles".to_owned() },
        way: if odd { Way::Lanes } else { Way::Whole(Why::Cases) },
    };
    Row { variant, values: vec![Value::Number(variant as f64 * 0.1), Value::Word("on".to_owned())], outcome }
}

fn journal(variants: u64, shard: Shard) -> Vec<u8> {
    let header = header(variants, shard);
    let mut text = header.line();
    shard.range(variants).for_each(|variant| text.push_str(&header.row_line(&row(variant))));
    text.into_bytes()
}

/// The rows, and how many bytes are whole.
fn read(bytes: &[u8]) -> Result<(Vec<Row>, u64), JournalFault> {
    let mut reader = Reader::new(bytes)?;
    let mut rows = Vec::new();
    reader.each(|row| rows.push(row))?;
    Ok((rows, reader.whole_bytes()))
}

#[test]
fn what_is_written_is_read_to_the_last_bit() {
    let bytes = journal(9, Shard::WHOLE);
    let (rows, whole) = read(&bytes).unwrap();
    assert_eq!(rows, (0..9).map(row).collect::<Vec<_>>());
    assert_eq!(whole, bytes.len() as u64);
    let awkward = [f64::INFINITY, f64::NEG_INFINITY, 0.1 + 0.2, f64::MIN_POSITIVE, 1e300, 123_456_789.123_456_79];
    for value in awkward {
        let mut one = row(0);
        let responses = vec![Some(value), None];
        one.outcome =
            Outcome { status: Status::Solved, responses, feasible: None, note: String::new(), way: Way::Update };
        let line = line::of_row(&one, "s");
        assert_eq!(line::row(line.trim_end(), "s"), Some(one), "{line}");
    }
}

#[test]
fn cut_off_anywhere_the_whole_lines_are_there() {
    let bytes = journal(4, Shard::WHOLE);
    let ends: Vec<usize> = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n').map(|(at, _)| at + 1).collect();
    for cut in 0..bytes.len() {
        let lines = ends.iter().filter(|end| **end <= cut).count();
        match read(&bytes[..cut]) {
            Ok((rows, whole)) => {
                assert_eq!(rows.len() + 1, lines, "cut at {cut}");
                assert_eq!(whole as usize, ends[lines - 1]);
            }
            Err(JournalFault::Empty) => assert_eq!(lines, 0, "cut at {cut}"),
            Err(other) => panic!("cut at {cut}: {other}"),
        }
    }
}

#[test]
fn a_changed_byte_is_found_wherever_it_is() {
    let bytes = journal(4, Shard::WHOLE);
    let whole = read(&bytes).unwrap().0;
    for at in 0..bytes.len() {
        let mut changed = bytes.clone();
        changed[at] = if changed[at] == b'7' { b'8' } else { b'7' };
        let line = bytes[..at].iter().filter(|byte| **byte == b'\n').count() as u64 + 1;
        match read(&changed) {
            Ok((rows, _)) => {
                // The last line is dropped, as if torn; without the line end before it, it is two lines in one.
                assert!(line == 5 || (line == 4 && bytes[at] == b'\n'), "byte {at} passed");
                assert_eq!(rows, whole[..line as usize - 2]);
            }
            Err(JournalFault::Damaged { line: told, .. }) => assert_eq!(told, line, "byte {at}"),
            Err(JournalFault::NotAJournal) => assert_eq!(line, 1),
            Err(other) => panic!("byte {at}: {other}"),
        }
    }
}

#[test]
fn lines_that_are_swapped_left_out_or_of_another_study_are_found() {
    let text = String::from_utf8(journal(5, Shard::WHOLE)).unwrap();
    let mut lines: Vec<&str> = text.split_inclusive('\n').collect();
    lines.swap(2, 3);
    assert!(matches!(read(lines.concat().as_bytes()), Err(JournalFault::Damaged { line: 3, .. })));
    lines.swap(2, 3);
    lines.remove(2);
    assert!(matches!(read(lines.concat().as_bytes()), Err(JournalFault::Damaged { line: 3, .. })));
    let mut other = header(5, Shard::WHOLE);
    other.study = "cd".to_owned();
    let mixed = other.line() + lines[1] + lines[2];
    assert!(matches!(read(mixed.as_bytes()), Err(JournalFault::Damaged { line: 2, .. })));
}

fn merged(journals: &[Vec<u8>]) -> (Vec<u8>, Incomplete) {
    let readers = journals.iter().map(|bytes| Reader::new(bytes.as_slice()).unwrap()).collect();
    let mut merge = Merge::new(readers).unwrap();
    let header = merge.header().unwrap();
    let mut text = header.line();
    let incomplete = merge
        .each(|row| {
            text.push_str(&header.row_line(&row));
            true
        })
        .unwrap();
    (text.into_bytes(), incomplete)
}

#[test]
fn shards_make_the_whole_byte_for_byte() {
    for n in [1, 2, 3, 7, 20] {
        let mut shards: Vec<Vec<u8>> = (1..=n).map(|k| journal(11, Shard::new(k, n).unwrap())).collect();
        shards.reverse();
        let (text, incomplete) = merged(&shards);
        assert!(incomplete.is_nothing(), "{incomplete:?}");
        assert_eq!(text, journal(11, Shard::WHOLE));
    }
}

#[test]
fn what_is_missing_and_what_stands_twice_is_named() {
    let shard = |k| journal(10, Shard::new(k, 5).unwrap());
    let (_, incomplete) = merged(&[shard(2), shard(4), shard(2)]);
    assert_eq!(incomplete.missing, [(0, 1), (4, 5), (8, 9)]);
    assert_eq!(incomplete.doubled, [(2, 3)]);
    let torn = shard(1)[..shard(1).len() - 3].to_vec();
    let (_, incomplete) = merged(&[torn, shard(2), shard(3), shard(4), shard(5)]);
    assert_eq!(incomplete.missing, [(1, 1)]);
}
