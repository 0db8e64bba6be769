//! What does not fit in the database itself.

use rusqlite::Connection;

const TRIGGERS: [&str; 3] = ["entry_is_not_changed", "entry_is_not_removed", "entry_is_not_replaced"];

/// Returns, in sentences, what does not fit: pages, indexes, guards taken away, rows taken out.
pub(super) fn faults(connection: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut faults = Vec::new();
    let mut statement = connection.prepare("PRAGMA integrity_check(20)")?;
    for said in statement.query_map([], |row| row.get::<_, String>(0))? {
        let said = said?;
        if said != "ok" {
            faults.push(format!("The database is damaged: {said}."));
        }
    }
    for trigger in TRIGGERS {
        let there = connection
            .prepare("SELECT 1 FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'entry' AND name = ?1")?
            .exists([trigger])?;
        if !there {
            faults.push(format!("The guard `{trigger}` has been taken out of the database."));
        }
    }
    // Positions are given without gaps, and a transaction that fails gives its own back.
    let gaps = "SELECT before, position FROM \
                (SELECT position, lag(position, 1, 0) OVER (ORDER BY position) AS before FROM entry) \
                WHERE position <> before + 1 LIMIT 20";
    let mut statement = connection.prepare(gaps)?;
    for gap in statement.query_map([], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, i64>(1)?)))? {
        let (before, after) = gap?;
        faults.push(missing(before + 1, after - 1));
    }
    let last: i64 = connection.query_row("SELECT coalesce(max(position), 0) FROM entry", [], |row| row.get(0))?;
    let given = "SELECT coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'entry'), 0)";
    let given: i64 = connection.query_row(given, [], |row| row.get(0))?;
    if given > last {
        faults.push(missing(last + 1, given));
    }
    Ok(faults)
}

fn missing(first: i64, last: i64) -> String {
    if first >= last {
        format!("Entry number {last} of this store has been taken out.")
    } else {
        format!("Entries number {first} to {last} of this store have been taken out.")
    }
}
