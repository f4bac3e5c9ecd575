//! No file names a place outside the project: what it names would not be there for anybody else.

use crate::workspace::File;

/// Parts of such paths, put together here so that this file does not name them either.
const PLACES: [&str; 3] = [concat!("/wo", "rk/"), concat!("../sha", "red/"), concat!("/ro", "ot/")];

/// The lines that name one.
pub(super) fn broken(files: &[File]) -> Vec<String> {
    let mut broken = Vec::new();
    for file in files {
        for (number, line) in file.text.lines().enumerate() {
            if let Some(place) = PLACES.iter().find(|place| line.contains(*place)) {
                broken.push(format!("{}:{}: names `{place}`, which is outside the project", file.path, number + 1));
            }
        }
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_outside_is_told_with_its_line() {
        let text = format!("one\nsee {}x.md\n", PLACES[1]);
        let broken = broken(&[File { path: "a.md".to_owned(), text }]);
        assert_eq!(broken.len(), 1);
        assert!(broken[0].starts_with("a.md:2: "), "{broken:?}");
    }
}
