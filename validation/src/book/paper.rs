//! The book as PDF pages.

use strutwork_paper::{
    Block as Part, Column, Contents, Document, Drawing, DrawingError, Fact, Heading, List, Note, PaperError, Picture,
    Row, RowKind, Table, Text, TitleBlock, pdf,
};

use strutwork_report::figures::graph;

use super::{Block, Book, Section};

/// Why there is no PDF: a fault of ours, for any book can be printed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BookError {
    /// The pages could not be written.
    #[error(transparent)]
    Paper(#[from] PaperError),
    /// A picture is none that pages can hold.
    #[error("a picture of the book: {0}")]
    Drawing(#[from] DrawingError),
}

/// The bytes of the file.
pub(super) fn write(book: &Book) -> Result<Vec<u8>, BookError> {
    let mut document = Document::new(format!("{} · Strutwork {}", book.title, book.version), "en-GB");
    document.running.head = book.title.clone();
    document.running.head_right = format!("Strutwork {}", book.version);
    document.running.foot =
        "Values as printed, ours beside them; differences in units of the last printed digit".to_owned();
    document.blocks.push(Part::Title(TitleBlock {
        kind: "Validation book".to_owned(),
        title: Text::from(book.title.as_str()),
        subtitle: Text::from(format!("Strutwork {}", book.version)),
        facts: Vec::new(),
    }));
    for (place, section) in book.front.iter().enumerate() {
        if place > 0 {
            document.blocks.push(Part::PageBreak);
        }
        // Of the contents, the pages take the place of links.
        if section.id == "contents" {
            document.blocks.push(Heading::new(1, "", section.title.as_str()).into());
            document.blocks.extend(section.blocks.iter().take(1).map(part).collect::<Result<Vec<_>, _>>()?);
            document.blocks.push(Part::Contents(Contents { lowest: 2, numbered: false }));
        } else {
            push(&mut document.blocks, section, 1)?;
        }
    }
    for family in &book.families {
        document.blocks.push(Part::PageBreak);
        document.blocks.push(Heading::new(1, "", family.name.as_str()).into());
        for (place, page) in family.pages.iter().enumerate() {
            if place > 0 {
                document.blocks.push(Part::PageBreak);
            }
            push(&mut document.blocks, page, 2)?;
        }
    }
    Ok(pdf(&document)?)
}

fn push(blocks: &mut Vec<Part>, section: &Section, level: u8) -> Result<(), BookError> {
    blocks.push(Heading::new(level, "", section.title.as_str()).into());
    for block in &section.blocks {
        blocks.push(match block {
            Block::Heading(heading) => Heading::new(level + 1, "", text(heading)).into(),
            other => part(other)?,
        });
    }
    Ok(())
}

fn part(block: &Block) -> Result<Part, BookError> {
    Ok(match block {
        Block::Text(words) => text(words).into(),
        Block::Heading(words) => Heading::new(3, "", text(words)).into(),
        Block::Warning(words) => {
            Note { warns: true, label: Text::from("Mind"), blocks: vec![text(words).into()] }.into()
        }
        Block::List(items) => List { numbered: false, items: items.iter().map(|item| text(item)).collect() }.into(),
        Block::Facts(facts) => {
            Part::Facts(facts.iter().map(|(name, value)| Fact::new(name.as_str(), text(value))).collect())
        }
        Block::Table(rows) => table(rows).into(),
        Block::Figure(figure) => {
            let drawing = Drawing::from_svg(&figure.svg)?;
            // Small enough for sketch and values to stand on one page where there are not many.
            let width = if drawing.width <= graph::WIDTH { 0.42 } else { (drawing.width / 860.0).min(1.0) };
            Picture { drawing, caption: text(&figure.caption), width }.into()
        }
    })
}

fn table(rows: &super::Table) -> Table {
    let column = |column: &super::Column| {
        let head = text(&column.head);
        if column.numbers { Column::number(head, "") } else { Column::text(head) }
    };
    let mut table = Table::new(text(&rows.caption), rows.columns.iter().map(column).collect());
    table.rows = rows
        .rows
        .iter()
        .map(|row| Row {
            cells: row.cells.iter().map(|cell| text(&cell.text)).collect(),
            kind: if row.strong { RowKind::Sum } else { RowKind::Plain },
        })
        .collect();
    table
}

/// What stands between backticks in typewriter letters, as in the other form of the book.
fn text(words: &str) -> Text {
    let parts: Vec<&str> = words.split('`').collect();
    if parts.len().is_multiple_of(2) {
        return Text::from(words);
    }
    let with =
        |text: Text, (place, part): (usize, &&str)| if place % 2 == 1 { text.mono(*part) } else { text.plain(*part) };
    parts.iter().enumerate().fold(Text::new(), with)
}
