//! The plain layout: one row a line of the boat, one column a station.

use super::{
    Offsets, Skin,
    cells::{Row, Unit, length_m},
    check,
};
use crate::{Edge, HullError, Lines, Section, Stern};

#[derive(Default)]
struct Table {
    names: Vec<String>,
    x: Vec<Option<f64>>,
    x_line: usize,
    rabbet: [Vec<Option<f64>>; 2],
    sheer: [Vec<Option<f64>>; 2],
    levels: Vec<(f64, Vec<Option<f64>>, usize)>,
    buttocks: Vec<(f64, Vec<Option<f64>>, usize)>,
    stem: [Vec<Option<f64>>; 3],
    stern: [Vec<Option<f64>>; 3],
}

pub(crate) fn read(rows: &[Row]) -> Result<Offsets, HullError> {
    let mut unit = Unit::Metre;
    let mut unit_said = false;
    let mut table = Table::default();
    let mut offsets = Offsets {
        name: String::new(),
        lines: Lines { sections: Vec::new(), bow: None, stern: None, stern_kind: Stern::Unsaid },
        skin: Skin::Unsaid,
        plank_thickness_mm: None,
        waterline_m: None,
        doubts: Vec::new(),
        assumed: Vec::new(),
        x_runs_forward: false,
    };
    let mut bow_last = None;
    for row in rows {
        let key = row.cells[0].to_lowercase();
        let values = &row.cells[1..];
        let said = values.first().map(|v| v.to_lowercase()).unwrap_or_default();
        let refuse = |why: String| HullError::Table { line: row.line, place: format!("row `{}`", row.cells[0]), why };
        let one = |unit| length_m(values.first().map_or("", String::as_str), unit, row.line, &key);
        let many = |unit, names: &[String]| -> Result<Vec<Option<f64>>, HullError> {
            values
                .iter()
                .enumerate()
                .map(|(i, cell)| {
                    let station = names.get(i).map_or_else(|| format!("column {}", i + 1), |n| format!("station {n}"));
                    length_m(cell, unit, row.line, &format!("{station}, {}", row.cells[0]))
                })
                .collect()
        };
        let per_station = |unit, names: &[String]| -> Result<Vec<Option<f64>>, HullError> {
            let mut list = many(unit, names)?;
            while list.len() > names.len() && list.last().is_some_and(Option::is_none) {
                list.pop();
            }
            if names.is_empty() {
                return Err(refuse("comes before the row `stations`, which must name the columns first".to_owned()));
            }
            if list.len() != names.len() {
                return Err(refuse(format!("has {} values for {} stations", list.len(), names.len())));
            }
            Ok(list)
        };
        match key.as_str() {
            "table of offsets" => {
                if !said.is_empty() && said != "1" {
                    return Err(refuse(format!("is of version {said}; accepted is 1")));
                }
            }
            "name" => offsets.name = values.join(", "),
            "units" => {
                unit_said = true;
                unit = match said.as_str() {
                    "m" => Unit::Metre,
                    "mm" => Unit::Millimetre,
                    "feet-inches-eighths" => Unit::FeetInchesEighths,
                    _ => return Err(refuse(format!("`{said}` is not known; accepted are m, mm, feet-inches-eighths"))),
                }
            }
            "bow" => {
                bow_last = match said.as_str() {
                    "first" | "first station" => Some(false),
                    "last" | "last station" => Some(true),
                    _ => return Err(refuse(format!("`{said}` is not known; accepted are first and last"))),
                }
            }
            "surface" => {
                offsets.skin = match said.as_str() {
                    "outside of plank" | "outside" => Skin::Outside,
                    "inside of plank" | "inside" => Skin::Inside,
                    _ => return Err(refuse("accepted are outside of plank and inside of plank".to_owned())),
                }
            }
            "plank thickness" => offsets.plank_thickness_mm = one(unit)?.map(|m| m * 1000.0),
            "waterline" => offsets.waterline_m = one(unit)?,
            "stations" => table.names = values.iter().filter(|v| !v.is_empty()).cloned().collect(),
            "x" => (table.x, table.x_line) = (per_station(unit, &table.names)?, row.line),
            "rabbet height" => table.rabbet[1] = per_station(unit, &table.names)?,
            "rabbet half-breadth" => table.rabbet[0] = per_station(unit, &table.names)?,
            "sheer height" => table.sheer[1] = per_station(unit, &table.names)?,
            "sheer half-breadth" => table.sheer[0] = per_station(unit, &table.names)?,
            "stem x" => table.stem[0] = many(unit, &[])?,
            "stem half-breadth" => table.stem[1] = many(unit, &[])?,
            "stem height" => table.stem[2] = many(unit, &[])?,
            "stern x" => table.stern[0] = many(unit, &[])?,
            "stern half-breadth" => table.stern[1] = many(unit, &[])?,
            "stern height" => table.stern[2] = many(unit, &[])?,
            "stern kind" => {
                offsets.lines.stern_kind = match said.as_str() {
                    "double-ended" => Stern::DoubleEnded,
                    "transom" => Stern::Transom,
                    "counter" => Stern::Counter,
                    _ => return Err(refuse("accepted are double-ended, transom and counter".to_owned())),
                }
            }
            other => {
                let (list, at) = if let Some(at) = other.strip_prefix("half-breadth at ") {
                    (&mut table.levels, at)
                } else if let Some(at) = other.strip_prefix("height at ") {
                    (&mut table.buttocks, at)
                } else {
                    return Err(refuse("is not known; see the layout's description for the rows there are".to_owned()));
                };
                let at = length_m(at.trim(), unit, row.line, other)?;
                let at = at.ok_or_else(|| refuse("names no height or half-breadth".to_owned()))?;
                if let Some(twice) = list.iter().find(|l| (l.0 - at).abs() < 1e-9) {
                    return Err(refuse(format!(
                        "stands already in line {}; each line of the boat comes once",
                        twice.2
                    )));
                }
                list.push((at, per_station(unit, &table.names)?, row.line));
            }
        }
    }
    if !unit_said {
        offsets.assumed.push("The table names no units; bare numbers were taken for metres.".to_owned());
    }
    if bow_last.is_none() {
        offsets.assumed.push("The table does not say where the bow is; the first station was taken for it.".to_owned());
    }
    assemble(&mut offsets, table, bow_last.unwrap_or(false))?;
    Ok(offsets)
}

