//! Every package that is built in has a licence that we have read and can ship under MIT.

use crate::workspace::Package;

/// The SPDX expressions in use, each once read. A new one is added here by a person, after reading it.
const KNOWN: [&str; 21] = [
    "(MIT OR Apache-2.0) AND Unicode-3.0",
    "0BSD OR MIT OR Apache-2.0",
    "Apache-2.0",
    "Apache-2.0 / MIT",
    "Apache-2.0 OR BSL-1.0",
    "Apache-2.0 OR MIT",
    "Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT",
    "BSD-2-Clause",
    "BSD-2-Clause OR Apache-2.0 OR MIT",
    "BSD-3-Clause",
    "CC0-1.0",
    "MIT",
    "MIT OR Apache-2.0",
    "MIT OR Zlib OR Apache-2.0",
    "MIT/Apache-2.0",
    // Of a file, not of the whole: unchanged, it may be linked into a program under any licence.
    "MPL-2.0+",
    "Unicode-3.0",
    "Unlicense OR MIT",
    "Unlicense/MIT",
    "Zlib",
    "Zlib OR Apache-2.0 OR MIT",
];

/// The packages with another licence, or none.
pub(super) fn broken(packages: &[Package]) -> Vec<String> {
    let told = |package: &Package| {
        let licence = package.license.as_deref().unwrap_or("none");
        format!("{} {}: its licence, `{licence}`, is not among the known ones", package.name, package.version)
    };
    let known = |package: &&Package| package.license.as_deref().is_some_and(|licence| KNOWN.contains(&licence));
    packages.iter().filter(|package| !known(package)).map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn package(license: Option<&str>) -> Package {
        Package {
            name: "some".to_owned(),
            version: "1.0.0".to_owned(),
            license: license.map(str::to_owned),
            source: None,
            dependencies: Vec::new(),
        }
    }

    #[test]
    fn an_unknown_and_a_missing_licence_are_told() {
        let broken = broken(&[package(Some("MIT")), package(Some("Made-Up-1.0")), package(None)]);
        assert_eq!(broken.len(), 2);
        assert!(broken[0].contains("Made-Up-1.0"));
        assert!(broken[1].contains("`none`"));
    }

    #[test]
    fn the_list_is_in_order_and_names_each_once() {
        assert!(KNOWN.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
