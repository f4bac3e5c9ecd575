//! The pages of the `B` codes.

use strutwork_model::explain::Page;

/// One page for each `B` code, in order.
pub const PAGES: &[Page] = &[
    Page {
        code: "B001",
        title: "The file is no baseline",
        meaning: "`baseline.csv` is no UTF-8 text, lacks one of its columns or the row with its format, has a format that this \
                  version does not know, or holds no quantity. Nothing can be held against it.",
        example: "kind,case,subject,quantity,value,unit,tolerance\nbaseline,,,format,1,,,\n\nthe column `why` is not there",
        remedy: "Take the file from your version control, or record a new one: move the old file away, then `strutwork baseline \
                 record FOLDER`.",
    },
    Page {
        code: "B002",
        title: "A row of the baseline cannot be read",
        meaning: "A value or a tolerance is no finite number, a tolerance is negative or has no reason, a kind is not known, or \
                  a pattern to keep has more than four parts. Nothing is checked against half a baseline.",
        example: "kind,case,subject,quantity,value,unit,tolerance,why\n\
                  frame,,,torsional_stiffness,\"6685,3\",N·m/deg,7e-6,own",
        remedy: "Mend the row: decimals have a point, every tolerance a reason in the column why. Or record the baseline anew.",
    },
    Page {
        code: "B003",
        title: "A quantity stands in the baseline twice",
        meaning: "Two rows have the same kind, case, subject and quantity. It often comes from two changes that were merged.",
        example: "frame,,,mass,412.5,kg,5e-7,own\nframe,,,mass,413.1,kg,5e-7,own",
        remedy: "Delete the row that is out of date, or record the baseline anew: `strutwork baseline record FOLDER --update`.",
    },
    Page {
        code: "B004",
        title: "An option in the baseline cannot be repeated",
        meaning: "Rows of the kind `option` say how the run was asked for, so that a check asks for the same. This one is not \
                  known, or its value is out of range.",
        example: "option,,,modes,many,,,",
        remedy: "Options are those of `strutwork baseline record --help`, without their dashes. Mend the row, or record the \
                 baseline anew with the options that you want.",
    },
    Page {
        code: "B005",
        title: "A pattern keeps nothing",
        meaning: "No quantity of the run has a name that fits the pattern KIND:CASE:SUBJECT:QUANTITY, so that nothing would \
                  guard what you meant to keep.",
        example: "strutwork baseline record my-frame --keep 'mount:::axial'\n\nthe quantity is called axial_n",
        remedy: "Look up the names: `strutwork baseline record my-frame --list` prints every quantity that can be kept. `*` \
                 stands for any text.",
    },
    Page {
        code: "B010",
        title: "A value departs from the baseline",
        meaning: "The new run came to another value than the one that was recorded, and the difference is larger than the \
                  tolerance of its row. Either the model was changed, or the program computes something else than it did.",
        example: "B010  frame: torsional_stiffness: 6685.321459 N·m/deg → 6702.1 N·m/deg, +0.25 % (2.4e6 tolerances)",
        remedy: "If you changed the model and mean the change: `strutwork baseline record FOLDER --update` shows the difference \
                 and records it. If you changed nothing, do not record it away: find out what computes differently, and see \
                 CHANGELOG.md under Numbers after an update of the program.",
    },
    Page {
        code: "B011",
        title: "A quantity of the baseline is missing",
        meaning: "The baseline expects a value that the new run does not have: a case, joint, mount or mode that is gone or has \
                  another name, or an analysis that was not asked for.",
        example: "B011  mount drive at rear-left: greatest_force: the run does not have it",
        remedy: "If it was renamed or removed on purpose: `strutwork baseline record FOLDER --update`.",
    },
    Page {
        code: "B012",
        title: "A quantity is not in the baseline",
        meaning: "The run has a value that the baseline would keep and does not know: a new case, joint, mount or mode. It is \
                  guarded by nothing until it is recorded. The check does not fail for it.",
        example: "B012  3 quantities are not in the baseline: case: worst_utilisation, case kerb-left, …",
        remedy: "`strutwork baseline record FOLDER --update` takes it in.",
    },
    Page {
        code: "B013",
        title: "The model is not the one that was recorded",
        meaning: "A file that the run read has other bytes than when the baseline was recorded, is gone, or is new. Departures may \
                  come from that, and not from the program.",
        example: "the model has changed since the baseline was recorded: tubes.csv differs, panels.csv is new",
        remedy: "Compare the two with your version control. Where the change is meant, record the baseline anew.",
    },
    Page {
        code: "B014",
        title: "The baseline was recorded by another version",
        meaning: "The program that checks is not the version that recorded. Its results should be the same; what is not stands in \
                  CHANGELOG.md under Numbers.",
        example: "the baseline was recorded by version 0.1.0, this is 0.2.0",
        remedy: "If values depart, read CHANGELOG.md under Numbers of every version between the two before you record anew.",
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::baseline::codes;

    #[test]
    fn every_code_has_its_page_in_order() {
        let pages: Vec<&str> = PAGES.iter().map(|page| page.code).collect();
        let codes: Vec<&str> = codes::ALL.iter().map(|code| code.0).collect();
        assert_eq!(pages, codes);
    }
}
