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

#[cfg(test)]
mod tests {
    use ::parquet::file::reader::{FileReader as _, SerializedFileReader};
    use ::parquet::record::RowAccessor as _;
    use strutwork_model::spec::ModelSpec;
    use strutwork_study::journal::Shard;
    use strutwork_study::{Asked, Change, Levels, Limit, Outcome, Parameter, Response, Status, Study, Way};

    use super::*;

    /// A study of a value of its own, with one response that must be at most 1.
    fn header() -> Header {
        let mut study = Study::new("test", ModelSpec::default());
        let levels = Levels::List(vec![1.0.into(), 2.0.into()]);
        let parameter = Parameter::new(&study.base, Some("x_mm"), Change::Own, levels).unwrap();
        study.parameters.push(parameter.starting(1.0.into()));
        study.responses.push(Response { name: "used".to_owned(), asked: Asked::Own });
        study.constraints.push(strutwork_study::Constraint { response: 0, limit: Limit::AtMost(1.0) });
        Header::of(&study, "ab".to_owned(), "1", Shard::WHOLE).unwrap()
    }

    fn row(variant: u64) -> Row {
        let outcome = if variant.is_multiple_of(3) {
            let note = "mechanism at A".to_owned();
            Outcome { status: Status::Mechanism, responses: vec![], feasible: Some(false), note, way: Way::Lanes }
        } else {
            let used = if variant == 1 { f64::INFINITY } else { 1.0 / variant as f64 };
            Outcome {
                status: Status::Solved,
                responses: vec![Some(used)],
                feasible: Some(used <= 1.0),
                note: String::new(),
                way: Way::Lanes,
            }
        };
        Row { variant, values: vec![Value::Number(variant as f64 * 0.1)], outcome }
    }

    fn written(count: u64) -> Vec<u8> {
        let mut rows = ParquetRows::new(Vec::new(), &header()).unwrap();
        (0..count).for_each(|variant| rows.push(&row(variant)).unwrap());
        rows.finish().unwrap()
    }

    #[test]
    fn rows_are_read_back_over_the_edge_of_a_group() {
        let count = GROUP as u64 + 10;
        let reader = SerializedFileReader::new(bytes::Bytes::from(written(count))).unwrap();
        assert_eq!(reader.metadata().num_row_groups(), 2);
        let mut next = 0;
        for read in reader.get_row_iter(None).unwrap() {
            let (read, told) = (read.unwrap(), row(next));
            assert_eq!(read.get_long(0).unwrap(), next as i64);
            assert_eq!(read.get_double(1).unwrap(), next as f64 * 0.1);
            assert_eq!(read.get_double(2).ok(), told.outcome.responses.first().copied().flatten());
            assert_eq!(read.get_bool(3).ok(), told.outcome.feasible);
            assert_eq!(read.get_string(4).unwrap(), told.outcome.status.word());
            assert_eq!(read.get_string(5).unwrap(), &told.outcome.note);
            next += 1;
        }
        assert_eq!(next, count);
    }

    #[test]
    fn the_same_rows_give_the_same_bytes() {
        assert_eq!(written(20), written(20));
    }
}
