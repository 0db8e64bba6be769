//! Layouts with one point, or one station, a row.

use super::{
    Offsets, Skin,
    cells::{Row, Unit, length_m},
    check,
};
use crate::{HullError, Lines, Section, Stern};

/// `x_m, z_m, half_breadth_m`, one point a row.
pub(crate) fn triples(rows: &[Row], text: &str) -> Result<Offsets, HullError> {
    let header: Vec<String> = rows[0].cells.iter().map(|c| c.to_lowercase()).collect();
    let column = |name: &str| header.iter().position(|h| h == name).unwrap_or(0);
    let columns = [column("x_m"), column("half_breadth_m"), column("z_m")];
    let names = ["x_m", "half_breadth_m", "z_m"];
    let mut points: Vec<([f64; 3], usize)> = Vec::new();
    for row in &rows[1..] {
        let mut p = [0.0; 3];
        let mut gaps = 0;
        for (k, c) in columns.iter().enumerate() {
            let cell = row.cells.get(*c).map_or("", String::as_str);
            match length_m(cell, Unit::Metre, row.line, names[k])? {
                Some(m) => p[k] = m,
                None => gaps += 1,
            }
        }
        if gaps > 0 {
            let why = "has an empty cell; each point needs x, height and half-breadth".to_owned();
            return Err(HullError::Table { line: row.line, place: format!("x = {} m", p[0]), why });
        }
        check::half_breadth(p[1], row.line, &format!("at x = {} m", p[0]), &format!("height {} m", p[2]))?;
        points.push((p, row.line));
    }
    points.sort_by(|a, b| a.0[0].total_cmp(&b.0[0]));
    let mut stations: Vec<(f64, Vec<(f64, f64)>)> = Vec::new();
    for (p, _) in &points {
        match stations.last_mut() {
            Some((x, list)) if (p[0] - *x).abs() < 1e-6 => list.push((p[1], p[2])),
            _ => stations.push((p[0], vec![(p[1], p[2])])),
        }
    }
    let named = stations.into_iter().map(|(x, list)| (format!("{x}"), x, list)).collect();
    finish(named, text)
}

/// `station, x_m, half_breadth_wl_HEIGHT, …`, one station a row.
pub(crate) fn stations(rows: &[Row], text: &str) -> Result<Offsets, HullError> {
    let header = &rows[0];
    let lower: Vec<String> = header.cells.iter().map(|c| c.to_lowercase()).collect();
    let x_column = lower.iter().position(|h| h == "x_m" || h == "x");
    let x_column = x_column.ok_or_else(|| HullError::Table {
        line: header.line,
        place: "the header".to_owned(),
        why: "has no column x_m; a station number alone does not say where it stands".to_owned(),
    })?;
    let mut levels = Vec::new();
    for (i, name) in lower.iter().enumerate() {
        let Some(height) = name.strip_prefix("half_breadth_wl_") else { continue };
        let height = length_m(height.trim_end_matches("_m"), Unit::Metre, header.line, name)?;
        let why = "names no height".to_owned();
        let height = height.ok_or_else(|| HullError::Table { line: header.line, place: name.clone(), why })?;
        levels.push((i, height));
    }
    if levels.len() < 2 {
        return Err(HullError::Missing("has fewer than two columns half_breadth_wl_…".to_owned()));
    }
    let mut named = Vec::new();
    for row in &rows[1..] {
        let name = row.cells[0].clone();
        let cell = |i: usize| row.cells.get(i).map_or("", String::as_str);
        let place = format!("station {name}");
        let x = length_m(cell(x_column), Unit::Metre, row.line, &place)?;
        let x =
            x.ok_or_else(|| HullError::Table { line: row.line, place: place.clone(), why: "has no x".to_owned() })?;
        let mut list = Vec::new();
        for (i, height) in &levels {
            let line = format!("{place}, waterline {height} m");
            if let Some(y) = length_m(cell(*i), Unit::Metre, row.line, &line)? {
                check::half_breadth(y, row.line, &name, &format!("waterline {height} m"))?;
                list.push((y, *height));
            }
        }
        named.push((name, x, list));
    }
    let (names, xs): (Vec<String>, Vec<f64>) = named.iter().map(|(n, x, _)| (n.clone(), *x)).unzip();
    check::growing(&names, &xs, header.line)?;
    finish(named, text)
}

type Named = Vec<(String, f64, Vec<(f64, f64)>)>;

fn finish(mut named: Named, text: &str) -> Result<Offsets, HullError> {
    named.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut assumed = vec!["No rabbet is given; each section begins at its lowest point.".to_owned()];
    let remark =
        |words: &str| text.lines().any(|l| l.trim_start().starts_with('#') && l.to_lowercase().contains(words));
    let forward = remark("bow: greatest x");
    if !forward && !remark("bow: least x") {
        assumed.push("The table does not say where the bow is; the station of least x was taken for it.".to_owned());
    }
    assumed
        .push("No stem and stern profiles are given; the first and last stations were taken for the ends.".to_owned());
    let mut doubts = Vec::new();
    for (_, _, list) in &mut named {
        list.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
    }
    let (names, xs): (Vec<String>, Vec<f64>) = named.iter().map(|(n, x, _)| (n.clone(), *x)).unzip();
    let mut heights: Vec<f64> = named.iter().flat_map(|n| n.2.iter().map(|p| p.1)).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    // Points on common heights are a table and can be checked as one; scattered points cannot.
    if heights.len() <= 40 {
        let levels: Vec<_> = heights
            .iter()
            .map(|h| {
                let at = |list: &Vec<(f64, f64)>| {
                    let on: Vec<f64> = list.iter().filter(|p| (p.1 - h).abs() < 1e-6).map(|p| p.0).collect();
                    // Two points at one height are a flat, which a table of level lines cannot show.
                    if on.len() == 1 { Some(on[0]) } else { None }
                };
                (*h, named.iter().map(|n| at(&n.2)).collect::<Vec<_>>(), 0)
            })
            .collect();
        check::doubtful_levels(&mut doubts, &names, &xs, &levels);
    }
    let sign = if forward { -1.0 } else { 1.0 };
    let mut sections = Vec::new();
    for (name, x, points) in named {
        if points.is_empty() {
            assumed.push(format!("Station {name} has no points and was left out."));
            continue;
        }
        sections.push(Section { name, x_m: sign * x, points });
    }
    sections.sort_by(|a, b| a.x_m.total_cmp(&b.x_m));
    Ok(Offsets {
        name: String::new(),
        lines: Lines { sections, bow: None, stern: None, stern_kind: Stern::Unsaid },
        skin: Skin::Unsaid,
        plank_thickness_mm: None,
        waterline_m: None,
        doubts,
        assumed,
        x_runs_forward: forward,
    })
}
