//! The database's form, and bringing an older one forward.

use super::sorted;
use crate::StoreFault;
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;
use std::time::Duration;

/// The steps from an empty database to the present form, in order; a step once released is never changed.
pub(super) const STEPS: &[&str] = &[include_str!("migrations/0001_entries.sql")];

/// Marks the file as a field book (`PRAGMA application_id`): the letters `RBND`.
const APPLICATION_ID: i32 = 0x5242_4e44;

/// How often a file that does not look like a field book is looked at again, and after how long.
const LOOKS: u32 = 3;
const BETWEEN_LOOKS: Duration = Duration::from_millis(20);

/// Makes sure that the file is a field book in a form known here, or new and empty. Changes nothing.
pub(super) fn check(connection: &Connection, path: &Path, steps: &[&str]) -> Result<(), StoreFault> {
    let read = |sql: &str| connection.query_row(sql, [], |row| row.get::<_, i64>(0)).map_err(|f| sorted(path, f));
    let mut looks = 0;
    let form = loop {
        let (mark, form) = (read("PRAGMA application_id")?, read("PRAGMA user_version")?);
        let is_new = mark == 0 && form == 0 && read("SELECT count(*) FROM sqlite_schema")? == 0;
        if is_new || mark == i64::from(APPLICATION_ID) {
            break form;
        }
        // The three are read one after the other: while another program makes the field book, its mark may be read from
        // before and its tables from after, and that looks like somebody else's database.
        looks += 1;
        if looks > LOOKS {
            return Err(StoreFault::NotAFieldBook { path: path.to_owned() });
        }
        std::thread::sleep(BETWEEN_LOOKS);
    };
    let known = steps.len() as i64;
    if form > known {
        return Err(StoreFault::Newer { path: path.to_owned(), found: form, known });
    }
    Ok(())
}

/// Tells whether the database is in the present form.
pub(super) fn is_present(connection: &Connection, path: &Path, steps: &[&str]) -> Result<bool, StoreFault> {
    let form = connection.query_row("PRAGMA user_version", [], |row| row.get::<_, i64>(0));
    Ok(form.map_err(|f| sorted(path, f))? == steps.len() as i64)
}

/// Takes the steps that the database has not taken yet, all of them or none.
pub(super) fn bring_forward(connection: &mut Connection, path: &Path, steps: &[&str]) -> Result<(), StoreFault> {
    let form = |connection: &Connection| {
        connection.query_row("PRAGMA user_version", [], |row| row.get::<_, i64>(0)).map_err(|f| sorted(path, f))
    };
    if form(connection)? == steps.len() as i64 {
        return Ok(());
    }
    let transaction =
        connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(|f| sorted(path, f))?;
    // Another program may have done it while this one waited, and it may have been a newer one.
    check(&transaction, path, steps)?;
    let taken = usize::try_from(form(&transaction)?).unwrap_or(0);
    for step in &steps[taken.min(steps.len())..] {
        transaction.execute_batch(step).map_err(|f| sorted(path, f))?;
    }
    let mark = format!("PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {};", steps.len());
    transaction.execute_batch(&mark).map_err(|f| sorted(path, f))?;
    transaction.commit().map_err(|f| sorted(path, f))
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: &str = "CREATE TABLE a (x INTEGER); INSERT INTO a VALUES (1);";
    const TWO: &str = "ALTER TABLE a ADD COLUMN y INTEGER; UPDATE a SET y = x + 1;";

    fn open(path: &Path, steps: &[&str]) -> Result<Connection, StoreFault> {
        let mut connection = Connection::open(path).map_err(|f| sorted(path, f))?;
        check(&connection, path, steps)?;
        bring_forward(&mut connection, path, steps)?;
        Ok(connection)
    }

    #[test]
    fn an_older_file_is_brought_forward_and_a_newer_one_refused() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("book.sqlite");
        drop(open(&path, &[ONE]).unwrap());
        let connection = open(&path, &[ONE, TWO]).unwrap();
        let y: i64 = connection.query_row("SELECT y FROM a", [], |row| row.get(0)).unwrap();
        assert_eq!(y, 2, "what was there was kept and brought forward");
        drop(connection);
        let fault = open(&path, &[ONE]).unwrap_err();
        assert!(matches!(fault, StoreFault::Newer { found: 2, known: 1, .. }), "{fault}");
        assert!(fault.to_string().contains("written by a newer version"), "{fault}");
    }

    #[test]
    fn a_step_that_fails_leaves_the_file_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("book.sqlite");
        drop(open(&path, &[ONE]).unwrap());
        open(&path, &[ONE, TWO, "CREATE TABLE a (again INTEGER);"]).unwrap_err();
        let connection = open(&path, &[ONE]).unwrap();
        assert!(connection.query_row("SELECT y FROM a", [], |row| row.get::<_, i64>(0)).is_err());
    }

    #[test]
    fn another_programs_database_is_refused_and_not_touched() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("book.sqlite");
        Connection::open(&path).unwrap().execute_batch("CREATE TABLE recipes (soup TEXT);").unwrap();
        let before = std::fs::read(&path).unwrap();
        assert!(matches!(open(&path, STEPS), Err(StoreFault::NotAFieldBook { .. })));
        assert_eq!(std::fs::read(&path).unwrap(), before);
    }
}
