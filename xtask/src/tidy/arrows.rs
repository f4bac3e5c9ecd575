//! The arrows that the map draws are the dependencies that Cargo sees: no more, no fewer.

use std::collections::{BTreeMap, BTreeSet};

use super::MAP;
use crate::workspace::Workspace;

/// From each crate, those that it names.
type Arrows = BTreeMap<String, BTreeSet<String>>;

/// Where the map and Cargo differ.
pub(super) fn broken(map: &str, workspace: &Workspace) -> Vec<String> {
    match drawn(map) {
        Ok(drawn) => differences(&drawn, &found(workspace)),
        Err(why) => vec![why],
    }
}

/// The normal dependencies between our own crates; those for tests and builds are not arrows.
fn found(workspace: &Workspace) -> Arrows {
    let ours: BTreeSet<&str> = workspace.ours().map(|package| package.name.as_str()).collect();
    let arrows_of = |package: &crate::workspace::Package| {
        let normal = package.dependencies.iter().filter(|dependency| dependency.kind.is_none());
        normal.map(|dependency| dependency.name.clone()).filter(|name| ours.contains(name.as_str())).collect()
    };
    workspace.ours().map(|package| (package.name.clone(), arrows_of(package))).collect()
}

/// Reads the block between "```arrows" and "```": one line a crate, `name -> name, name`.
fn drawn(map: &str) -> Result<Arrows, String> {
    let mut lines = map.lines().enumerate().skip_while(|(_, line)| line.trim_end() != "```arrows");
    if lines.next().is_none() {
        return Err(format!("{MAP}: there is no block that starts with ```arrows"));
    }
    let mut arrows = Arrows::new();
    for (number, line) in lines {
        let place = format!("{MAP}:{}", number + 1);
        if line.trim_end() == "```" {
            return Ok(arrows);
        }
        let Some((from, to)) = line.split_once("->") else {
            return Err(format!("{place}: `{line}` is not of the form `name -> name, name`"));
        };
        let to = to.split(',').map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned).collect();
        if arrows.insert(from.trim().to_owned(), to).is_some() {
            return Err(format!("{place}: `{}` has two lines", from.trim()));
        }
    }
    Err(format!("{MAP}: the ```arrows block does not end"))
}

fn differences(drawn: &Arrows, found: &Arrows) -> Vec<String> {
    let mut broken = Vec::new();
    for name in drawn.keys().filter(|name| !found.contains_key(*name)) {
        broken.push(format!("{MAP}: `{name}` has arrows but is no package of ours"));
    }
    for (from, seen) in found {
        let Some(told) = drawn.get(from) else {
            broken.push(format!("{MAP}: the arrows leave out `{from}`"));
            continue;
        };
        for to in told.difference(seen) {
            broken.push(format!("{MAP}: draws {from} -> {to}, which its Cargo.toml does not have"));
        }
        for to in seen.difference(told) {
            broken.push(format!("{MAP}: leaves out {from} -> {to}, which its Cargo.toml has"));
        }
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arrows(lines: &str) -> Arrows {
        drawn(&format!("# Map\n```arrows\n{lines}\n```\n")).expect("a good block")
    }

    #[test]
    fn a_block_is_read_with_and_without_targets() {
        let read = arrows("one ->\ntwo   -> one\nthree -> one, two");
        let names = |name: &str| read[name].iter().map(String::as_str).collect::<Vec<_>>();
        assert_eq!(read.len(), 3);
        assert!(names("one").is_empty());
        assert_eq!(names("two"), ["one"]);
        assert_eq!(names("three"), ["one", "two"]);
    }

    #[test]
    fn a_missing_an_open_and_a_garbled_block_are_told() {
        assert!(drawn("# Map\n").unwrap_err().contains("no block"));
        assert!(drawn("```arrows\none ->\n").unwrap_err().contains("does not end"));
        assert!(drawn("```arrows\none\n```\n").unwrap_err().contains("DEVELOPERS.md:2"));
        assert!(drawn("```arrows\none ->\none ->\n```\n").unwrap_err().contains("two lines"));
    }

    #[test]
    fn each_kind_of_difference_is_told() {
        let told = arrows("one -> two\ntwo ->\ngone ->");
        let seen = arrows("one ->\ntwo -> one\nnew ->");
        let broken = differences(&told, &seen);
        assert_eq!(broken.len(), 4, "{broken:?}");
        assert!(broken[0].contains("`gone`"));
        assert!(broken[1].contains("leave out `new`"));
        assert!(broken[2].contains("draws one -> two"));
        assert!(broken[3].contains("leaves out two -> one"));
    }

    #[test]
    fn agreement_is_silent() {
        let same = arrows("one ->\ntwo -> one");
        assert!(differences(&same, &same).is_empty());
    }
}
