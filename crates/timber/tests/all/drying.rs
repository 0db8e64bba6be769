//! The solver against closed forms and a general-purpose integrator; the laws that drying must keep.

use crate::{number, rows};
use proptest::prelude::*;
use timber::drying::diffusivity::Model;
use timber::drying::solver::{Boundary, Slab};
use timber::drying::{Coating, Exposure, Faces, Plank, Surroundings, dry};
use timber::moisture::equilibrium_percent;
use timber::species::table;

/// Share of the change still to come, by the series for a slab with surface resistance (Crank, The Mathematics of
/// Diffusion, ch. 4): E = Σ 2L²/(β²(β² + L² + L)) exp(−β² Fo), β tan β = L.
fn series(l: f64, fo: f64) -> f64 {
    (0..200)
        .map(|n| {
            let (mut low, mut high) =
                (f64::from(n) * std::f64::consts::PI, (f64::from(n) + 0.5) * std::f64::consts::PI - 1e-12);
            for _ in 0..80 {
                let b = 0.5 * (low + high);
                if b * b.tan() < l { low = b } else { high = b }
            }
            let b = 0.5 * (low + high);
            2.0 * l * l / (b * b * (b * b + l * l + l)) * (-b * b * fo).exp()
        })
        .sum()
}

/// Printed values of that series: L = 10, Fo 0.1: 0.7261; L = 5, Fo 0.5: 0.3852; L = 1, Fo 1: 0.4704 (by hand).
#[test]
fn the_series_itself() {
    assert!((series(10.0, 0.1) - 0.7261).abs() < 5e-5);
    assert!((series(5.0, 0.5) - 0.3852).abs() < 5e-5);
    assert!((series(1.0, 1.0) - 0.4704).abs() < 5e-5);
}

#[test]
fn mean_moisture_follows_the_series_for_a_slab() {
    let (a, d, m0, me) = (0.015, 3.3e-11, 28.0, 12.0);
    let mut worst: f64 = 0.0;
    for l in [1.0, 5.0, 50.0] {
        let outer = Boundary::Open { conductance_m_s: l * d / a, target_percent: me };
        let mut slab = Slab::new(a, 60, 1.06, false, m0);
        let step_fo = 2.5e-4;
        let mut fo = 0.0;
        // The face starts with a jump, so the first stretch goes in short steps.
        let steps = std::iter::repeat_n(step_fo / 50.0, 1000).chain(std::iter::repeat_n(step_fo, 5980));
        let mut due = (1..=20).map(|i| 0.075 * f64::from(i)).peekable();
        for step in steps {
            slab.step(step * a * a / d, Boundary::Closed, outer, |_| d);
            fo += step;
            if due.peek().is_some_and(|at| fo >= at - 1e-9) {
                due.next();
                let exact = me + (m0 - me) * series(l, fo);
                worst = worst.max((slab.mean_percent() / exact - 1.0).abs());
            }
        }
        assert!(due.next().is_none(), "all twenty times were looked at");
    }
    assert!(worst < 1e-3, "largest relative error {worst:.2e}");
}

#[test]
fn nonlinear_drying_follows_a_general_purpose_integrator() {
    let all: Vec<_> = rows(include_str!("../data/nonlinear-drying.csv")).collect();
    assert_eq!(all.len(), 40);
    let mut worst: f64 = 0.0;
    for case in all.chunk_by(|a, b| a[0] == b[0]) {
        let v = |i: usize| number(case[0][i]);
        let (g, t, half, s, m0, me) = (v(1), v(2), v(3), v(4), v(5), v(6));
        let model = if g == 0.0 { Model::Oak } else { Model::ByGravity(g) };
        let mut slab = Slab::new(half, 60, 1.05, false, m0);
        let outer = Boundary::Open { conductance_m_s: s, target_percent: me };
        let mut day = 0.0;
        for row in case {
            let until = number(row[7]);
            while day < until - 1e-9 {
                let step = (if day < 0.5 { 1.0 / 5760.0 } else { 1.0 / 288.0f64 }).min(until - day);
                slab.step(step * 86_400.0, Boundary::Closed, outer, |m| model.at(m, t));
                day += step;
            }
            let (mean, core) = (number(row[8]), number(row[9]));
            worst = worst.max((slab.mean_percent() / mean - 1.0).abs()).max((slab.mc_percent()[0] / core - 1.0).abs());
        }
    }
    assert!(worst < 2e-3, "largest relative error {worst:.2e}");
}

