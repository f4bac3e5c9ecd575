//! Damaged files: whatever stands in a model's folder, the program ends with one of its own exit codes, never with a panic,
//! and a run that failed leaves nothing behind.

use std::fs;
use std::path::{Path, PathBuf};

use crate::harness::{copy_of, entries, strutwork, tests};

/// How many damaged folders are tried for each base.
const TRIES: u64 = 150;

/// A small generator with a fixed start (Marsaglia (2003), Xorshift RNGs, section 4; from memory): the same damage every time.
struct Dice(u64);

impl Dice {
    fn throw(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % sides.max(1) as u64).expect("less than the sides")
    }
}

/// What people and programs put where it does not belong.
const ODD: [&str; 22] = [
    "",
    ",",
    "\"",
    "\n",
    "\r",
    "#",
    "-",
    "0",
    "1e308",
    "-1e308",
    "1e-308",
    "nan",
    "inf",
    "99999999999999999999",
    "fixed",
    "[",
    "]",
    "= ",
    "\u{feff}",
    "ä",
    "\u{1b}[2J",
    "\u{202e}",
];

fn damage(bytes: &mut Vec<u8>, dice: &mut Dice) {
    let at = dice.throw(bytes.len() + 1);
    match dice.throw(6) {
        0 => bytes.truncate(at),
        1 if at < bytes.len() => bytes[at] = u8::try_from(dice.throw(256)).expect("a byte"),
        2 if at < bytes.len() => {
            let end = (at + dice.throw(12)).min(bytes.len());
            bytes.drain(at..end);
        }
        3 => {
            // A line twice, or out of its place.
            let lines: Vec<Vec<u8>> = bytes.split_inclusive(|&byte| byte == b'\n').map(<[u8]>::to_vec).collect();
            if let Some(line) = lines.get(dice.throw(lines.len())) {
                bytes.extend_from_slice(line);
            }
        }
        _ => {
            let odd = ODD[dice.throw(ODD.len())];
            bytes.splice(at..at, odd.bytes());
        }
    }
}

fn try_all(base: &Path) {
    for number in 1..=TRIES {
        let mut dice = Dice(number.wrapping_mul(0x9e37_79b9_7f4a_7c15));
        let copy = copy_of(base);
        let files: Vec<PathBuf> = entries(copy.path());
        for _ in 0..=dice.throw(3) {
            let file = &files[dice.throw(files.len())];
            let mut bytes = fs::read(file).expect("a file of the base");
            damage(&mut bytes, &mut dice);
            fs::write(file, bytes).expect("a file of ours");
        }
        let ran = strutwork(copy.path(), &["run", "."]);
        let kept = || {
            let texts = files.iter().map(|file| String::from_utf8_lossy(&fs::read(file).expect("a file")).into_owned());
            texts.collect::<Vec<_>>().join("\n----\n")
        };
        assert!(matches!(ran.code, 0..=4), "try {number}: exit {}\n{}\n{}", ran.code, ran.stderr, kept());
        assert_eq!(copy.path().join("results").exists(), matches!(ran.code, 0 | 1), "try {number}: exit {}", ran.code);
        assert!(ran.code == 0 || ran.code == 1 || !ran.stderr.is_empty(), "try {number} fails without a word");
        assert!(!ran.stderr.contains('\u{1b}') && !ran.stdout.contains('\u{1b}'), "try {number}: an escape sequence");
    }
}

#[test]
fn a_damaged_plain_frame_never_ends_in_a_panic() {
    try_all(&tests().join("suite/_base/arm"));
}

#[test]
fn a_damaged_vehicle_never_ends_in_a_panic() {
    try_all(&tests().join("suite/_base/cart"));
}
