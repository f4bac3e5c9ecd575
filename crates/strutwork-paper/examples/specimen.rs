//! Writes the specimen of the tests to a file, to be looked at: `specimen OUT.pdf [DRAWING.svg …]`.

#[path = "../tests/suite/specimen.rs"]
mod specimen;

use std::error::Error;

use strutwork_paper::{Block, Drawing, Picture, pdf};

fn main() -> Result<(), Box<dyn Error>> {
    let mut paths = std::env::args().skip(1);
    let out = paths.next().ok_or("where to?")?;
    let mut document = specimen::document();
    for path in paths {
        let drawing = Drawing::from_svg(&std::fs::read_to_string(&path)?)?;
        document.blocks.push(Block::from(Picture { drawing, caption: path.into(), width: 1.0 }));
    }
    std::fs::write(out, pdf(&document)?)?;
    Ok(())
}