/// Siau (1984) Eq. 6.22 as worked by hand for four gravities at 20 °C, in 10⁻¹¹ m²/s; oak from its own equation (the hand
/// figures took 0 °C as 273 K, which makes 1 % of difference).
#[test]
fn diffusivities() {
    let hand = [
        (0.34, [9.7, 15.5, 29.0, 43.0]),
        (0.45, [5.4, 8.7, 16.8, 26.0]),
        (0.54, [3.7, 5.9, 11.6, 18.9]),
        (0.68, [2.3, 3.6, 7.2, 12.3]),
    ];
    for (g, values) in hand {
        for (mc, value) in [8.0, 12.0, 18.0, 24.0].into_iter().zip(values) {
            let ours = 1e11 * Model::ByGravity(g).at(mc, 20.0);
            assert!((ours / value - 1.0).abs() < 0.03, "{g} at {mc}: {ours}");
        }
    }
    assert!((1e11 * Model::Oak.at(12.0, 20.0) - 3.29).abs() < 0.04);
    assert!((1e11 * Model::Oak.at(25.0, 10.0) - 2.02).abs() < 0.03);
}

/// A 30 mm oak plank, both faces bare, 28 %, 15 °C and 65 %: worked once elsewhere with 120 cells and
/// half-hour steps, 0 °C taken as 273 K (hence up to 0.04 of difference).
#[test]
fn a_plank_ashore() {
    let printed = [
        (Exposure::Breeze, [23.54, 21.59, 18.59, 15.38, 13.79, 12.37]),
        (Exposure::Shed, [24.06, 22.13, 19.13, 15.82, 14.10, 12.45]),
    ];
    let air = Surroundings::constant(15.0, 65.0).unwrap();
    for (exposure, values) in printed {
        for (days, value) in [7.0, 14.0, 30.0, 60.0, 90.0, 180.0].into_iter().zip(values) {
            let ours = dry(&oak_plank(exposure), &air, days).unwrap().end().unwrap().mean_mc_percent;
            assert!((ours - value).abs() < 0.05, "{days} days: {ours} against {value}");
        }
    }
}

fn oak_plank(exposure: Exposure) -> Plank {
    Plank {
        species: "white oak",
        thickness_mm: 30.0,
        mc_start_percent: 28.0,
        faces: Faces::Both,
        coating: Coating::Bare,
        exposure,
    }
}

const YEAR: &str = "month,temp_c,rh_percent\n1,3,88\n2,4,86\n3,6,80\n4,9,75\n5,12,73\n6,15,74\n7,17,75\n8,17,77\n9,14,81\n10,11,85\n11,7,88\n12,4,89\n";

#[test]
fn monthly_air_is_read_and_run_smoothly() {
    let year = Surroundings::monthly_csv(YEAR, 1).unwrap();
    let january = year.at(15.22);
    assert!((january.temp_c - 3.0).abs() < 0.01 && (january.rh_percent - 88.0).abs() < 0.01);
    assert!((year.at(365.25 + 15.22).temp_c - january.temp_c).abs() < 1e-9);
    let from_july = Surroundings::monthly_csv(YEAR, 7).unwrap();
    assert!((from_july.at(15.22).temp_c - 17.0).abs() < 0.01);
}

#[test]
fn a_bad_table_is_refused_in_one_sentence() {
    let eleven = YEAR.rsplitn(3, '\n').nth(2).unwrap();
    let cases = [
        (eleven.to_owned(), "11 months"),
        (YEAR.replace("rh_percent", "humidity"), "header"),
        (YEAR.replace("\n2,4,86", "\n2,4,186"), "line 3"),
        (YEAR.replace("\n2,", "\n1,"), "twice"),
        (YEAR.replace("\n2,", "\n13,"), "month from 1 to 12"),
        (YEAR.replace("\n3,6", "\n3,warm"), "'warm'"),
        (String::new(), "header"),
    ];
    for (text, word) in cases {
        let message = Surroundings::monthly_csv(&text, 1).unwrap_err().to_string();
        assert!(message.contains(word) && !message.contains('\n'), "{word}: {message}");
    }
}

