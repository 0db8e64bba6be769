//! Lists of numbers and small tables as people type them.

use crate::Refusal;

/// Reads numbers with commas, semicolons or spaces between them.
pub(super) fn numbers(flag: &str, text: &str) -> Result<Vec<f64>, Refusal> {
    let parts = text.split([',', ';', ' ', '\n', '\t']).map(str::trim).filter(|part| !part.is_empty());
    let read = |part: &str| {
        part.parse::<f64>().ok().filter(|n| n.is_finite()).ok_or_else(|| {
            let accepted = "numbers with commas between them and a point for decimals, e.g. 0, 200, 410.5";
            Refusal::value(flag, part, "this is not a number", accepted)
        })
    };
    let all: Vec<f64> = parts.map(read).collect::<Result<_, _>>()?;
    if all.is_empty() || all.len() > 500 {
        return Err(Refusal::value(flag, text, "this is no list", "from 1 to 500 numbers with commas between them"));
    }
    Ok(all)
}

/// Reads a small CSV table; columns come in the order of `columns`, absent ones as empty.
pub(super) fn table(flag: &str, text: &str, columns: &[&str]) -> Result<Vec<Vec<String>>, Refusal> {
    let accepted = || format!("a CSV table headed {}", columns.join(","));
    let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).flexible(true).from_reader(text.as_bytes());
    let headings =
        reader.headers().map_err(|fault| Refusal::value(flag, fault, "this is no table", accepted()))?.clone();
    if headings.get(0).is_none_or(|first| !first.eq_ignore_ascii_case(columns[0])) {
        let shown = headings.iter().collect::<Vec<_>>().join(",");
        return Err(Refusal::value(flag, shown, format!("the first column is not `{}`", columns[0]), accepted()));
    }
    let at: Vec<Option<usize>> =
        columns.iter().map(|column| headings.iter().position(|h| h.eq_ignore_ascii_case(column))).collect();
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|fault| Refusal::value(flag, fault, "this row cannot be read", accepted()))?;
        rows.push(at.iter().map(|i| i.and_then(|i| record.get(i)).unwrap_or_default().to_owned()).collect());
    }
    if rows.is_empty() || rows.len() > 200 {
        return Err(Refusal::value(flag, format!("{} rows", rows.len()), "this is no list", "from 1 to 200 rows"));
    }
    Ok(rows)
}

/// Reads one cell as a whole number.
pub(super) fn whole(flag: &str, cell: &str, column: &str) -> Result<u64, Refusal> {
    cell.parse().map_err(|_| Refusal::value(flag, cell, format!("{column} is not a whole number"), "a whole number"))
}
