//! The pages of the `C` codes.

use strutwork_model::explain::Page;

/// One page for each `C` code, in order.
pub const PAGES: &[Page] = &[
    Page {
        code: "C001",
        title: "A table of results is not text",
        meaning: "A file of the result folder holds bytes that are no UTF-8 text. `run` writes UTF-8; something else has \
                  changed the file since.",
        example: "results/member_forces.csv saved by a spreadsheet in another encoding",
        remedy: "Run the model again: `strutwork run FOLDER`. To work on a table, copy it out of the result folder first.",
    },
    Page {
        code: "C002",
        title: "A table of results lacks a column",
        meaning: "A column that tells what a row is about, or its number, is not there under its name. Columns may stand in \
                  any order, and further ones may be added.",
        example: "case,joint,ux,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\n\nin displacements.csv: `ux` in place of `ux_mm`",
        remedy: "Run the model again: `strutwork run FOLDER`.",
    },
    Page {
        code: "C003",
        title: "A row of results has too few or too many cells",
        meaning: "The row does not fit the header of its table. Often the file was cut off, or was edited by hand.",
        example: "case,quantity,value,unit\nbraking,mass,712.5",
        remedy: "Run the model again: `strutwork run FOLDER`.",
    },
    Page {
        code: "C004",
        title: "A cell of results is not a number",
        meaning: "A cell that should hold a number holds something else, or a number that is not finite. Decimals are set \
                  apart by a point.",
        example: "case,quantity,value,unit\nbraking,mass,\"712,5\",kg",
        remedy: "Run the model again: `strutwork run FOLDER`.",
    },
    Page {
        code: "C005",
        title: "run.json cannot be read",
        meaning: "The file that says when, with what and from which inputs a run was made is no JSON, or lacks what every \
                  run writes into it.",
        example: "{ \"version\": \"0.1.0\"",
        remedy: "Run the model again: `strutwork run FOLDER`.",
    },
    Page {
        code: "C006",
        title: "A folder of results without run.json",
        meaning: "`run` writes run.json last, so that a folder without it holds no finished run. A folder with neither \
                  run.json nor model.toml is neither results nor a model.",
        example: "strutwork compare old/results my-frame/resluts",
        remedy: "Check the folder's name; give the folder of a model, or the folder that `strutwork run` wrote into.",
    },
    Page {
        code: "C007",
        title: "A table that every run writes is not there",
        meaning: "What stands in it cannot be compared. It was deleted, or the folder was not copied whole; everything else \
                  is compared.",
        example: "results/ without reactions.csv",
        remedy: "Copy the folder whole, or run the model again: `strutwork run FOLDER`.",
    },
    Page {
        code: "C008",
        title: "A file of results is not as its run left it",
        meaning: "run.json holds a hash of every file that the run wrote, and a seal of its own. A file does not fit its hash or \
                  is no longer there, or run.json does not fit its seal: what is compared is not what was computed.",
        example: "a number in results/member_forces.csv typed over",
        remedy: "Run the model again: `strutwork run FOLDER`. To work on a table, copy it out of the result folder first.",
    },
    Page {
        code: "C009",
        title: "Results without a copy of their inputs",
        meaning: "A run keeps the model's files in `inputs` beside its results, so that a later comparison can tell what was \
                  changed. This folder has none: an older version wrote it, or it was not copied whole. Results are compared by \
                  their names; what was changed in the model, which joint was renamed, and the frame's picture are left out.",
        example: "results/ without results/inputs/model.toml",
        remedy: "If you still have the model as it was, give its folder in place of the results, or run it again.",
    },
    Page {
        code: "C010",
        title: "Kept inputs that cannot be read as a model",
        meaning: "The copy of the model's files beside the results has faults for this version of the program, which may be \
                  stricter than the one that solved it, or the copy was changed. Results are compared by their names alone.",
        example: "results/inputs/tubes.csv names a joint that results/inputs/joints.csv does not have",
        remedy: "`strutwork check RESULTS/inputs` lists the faults. If you still have the model, run it again.",
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes;

    #[test]
    fn every_code_has_its_page_in_order() {
        let pages: Vec<&str> = PAGES.iter().map(|page| page.code).collect();
        let codes: Vec<&str> = codes::ALL.iter().map(|code| code.0).collect();
        assert_eq!(pages, codes);
    }
}