fn assemble(offsets: &mut Offsets, mut table: Table, bow_last: bool) -> Result<(), HullError> {
    if table.names.is_empty() || table.x.is_empty() {
        return Err(HullError::Missing(
            "has no row `stations` or no row `x`; each station needs its distance".to_owned(),
        ));
    }
    let mut xs = Vec::new();
    for (name, x) in table.names.iter().zip(&table.x) {
        let x = x.ok_or_else(|| HullError::Table {
            line: table.x_line,
            place: format!("station {name}"),
            why: "has no x; a station number alone does not say where it stands".to_owned(),
        })?;
        xs.push(x);
    }
    check::growing(&table.names, &xs, table.x_line)?;
    let runs_up = xs.last() >= xs.first();
    // Aft is away from the bow: x grows aft when it grows from the bow's end of the columns.
    offsets.x_runs_forward = runs_up == bow_last && xs.len() > 1;
    let sign = if offsets.x_runs_forward { -1.0 } else { 1.0 };
    table.levels.sort_by(|a, b| a.0.total_cmp(&b.0));
    let empty = vec![None; table.names.len()];
    let of = |list: &Vec<Option<f64>>, i: usize| if list.is_empty() { None } else { list[i] };
    check::doubtful_levels(&mut offsets.doubts, &table.names, &xs, &table.levels);
    let mut sections = Vec::new();
    for (i, name) in table.names.iter().enumerate() {
        let mut points: Vec<(f64, f64, usize)> = Vec::new();
        for (z, list, line) in &table.levels {
            if let Some(y) = list.get(i).unwrap_or(&empty[i]) {
                check::half_breadth(*y, *line, name, &format!("half-breadth at {z:.3} m"))?;
                points.push((*y, *z, *line));
            }
        }
        for (y, list, line) in &table.buttocks {
            check::half_breadth(*y, *line, name, "buttock")?;
            if let Some(z) = list.get(i).unwrap_or(&empty[i]) {
                points.push((*y, *z, *line));
            }
        }
        points.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
        check::buttocks_agree(&mut offsets.doubts, name, &points);
        if let Some(z) = of(&table.rabbet[1], i) {
            let y = of(&table.rabbet[0], i).unwrap_or(0.0);
            check::half_breadth(y, 0, name, "rabbet half-breadth")?;
            if let Some(below) = points.iter().find(|p| p.1 < z - 1e-6 && p.0 > y + 1e-6) {
                return Err(HullError::Table {
                    line: below.2,
                    place: format!("station {name}"),
                    why: format!("a point at height {:.3} m lies below the rabbet at {z:.3} m", below.1),
                });
            }
            points.retain(|p| p.1 > z + 1e-6);
            points.insert(0, (y, z, 0));
        }
        if let (Some(z), Some(y)) = (of(&table.sheer[1], i), of(&table.sheer[0], i)) {
            check::half_breadth(y, 0, name, "sheer half-breadth")?;
            if let Some(above) = points.iter().find(|p| p.1 > z + 1e-3) {
                return Err(HullError::Table {
                    line: above.2,
                    place: format!("station {name}"),
                    why: format!("a point at height {:.3} m lies above the sheer at {z:.3} m", above.1),
                });
            }
            points.retain(|p| p.1 < z - 1e-6);
            points.push((y, z, 0));
        }
        if points.len() < 2 {
            offsets.assumed.push(format!(
                "Station {name} has fewer than two points and was left out; the surface runs through its place as a batten would."
            ));
            continue;
        }
        let points = points.into_iter().map(|p| (p.0, p.1)).collect();
        sections.push(Section { name: name.clone(), x_m: sign * xs[i], points });
    }
    if table.rabbet[1].is_empty() {
        offsets.assumed.push("No rabbet is given; each section begins at its lowest point.".to_owned());
    }
    sections.sort_by(|a: &Section, b: &Section| a.x_m.total_cmp(&b.x_m));
    let stem = edge("stem", &table.stem, sign)?;
    let stern = edge("stern", &table.stern, sign)?;
    if stem.is_none() {
        offsets.assumed.push("No stem profile is given; the foremost station was taken for the end.".to_owned());
    }
    if stern.is_none() {
        offsets.assumed.push("No stern profile is given; the aftermost station was taken for the end.".to_owned());
    }
    offsets.lines = Lines { sections, bow: stem, stern, stern_kind: offsets.lines.stern_kind };
    Ok(())
}

fn edge(name: &str, rows: &[Vec<Option<f64>>; 3], sign: f64) -> Result<Option<Edge>, HullError> {
    let [x, y, z] = rows;
    if x.is_empty() && z.is_empty() {
        return Ok(None);
    }
    let mut points = Vec::new();
    for i in 0..x.len().max(z.len()) {
        match (x.get(i).copied().flatten(), z.get(i).copied().flatten()) {
            (Some(x), Some(z)) => points.push([sign * x, y.get(i).copied().flatten().unwrap_or(0.0), z]),
            (None, None) => {}
            _ => {
                return Err(HullError::Table {
                    line: 0,
                    place: format!("{name}, point {}", i + 1),
                    why: "has an x without a height or a height without an x".to_owned(),
                });
            }
        }
    }
    if points.len() < 2 {
        return Err(HullError::Missing(format!(
            "gives fewer than two points of the {name}; two are needed, five are usual"
        )));
    }
    points.sort_by(|a, b| a[2].total_cmp(&b[2]));
    Ok(Some(Edge { points }))
}
