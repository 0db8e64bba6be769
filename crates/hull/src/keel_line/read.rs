//! Reading points of the keel line from a table.

use super::KeelPoint;
use crate::HullError;

/// Reads rows of `x_m, z_mm` and, when known, `sd_mm`, parted by commas, semicolons, tabs or blanks; a header in any
/// order of those names may come first. Remarks begin with `#`.
///
/// # Errors
/// Names the line that cannot be read.
pub fn read_points(text: &str) -> Result<Vec<KeelPoint>, HullError> {
    let mut columns = [Some(0), Some(1), Some(2)];
    let mut points = Vec::new();
    let mut begun = false;
    for (i, line) in text.trim_start_matches('\u{feff}').lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let cells: Vec<&str> = if line.contains([',', ';', '\t']) {
            line.split([',', ';', '\t']).map(str::trim).collect()
        } else {
            line.split_whitespace().collect()
        };
        let refuse = |place: &str, why: String| HullError::Table { line: i + 1, place: place.to_owned(), why };
        if !begun {
            begun = true;
            let lower: Vec<String> = cells.iter().map(|c| c.to_lowercase()).collect();
            if lower.iter().any(|c| c == "x_m" || c == "z_mm") {
                let find = |names: &[&str]| lower.iter().position(|c| names.contains(&c.as_str()));
                columns = [find(&["x_m"]), find(&["z_mm"]), find(&["sd_mm", "sd"])];
                if columns[0].is_none() || columns[1].is_none() {
                    return Err(refuse("the header", "lacks x_m or z_mm; accepted are x_m, z_mm and sd_mm".to_owned()));
                }
                continue;
            }
        }
        let number = |k: usize, name: &str| -> Result<Option<f64>, HullError> {
            let Some(cell) = columns[k].and_then(|c| cells.get(c)).filter(|c| !c.is_empty()) else { return Ok(None) };
            let read = cell.parse::<f64>().ok().filter(|v| v.is_finite());
            read.map(Some)
                .ok_or_else(|| refuse(name, format!("`{cell}` is not a number; accepted is a number in {name}'s unit")))
        };
        let (x, z) = (number(0, "x_m")?, number(1, "z_mm")?);
        match (x, z) {
            (Some(x_m), Some(z_mm)) => points.push(KeelPoint { x_m, z_mm, sd_mm: number(2, "sd_mm")? }),
            _ => return Err(refuse("the row", "needs an x_m and a z_mm".to_owned())),
        }
    }
    Ok(points)
}
