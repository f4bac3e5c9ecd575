//! Variants as a Parquet file: for notebooks and data bases.

use std::io::Write;
use std::sync::Arc;

use parquet::basic::{ConvertedType, Repetition, Type as Physical};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::types::{Type, TypePtr};
use strutwork_study::journal::Header;
use strutwork_study::{Row, Value};

/// Rows of a row group: what is kept in memory.
const GROUP: usize = 8_192;

/// Writes variants row by row, a row group at a time.
///
/// # Units and shapes
/// `variant` is a 64-bit integer; numbers are doubles, infinite ones as such; words are UTF-8 text; `feasible` is a truth
/// value. Responses and `feasible` are null where the variant has none.
pub struct ParquetRows<W: Write + Send> {
    writer: SerializedFileWriter<W>,
    header: Header,
    rows: Vec<Row>,
}

impl<W: Write + Send> ParquetRows<W> {
    /// Starts a file.
    ///
    /// # Errors
    /// [`ParquetError`] where the writer fails.
    pub fn new(writer: W, header: &Header) -> Result<Self, ParquetError> {
        // Named for the format, not for the library's version: the same rows give the same bytes.
        let properties = WriterProperties::builder().set_created_by("strutwork".to_owned()).build();
        let writer = SerializedFileWriter::new(writer, schema(header)?, Arc::new(properties))?;
        Ok(Self { writer, header: header.clone(), rows: Vec::new() })
    }

    /// Adds a variant.
    ///
    /// # Errors
    /// [`ParquetError`] where the writer fails.
    pub fn push(&mut self, row: &Row) -> Result<(), ParquetError> {
        self.rows.push(row.clone());
        if self.rows.len() == GROUP { self.flush() } else { Ok(()) }
    }

    /// Ends the file and gives the writer back.
    ///
    /// # Errors
    /// [`ParquetError`] where the writer fails.
    pub fn finish(mut self) -> Result<W, ParquetError> {
        self.flush()?;
        self.writer.into_inner()
    }

    fn flush(&mut self) -> Result<(), ParquetError> {
        if self.rows.is_empty() {
            return Ok(());
        }
        let rows = std::mem::take(&mut self.rows);
        let mut group = self.writer.next_row_group()?;
        let variants: Vec<i64> = rows.iter().map(|row| i64::try_from(row.variant).unwrap_or(i64::MAX)).collect();
        column::<Int64Type, _>(&mut group, &variants, None)?;
        for (place, parameter) in self.header.parameters.iter().enumerate() {
            let values = rows.iter().map(|row| row.values.get(place));
            if parameter.number {
                let numbers: Vec<f64> = values.map(|value| value.and_then(Value::number).unwrap_or(f64::NAN)).collect();
                column::<DoubleType, _>(&mut group, &numbers, None)?;
            } else {
                let words: Vec<ByteArray> =
                    values.map(|value| text(&value.map_or_else(String::new, ToString::to_string))).collect();
                column::<ByteArrayType, _>(&mut group, &words, None)?;
            }
        }
        for place in 0..self.header.responses.len() {
            let values = rows.iter().map(|row| row.outcome.responses.get(place).copied().flatten());
            let (numbers, levels) = optional(values);
            column::<DoubleType, _>(&mut group, &numbers, Some(&levels))?;
        }
        if self.header.constrained {
            let (truths, levels) = optional(rows.iter().map(|row| row.outcome.feasible));
            column::<BoolType, _>(&mut group, &truths, Some(&levels))?;
        }
        let statuses: Vec<ByteArray> = rows.iter().map(|row| text(row.outcome.status.word())).collect();
        column::<ByteArrayType, _>(&mut group, &statuses, None)?;
        let notes: Vec<ByteArray> = rows.iter().map(|row| text(&row.outcome.note)).collect();
        column::<ByteArrayType, _>(&mut group, &notes, None)?;
        group.close()?;
        Ok(())
    }
}

fn text(text: &str) -> ByteArray {
    ByteArray::from(text.as_bytes().to_vec())
}

/// The values that are there, and for each row whether it has one.
fn optional<T>(values: impl Iterator<Item = Option<T>>) -> (Vec<T>, Vec<i16>) {
    let mut there = Vec::new();
    let levels = values
        .map(|value| {
            value.map_or(0, |value| {
                there.push(value);
                1
            })
        })
        .collect();
    (there, levels)
}

fn column<T: DataType<T = V>, V>(
    group: &mut SerializedRowGroupWriter<'_, impl Write + Send>,
    values: &[V],
    levels: Option<&[i16]>,
) -> Result<(), ParquetError> {
    let Some(mut column) = group.next_column()? else {
        return Err(ParquetError::General("more columns than the schema has".to_owned()));
    };
    column.typed::<T>().write_batch(values, levels, None)?;
    column.close()
}

fn schema(header: &Header) -> Result<TypePtr, ParquetError> {
    let number = |name: &str, repetition| {
        Type::primitive_type_builder(name, Physical::DOUBLE).with_repetition(repetition).build().map(Arc::new)
    };
    let word = |name: &str| {
        Type::primitive_type_builder(name, Physical::BYTE_ARRAY)
            .with_repetition(Repetition::REQUIRED)
            .with_converted_type(ConvertedType::UTF8)
            .build()
            .map(Arc::new)
    };
    let whole =
        Type::primitive_type_builder("variant", Physical::INT64).with_repetition(Repetition::REQUIRED).build()?;
    let mut fields = vec![Arc::new(whole)];
    for parameter in &header.parameters {
        let name = &parameter.name;
        fields.push(if parameter.number { number(name, Repetition::REQUIRED)? } else { word(name)? });
    }
    for response in &header.responses {
        fields.push(number(response, Repetition::OPTIONAL)?);
    }
    if header.constrained {
        let feasible = Type::primitive_type_builder("feasible", Physical::BOOLEAN);
        fields.push(Arc::new(feasible.with_repetition(Repetition::OPTIONAL).build()?));
    }
    fields.push(word("status")?);
    fields.push(word("note")?);
    Ok(Arc::new(Type::group_type_builder("variants").with_fields(fields).build()?))
}
