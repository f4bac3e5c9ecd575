//! A check as JUnit XML, which CI services show as tests: a suite for each kind, a test for each quantity.

use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};

use super::hold::{Held, Row, Standing};
use super::quantity::Kept;
use super::wording;
use crate::results::Kind;

/// The name of the outermost element, by which a file is known for one of ours.
pub const NAME: &str = "strutwork baseline check";

/// What came of the check of one model.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome<'h> {
    /// It was run and held.
    Held(&'h Held<'h>),
    /// It could not be run; why.
    Failed(&'h str),
}

/// A model that was checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked<'h> {
    /// What it is called.
    pub model: &'h str,
    /// Its baseline's path as it was given.
    pub file: &'h str,
    /// What came of it.
    pub outcome: Outcome<'h>,
}

/// The XML of checks.
///
/// A quantity that departs or is missing is a failure, one that the baseline does not know a skipped test, a model that could
/// not be run an error. Signs that XML cannot hold are replaced.
pub fn junit(all: &[Checked<'_>]) -> String {
    let sum = |of: fn(&Outcome<'_>) -> usize| all.iter().map(|one| of(&one.outcome)).sum::<usize>().to_string();
    let tests = sum(|outcome| match outcome {
        Outcome::Held(held) => held.rows.len() + held.new.len(),
        Outcome::Failed(_) => 1,
    });
    let failures = sum(|outcome| match outcome {
        Outcome::Held(held) => held.rows.iter().filter(|row| row.standing != Standing::Holds).count(),
        Outcome::Failed(_) => 0,
    });
    let errors = sum(|outcome| usize::from(matches!(outcome, Outcome::Failed(_))));
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    let attributes = [("name", NAME), ("tests", &tests), ("failures", &failures), ("errors", &errors)];
    // Writing to memory cannot fail.
    let done = writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None))).and_then(|()| {
        let root = writer.create_element("testsuites").with_attributes(attributes);
        root.write_inner_content(|writer| all.iter().try_for_each(|one| checked(writer, one))).map(|_| ())
    });
    debug_assert!(done.is_ok(), "{done:?}");
    let mut text = String::from_utf8(writer.into_inner()).unwrap_or_default();
    text.push('\n');
    text
}

type Xml = Writer<Vec<u8>>;

fn checked(writer: &mut Xml, one: &Checked<'_>) -> io::Result<()> {
    match one.outcome {
        Outcome::Held(held) => {
            let known = |kind: &Kind| rows(held, *kind).next().is_some() || new(held, *kind).next().is_some();
            Kind::ALL.into_iter().filter(known).try_for_each(|kind| suite(writer, held, kind, one.model, one.file))
        }
        Outcome::Failed(why) => failed(writer, &clean(one.model), &clean(why)),
    }
}

fn failed(writer: &mut Xml, model: &str, why: &str) -> io::Result<()> {
    let attributes = [("name", model), ("tests", "1"), ("failures", "0"), ("errors", "1"), ("skipped", "0")];
    writer.create_element("testsuite").with_attributes(attributes).write_inner_content(|writer| {
        let attributes = [("classname", model), ("name", "the run")];
        writer.create_element("testcase").with_attributes(attributes).write_inner_content(|writer| {
            let first = why.lines().next().unwrap_or_default();
            let error = writer.create_element("error").with_attributes([("message", first), ("type", "run")]);
            error.write_text_content(BytesText::new(why))?;
            Ok(())
        })?;
        Ok(())
    })?;
    Ok(())
}

fn rows<'h>(held: &'h Held<'_>, kind: Kind) -> impl Iterator<Item = &'h Row<'h>> {
    held.rows.iter().filter(move |row| row.entry.kept.key.kind == kind)
}

fn new<'h>(held: &'h Held<'_>, kind: Kind) -> impl Iterator<Item = &'h Kept> {
    held.new.iter().filter(move |kept| kept.key.kind == kind)
}

fn suite(writer: &mut Xml, held: &Held<'_>, kind: Kind, model: &str, file: &str) -> io::Result<()> {
    let skipped = new(held, kind).count();
    let tests = (rows(held, kind).count() + skipped).to_string();
    let failures = rows(held, kind).filter(|row| row.standing != Standing::Holds).count().to_string();
    let (name, skipped) = (clean(&format!("{model}: {}", kind.word())), skipped.to_string());
    let attributes =
        [("name", &*name), ("tests", &tests), ("failures", &failures), ("errors", "0"), ("skipped", &skipped)];
    writer.create_element("testsuite").with_attributes(attributes).write_inner_content(|writer| {
        for row in rows(held, kind) {
            let (key, line) = (&row.entry.kept.key, row.entry.line.to_string());
            let (class, name) = (clean(&format!("{model}.{}", kind.word())), clean(&key.to_string()));
            let attributes = [("classname", &*class), ("name", &*name), ("file", file), ("line", &line)];
            let case = writer.create_element("testcase").with_attributes(attributes);
            match wording::of(row) {
                None => case.write_empty()?,
                Some((code, told)) => case.write_inner_content(|writer| {
                    let told = clean(&told);
                    let failure =
                        writer.create_element("failure").with_attributes([("message", &*told), ("type", code.0)]);
                    failure.write_text_content(BytesText::new(&clean(&wording::at(row, file))))?;
                    Ok(())
                })?,
            };
        }
        for kept in new(held, kind) {
            let (class, name) = (clean(&format!("{model}.{}", kind.word())), clean(&kept.key.to_string()));
            let case = writer.create_element("testcase").with_attributes([("classname", &*class), ("name", &*name)]);
            case.write_inner_content(|writer| {
                writer.create_element("skipped").with_attribute(("message", "not in the baseline")).write_empty()?;
                Ok(())
            })?;
        }
        Ok(())
    })?;
    Ok(())
}

/// Without signs that XML 1.0 cannot hold (section 2.2 of the standard).
fn clean(text: &str) -> String {
    let holds = |sign: char| matches!(sign, '\t' | '\n' | '\r' | '\u{20}'..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..='\u{10ffff}');
    text.chars().map(|sign| if holds(sign) { sign } else { '\u{fffd}' }).collect()
}
