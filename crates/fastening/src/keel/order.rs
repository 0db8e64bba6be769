//! Which ballast bolts to draw first.

/// What is known of one bolt before drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    /// Number of the bolt, counted from forward.
    pub number: usize,
    /// Greatest tension over the cases reckoned, N.
    pub tension_n: f64,
    /// Signs seen at it: weep, rust stain, loose or wasted nut, proud washer, crushed wood, wet garboard by it.
    pub signs: Vec<String>,
    /// Whether it stands by another metal, or where stray current may run.
    pub by_other_metal: bool,
    /// Whether it stands where water lies.
    pub in_wet: bool,
    /// Years since it was last drawn or put in, when known.
    pub years_since_drawn: Option<f64>,
}

/// A bolt in its place in the order.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Number of the bolt.
    pub number: usize,
    /// Points; the order, not the size, means something.
    pub points: f64,
    /// Why, in a few words each.
    pub reasons: Vec<String>,
}

/// Puts bolts in the order in which to draw them: signs first, then where they waste, then load, then age. The
/// weights (3 for each sign, 2 by another metal, 1 in the wet, up to 2 for load and for age) are a convention of this
/// workbench. One good bolt says little of the next: among bolts of equal points the one furthest from those already
/// in the list comes next, so that both ends and the middle come before neighbours.
pub fn draw_first(bolts: &[Known]) -> Vec<Placed> {
    let greatest = bolts.iter().map(|bolt| bolt.tension_n).fold(0.0, f64::max);
    let least = bolts.iter().map(|bolt| bolt.tension_n).fold(f64::INFINITY, f64::min);
    let oldest = bolts.iter().filter_map(|bolt| bolt.years_since_drawn).fold(0.0, f64::max);
    let mut placed: Vec<Placed> = bolts
        .iter()
        .map(|bolt| {
            let mut reasons: Vec<String> = bolt.signs.clone();
            let mut points = 3.0 * bolt.signs.len() as f64;
            if bolt.by_other_metal {
                points += 2.0;
                reasons.push("by another metal".to_owned());
            }
            if bolt.in_wet {
                points += 1.0;
                reasons.push("where water lies".to_owned());
            }
            if greatest > 0.0 {
                points += 2.0 * bolt.tension_n / greatest;
                if bolt.tension_n > 0.999 * greatest && least < 0.99 * greatest {
                    reasons.push("greatest tension of the cases reckoned".to_owned());
                }
            }
            match bolt.years_since_drawn {
                Some(years) if oldest > 0.0 => points += 2.0 * years / oldest,
                Some(_) => {}
                None => {
                    points += 2.0;
                    reasons.push("not known when last drawn".to_owned());
                }
            }
            Placed { number: bolt.number, points, reasons }
        })
        .collect();
    placed.sort_by(|a, b| b.points.total_cmp(&a.points).then(a.number.cmp(&b.number)));
    spread(placed)
}

/// Takes the bolts by points, and among equals the one furthest from all taken.
fn spread(mut left: Vec<Placed>) -> Vec<Placed> {
    let mut taken: Vec<Placed> = Vec::with_capacity(left.len());
    while let Some(first) = left.first() {
        let equals = left.iter().take_while(|bolt| first.points - bolt.points < 1e-9);
        let apart = |bolt: &Placed| taken.iter().map(|t| t.number.abs_diff(bolt.number)).min().unwrap_or(0);
        let mut next = 0;
        for (i, bolt) in equals.enumerate() {
            if apart(bolt) > apart(&left[next]) {
                next = i;
            }
        }
        taken.push(left.remove(next));
    }
    taken
}
