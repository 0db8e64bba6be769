//! Entries as rows of the database.

use crate::{Head, KeptEntry, Position};
use rusqlite::types::{Type, ValueRef};
use rusqlite::{Connection, OptionalExtension, Row, params};
use survey::{Digest, Entry, EntryId, Stamp, SurveyId};

/// Reads the columns that [`kept`] wants.
pub(super) const KEPT: &str = "SELECT position, hash, id, survey, device, time_ms, time_n, line FROM entry";

pub(super) fn kept(row: &Row<'_>) -> rusqlite::Result<KeptEntry> {
    Ok(KeptEntry {
        position: Position(unsigned(row, 0)?),
        hash: digest(row, 1)?,
        id: EntryId::from_bits(bits(row, 2)?),
        survey: survey_id(row, 3)?,
        device: String::from_utf8_lossy(bytes(row, 4)?).into_owned(),
        time: stamp(row, 5)?,
        line: bytes(row, 7)?.to_vec(),
    })
}

pub(super) fn put(connection: &Connection, entry: &Entry) -> rusqlite::Result<()> {
    let sql = "INSERT INTO entry (hash, id, survey, device, time_ms, time_n, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)";
    connection.prepare_cached(sql)?.execute(params![
        entry.hash().bytes(),
        entry.id.uuid().as_bytes(),
        entry.survey.uuid().as_bytes(),
        entry.device,
        i64::try_from(entry.time.ms).map_err(|fault| rusqlite::Error::ToSqlConversionFailure(Box::new(fault)))?,
        entry.time.n,
        entry.line(),
    ])?;
    Ok(())
}

pub(super) fn head(connection: &Connection, survey: SurveyId, device: &str) -> rusqlite::Result<Head> {
    let survey = survey.uuid();
    // Of a device that was restored from a copy, and so has two last entries, the later counts.
    let last = "SELECT hash FROM entry WHERE survey = ?1 AND device = ?2 \
                ORDER BY time_ms DESC, time_n DESC, id DESC, hash DESC LIMIT 1";
    let latest = "SELECT time_ms, time_n FROM entry WHERE survey = ?1 ORDER BY time_ms DESC, time_n DESC LIMIT 1";
    let prev = connection
        .prepare_cached(last)?
        .query_row(params![survey.as_bytes(), device], |row| digest(row, 0))
        .optional()?;
    let latest =
        connection.prepare_cached(latest)?.query_row(params![survey.as_bytes()], |row| stamp(row, 0)).optional()?;
    Ok(Head { prev, latest: latest.unwrap_or_default() })
}

pub(super) fn survey_id(row: &Row<'_>, column: usize) -> rusqlite::Result<SurveyId> {
    bits(row, column).map(SurveyId::from_bits)
}

/// Reads two columns of a time on the hybrid logical clock.
pub(super) fn stamp(row: &Row<'_>, column: usize) -> rusqlite::Result<Stamp> {
    Ok(Stamp { ms: unsigned(row, column)?, n: row.get(column + 1)? })
}

/// Reads a number from 0; SQLite has none that are always so.
pub(super) fn unsigned(row: &Row<'_>, column: usize) -> rusqlite::Result<u64> {
    let number: i64 = row.get(column)?;
    u64::try_from(number).map_err(|_| rusqlite::Error::IntegralValueOutOfRange(column, number))
}

fn digest(row: &Row<'_>, column: usize) -> rusqlite::Result<Digest> {
    sized(row, column).map(Digest::from_bytes)
}

fn bits(row: &Row<'_>, column: usize) -> rusqlite::Result<u128> {
    sized(row, column).map(u128::from_be_bytes)
}

fn sized<const N: usize>(row: &Row<'_>, column: usize) -> rusqlite::Result<[u8; N]> {
    let found = bytes(row, column)?;
    found.try_into().map_err(|fault| rusqlite::Error::FromSqlConversionFailure(column, Type::Blob, Box::new(fault)))
}

/// Returns the bytes of a text or blob as they lie there, whether or not they are text.
fn bytes<'a>(row: &'a Row<'_>, column: usize) -> rusqlite::Result<&'a [u8]> {
    match row.get_ref(column)? {
        ValueRef::Text(bytes) | ValueRef::Blob(bytes) => Ok(bytes),
        other => Err(rusqlite::Error::InvalidColumnType(column, "text".to_owned(), other.data_type())),
    }
}