#[test]
fn water_that_came_in_is_water_that_is_there() {
    let year = Surroundings::monthly_csv(YEAR, 4).unwrap();
    for faces in [Faces::Both, Faces::One, Faces::OneWetBehind] {
        for coating in [Coating::Bare, Coating::OilPaint] {
            let plank = Plank { faces, coating, ..oak_plank(Exposure::Breeze) };
            let drying = dry(&plank, &year, 200.0).unwrap();
            let change = drying.end().unwrap().mean_mc_percent - 28.0;
            assert!((change - drying.came_in_percent).abs() < 1e-9 * 28.0, "{faces:?} {coating:?}");
        }
    }
}

#[test]
fn paint_slows_and_one_face_slows() {
    let air = Surroundings::constant(15.0, 65.0).unwrap();
    let after = |faces, coating| {
        dry(&Plank { faces, coating, ..oak_plank(Exposure::Breeze) }, &air, 30.0)
            .unwrap()
            .end()
            .unwrap()
            .mean_mc_percent
    };
    let bare = after(Faces::Both, Coating::Bare);
    assert!(bare < after(Faces::Both, Coating::WornPaint));
    assert!(after(Faces::Both, Coating::WornPaint) < after(Faces::Both, Coating::OilPaint));
    assert!(after(Faces::Both, Coating::OilPaint) < after(Faces::Both, Coating::Epoxy));
    assert!(bare < after(Faces::One, Coating::Bare));
    assert!(after(Faces::One, Coating::Bare) < after(Faces::OneWetBehind, Coating::Bare));
}

#[test]
fn a_plank_under_water_comes_to_fibre_saturation() {
    let plank = Plank { mc_start_percent: 12.0, ..oak_plank(Exposure::Breeze) };
    let wet = dry(&plank, &Surroundings::Water { temp_c: 15.0 }, 3000.0).unwrap();
    assert!((wet.end().unwrap().mean_mc_percent - 30.0).abs() < 0.1);
}

#[test]
fn refuses_what_cannot_be_meant() {
    let air = Surroundings::constant(15.0, 65.0).unwrap();
    let with = |thickness_mm, mc_start_percent, days| {
        dry(&Plank { thickness_mm, mc_start_percent, ..oak_plank(Exposure::Breeze) }, &air, days)
            .unwrap_err()
            .to_string()
    };
    assert!(with(0.0, 28.0, 30.0).contains("thickness_mm"));
    assert!(with(30.0, 0.28, 30.0).contains("fraction"));
    assert!(with(30.0, 28.0, -1.0).contains("days"));
    assert!(with(30.0, 28.0, f64::INFINITY).contains("days"));
    let unknown = dry(&Plank { species: "balsa", ..oak_plank(Exposure::Breeze) }, &air, 1.0).unwrap_err().to_string();
    assert!(unknown.contains("nearest names"));
    assert!(Surroundings::constant(15.0, 120.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn drying_never_overshoots(wood in 0..32usize, mm in 10.0..80.0f64, m0 in 1.0..60.0f64, t in 0.0..35.0f64, rh in 20.0..95.0f64, days in 1.0..90.0f64) {
        let plank = Plank { species: table()[wood].id, thickness_mm: mm, mc_start_percent: m0, ..oak_plank(Exposure::Breeze) };
        let emc = equilibrium_percent(t, rh).unwrap();
        let drying = dry(&plank, &Surroundings::constant(t, rh).unwrap(), days).unwrap();
        let (low, high) = (emc.min(m0) - 1e-9, emc.max(m0) + 1e-9);
        for s in &drying.snapshots {
            prop_assert!(s.layers_percent.iter().all(|m| (low..=high).contains(m)));
            prop_assert!((low..=high).contains(&s.surface_mc_percent));
        }
    }

    #[test]
    fn more_days_never_mean_less_drying(wood in 0..32usize, mm in 10.0..80.0f64, rh in 20.0..80.0f64, days in 0.1..90.0f64, more in 0.0..40.0f64) {
        let plank = Plank { species: table()[wood].id, thickness_mm: mm, ..oak_plank(Exposure::Shed) };
        let air = Surroundings::constant(15.0, rh).unwrap();
        let mean = |days: f64| dry(&plank, &air, days).unwrap().end().unwrap().mean_mc_percent;
        prop_assert!(mean(days + more) <= mean(days) + 1e-6);
    }
}
