//! A document with everything in it.

use strutwork_paper::{
    Block, Column, Contents, Document, Drawing, Fact, Heading, List, Note, Picture, Row, RowKind, Running, Step, Table,
    Text, TitleBlock,
};

/// A drawing of the kind that charts are made of.
pub(crate) const DRAWING: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" viewBox=\"0 0 200 80\" \
    role=\"img\" aria-label=\"A chart of two bars\"><g fill=\"#1f5582\"><path d=\"M20 70v-40h20v40zM60 70v-60h20v60z\"/></g>\
    <g class=\"names\" fill=\"#16202a\" font-size=\"9\"><text x=\"30\" y=\"25\" text-anchor=\"middle\">first bar</text>\
    <text transform=\"translate(12 50)rotate(-90)\" text-anchor=\"middle\">force, N</text></g></svg>";

/// A document with everything in it: an invented shelf.
pub(crate) fn document() -> Document {
    let mut document = Document::new("What a shelf bears", "en-GB");
    document.running = Running {
        head: "Shelf of planks".to_owned(),
        head_right: "revision B · 2024-01-02".to_owned(),
        foot: "input 3f2a 91c0".to_owned(),
    };
    let drawing = Drawing::from_svg(DRAWING).expect("plain");
    document.blocks = vec![
        Block::from(TitleBlock {
            kind: "Specimen".to_owned(),
            title: "Shelf of planks".into(),
            subtitle: "Invented, to show every kind of block".into(),
            facts: ["Model", "Revision", "Author", "Checked by", "Date"]
                .map(|name| Fact::new(name, format!("{name} of it")))
                .to_vec(),
        }),
        Block::from(Heading::new(1, "", "Contents")),
        Block::Contents(Contents { lowest: 2, numbered: false }),
        Block::PageBreak,
        Block::from(Heading::new(1, "1", "What was asked")),
        Block::from(
            Text::new()
                .plain(PROSE)
                .plain(" The force ")
                .italic("N")
                .low("Ed")
                .plain(" is 12.5 kN, and ")
                .bold("no more")
                .plain("."),
        ),
        Block::from(List { numbered: true, items: vec!["first item".into(), PROSE.into(), "third item".into()] }),
        Block::from(List { numbered: false, items: vec!["a dot".into()] }),
        Block::from(Note {
            warns: true,
            label: "Caution".into(),
            blocks: vec![Block::from("Nobody stands on it."), Block::from(PROSE)],
        }),
        Block::from(Heading::new(2, "1.1", "A calculation")),
        Block::Calculation(steps()),
        Block::from(Heading::new(2, "1.2", "A picture")),
        Block::from(Picture { drawing, caption: "Two bars. Their heights mean nothing.".into(), width: 0.6 }),
        Block::from(Heading::new(1, "2", "A long table")),
        Block::from(long_table(120)),
        Block::Sideways(vec![Block::from(Heading::new(2, "2.1", "On its side")), Block::from(PROSE)]),
        Block::from(Heading::new(1, "3", "The end")),
        Block::from("The last words."),
    ];
    document
}

const PROSE: &str = "A plank bends where it is loaded, and the more so the longer it is; what it bears depends on its depth \
    far more than on its width, which is why it is laid upright where it can be held so that it does not fall over.";

fn steps() -> Vec<Step> {
    let symbol = || Text::new().italic("M").low("y,Ed");
    vec![
        Step { symbol: Text::new().italic("F"), equals: vec!["500 N".into()], note: "what lies on it".into() },
        Step { note: "At the middle of the span:".into(), ..Step::default() },
        Step {
            symbol: symbol(),
            equals: vec![
                Text::new().italic("F").plain(" · ").italic("L").plain(" / 4"),
                "500 · 1.2 / 4".into(),
                Text::new().bold("150 N·m"),
            ],
            note: "a load in the middle; from memory".into(),
        },
        Step { symbol: "λ\u{304}".into(), equals: vec!["√(2) / 1.5 · 10⁻³ ≤ 1".into()], note: Text::new() },
    ]
}

/// A table of this many rows and a sum.
pub(crate) fn long_table(rows: usize) -> Table {
    let columns = vec![
        Column::text("plank"),
        Column::number("length", "mm"),
        Column::number("bending moment at the middle", "N·m"),
        Column::text("what it is for"),
    ];
    let mut table = Table::new("Planks and what they bear", columns);
    table.names_rows = true;
    for row in 1..=rows {
        table.push([
            format!("P{row}"),
            (1000 + row).to_string(),
            format!("{}.25", row * 7),
            "books of the usual sizes".to_owned(),
        ]);
    }
    let cells = ["all", "", "1000.00", ""].map(Text::from).to_vec();
    table.rows.push(Row { cells, kind: RowKind::Sum });
    table
}
