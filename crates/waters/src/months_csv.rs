//! Reading twelve months from CSV.

use crate::Fault;

/// A column wanted: name, least and greatest value.
pub(crate) type Column = (&'static str, f64, f64);

/// Reads `month` and two columns of twelve months, in any order of rows.
pub(crate) fn read(text: &str, columns: [Column; 2], accepted: &'static str) -> Result<[[f64; 12]; 2], Fault> {
    let fault = |line: usize, why: String| Fault::Table { line, why, accepted };
    let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(text.as_bytes());
    let header = reader.headers().map_err(|e| fault(1, one_line(&e.to_string())))?.clone();
    let place = |name: &str| {
        let found = header.iter().position(|h| h.trim_start_matches('\u{feff}').eq_ignore_ascii_case(name));
        found.ok_or_else(|| fault(1, format!("the header lacks {name}")))
    };
    let month_at = place("month")?;
    let at = [place(columns[0].0)?, place(columns[1].0)?];
    let mut seen = [false; 12];
    let mut values = [[0.0; 12]; 2];
    for (row, record) in reader.records().enumerate() {
        let line = row + 2;
        let record = record.map_err(|e| fault(line, one_line(&e.to_string())))?;
        let field = |i: usize| record.get(i).unwrap_or_default();
        let month = field(month_at).parse::<usize>().ok().filter(|m| (1..=12).contains(m));
        let month =
            month.ok_or_else(|| fault(line, format!("'{}' is not a month from 1 to 12", short(field(month_at)))))?;
        if std::mem::replace(&mut seen[month - 1], true) {
            return Err(fault(line, format!("month {month} comes twice")));
        }
        for ((name, least, greatest), (i, column)) in columns.iter().zip(at.iter().zip(values.iter_mut())) {
            let number = field(*i).parse().ok().filter(|n: &f64| n.is_finite() && n >= least && n <= greatest);
            column[month - 1] = number.ok_or_else(|| {
                fault(line, format!("{name} '{}' is not a number from {least} to {greatest}", short(field(*i))))
            })?;
        }
    }
    let given = seen.iter().filter(|s| **s).count();
    if given < 12 {
        return Err(fault(given + 1, format!("there are {given} months, not 12")));
    }
    Ok(values)
}

fn short(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(20).collect()
}

fn one_line(text: &str) -> String {
    text.replace('\n', " ")
}
