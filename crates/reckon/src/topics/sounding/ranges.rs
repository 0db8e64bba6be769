//! Stretches of a recording, as people write them: `0:40-1:15, 90-120`.

/// Reads stretches in seconds, or minutes and seconds; says what is wrong in words.
pub(super) fn ranges(text: &str) -> Result<Vec<(f64, f64)>, String> {
    let mut out = Vec::new();
    for part in text.split([',', ';']).map(str::trim).filter(|p| !p.is_empty()) {
        let ends: Vec<&str> = part.split(['-', '–']).map(str::trim).collect();
        let [from, to] = ends[..] else { return Err(format!("`{part}` is not from-to")) };
        let (Some(from), Some(to)) = (seconds(from), seconds(to)) else {
            return Err(format!("`{part}` holds a time that cannot be read"));
        };
        if to <= from {
            return Err(format!("`{part}` ends before it begins"));
        }
        out.push((from, to));
    }
    if out.is_empty() { Err("no stretch is given".to_owned()) } else { Ok(out) }
}

fn seconds(text: &str) -> Option<f64> {
    let text = text.trim_end_matches('s').trim();
    let mut total = 0.0;
    for part in text.split(':') {
        let n: f64 = part.trim().parse().ok()?;
        if !(0.0..1e6).contains(&n) {
            return None;
        }
        total = total * 60.0 + n;
    }
    Some(total)
}

#[cfg(test)]
mod tests {
    use super::ranges;

    #[test]
    fn stretches_are_read_as_people_write_them() {
        assert_eq!(ranges("0:40-1:15, 90 - 120.5").unwrap(), vec![(40.0, 75.0), (90.0, 120.5)]);
        for bad in ["", "12", "20-10", "a-b", "1-2-3"] {
            assert!(ranges(bad).is_err(), "{bad}");
        }
    }
}
