//! The book as one HTML file.

use std::fmt::Write as _;

use strutwork_report::figures::svg::escape;

use super::{Block, Book, Cell, Section, Table};

/// What tells the file from any other page: it stands in its head.
pub const MARK: &str = "<meta name=\"generator\" content=\"Strutwork, validation book\">";

/// The whole file. Everything that comes from a case is escaped; what stands between backticks is set as a file name is.
pub(super) fn write(book: &Book) -> String {
    let mut page = String::with_capacity(2 << 20);
    let title = escape(&format!("{} · Strutwork {}", book.title, book.version));
    put(
        &mut page,
        format_args!(
            "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n{MARK}\n<title>{title}</title>\n\
             <style>{}</style>\n</head>\n<body>\n<header class=\"head\">\n<p class=\"kind\">Validation book</p>\n\
             <h1>{}</h1>\n<p>Strutwork {}</p>\n</header>\n",
            include_str!("book.css"),
            escape(&book.title),
            escape(&book.version)
        ),
    );
    page.push_str("<nav aria-label=\"Parts of the book\"><ul>");
    let front = book.front.iter().map(|section| (&section.id, &section.title));
    for (id, name) in front.chain(book.families.iter().map(|family| (&family.id, &family.name))) {
        put(&mut page, format_args!("<li><a href=\"#{}\">{}</a></li>", escape(id), escape(name)));
    }
    page.push_str("</ul></nav>\n<main>\n");
    for part in &book.front {
        section(&mut page, part, "front");
    }
    for family in &book.families {
        put(
            &mut page,
            format_args!("<h2 class=\"family\" id=\"{}\">{}</h2>\n", escape(&family.id), escape(&family.name)),
        );
        for case in &family.pages {
            section(&mut page, case, "case");
        }
    }
    page.push_str("</main>\n</body>\n</html>\n");
    page
}

fn section(page: &mut String, section: &Section, class: &str) {
    let level = if class == "case" { "h3" } else { "h2" };
    put(page, format_args!("<section class=\"{class}\" id=\"{}\">\n<{level}>", escape(&section.id)));
    put(page, format_args!("{}</{level}>\n", escape(&section.title)));
    for part in &section.blocks {
        block(page, part);
    }
    if class == "case" {
        page.push_str("<p class=\"back\"><a href=\"#contents\">Contents</a></p>\n");
    }
    page.push_str("</section>\n");
}

fn block(page: &mut String, block: &Block) {
    match block {
        Block::Text(text) => put(page, format_args!("<p>{}</p>\n", words(text))),
        Block::Warning(text) => put(page, format_args!("<p class=\"warning\">{}</p>\n", words(text))),
        Block::Heading(text) => put(page, format_args!("<h4>{}</h4>\n", words(text))),
        Block::List(items) => {
            page.push_str("<ul>\n");
            items.iter().for_each(|item| put(page, format_args!("<li>{}</li>\n", words(item))));
            page.push_str("</ul>\n");
        }
        Block::Facts(facts) => {
            page.push_str("<dl>\n");
            for (name, value) in facts {
                put(page, format_args!("<div><dt>{}</dt><dd>{}</dd></div>\n", words(name), words(value)));
            }
            page.push_str("</dl>\n");
        }
        Block::Table(table) => write_table(page, table),
        Block::Figure(figure) => {
            put(
                page,
                format_args!("<figure>{}<figcaption>{}</figcaption></figure>\n", figure.svg, words(&figure.caption)),
            );
        }
    }
}

fn write_table(page: &mut String, table: &Table) {
    page.push_str("<div class=\"table\" tabindex=\"0\"><table>\n");
    if !table.caption.is_empty() {
        put(page, format_args!("<caption>{}</caption>\n", words(&table.caption)));
    }
    let class = |place: usize| {
        let numbers = table.columns.get(place).is_some_and(|column| column.numbers);
        if numbers { " class=\"n\"" } else { "" }
    };
    page.push_str("<thead><tr>");
    for (place, column) in table.columns.iter().enumerate() {
        put(page, format_args!("<th scope=\"col\"{}>{}</th>", class(place), words(&column.head)));
    }
    page.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        page.push_str(if row.strong { "<tr class=\"strong\">" } else { "<tr>" });
        for (place, cell) in row.cells.iter().enumerate() {
            put(page, format_args!("<td{}>{}</td>", class(place), linked(cell)));
        }
        page.push_str("</tr>\n");
    }
    page.push_str("</tbody></table></div>\n");
}

fn linked(cell: &Cell) -> String {
    match &cell.link {
        Some(id) => format!("<a href=\"#{}\">{}</a>", escape(id), words(&cell.text)),
        None => words(&cell.text),
    }
}

/// Escaped text; between backticks as code. A backtick without its fellow stays.
fn words(text: &str) -> String {
    let safe = escape(text);
    let parts: Vec<&str> = safe.split('`').collect();
    if parts.len().is_multiple_of(2) {
        return safe;
    }
    let set = |(place, part): (usize, &&str)| {
        if place % 2 == 1 { format!("<code>{part}</code>") } else { (*part).to_owned() }
    };
    parts.iter().enumerate().map(set).collect()
}

fn put(page: &mut String, text: std::fmt::Arguments<'_>) {
    page.write_fmt(text).expect("bug: writing to a string cannot fail");
}
