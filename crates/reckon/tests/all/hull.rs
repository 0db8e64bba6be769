//! The topics of the room `hull`: that flags reach it and figures, cautions and refusals come back.

use reckon::{Inputs, Reckoned, find};

fn reckon(topic: &str, flags: &[(&str, &str)]) -> Result<Reckoned, String> {
    let topic = find(topic).expect("a topic");
    let inputs = Inputs::read(topic, flags.iter().copied()).map_err(|refusal| refusal.to_string())?;
    topic.reckon(inputs).map_err(|refusal| refusal.to_string())
}

fn figure(reckoned: &Reckoned, key: &str) -> f64 {
    reckoned.answer.results[key].as_f64().unwrap_or_else(|| panic!("{key} is a number"))
}

fn near(what: &str, got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs(), "{what}: {got} against {wanted}");
}

/// The Wigley form, L 8, B 2.4, T 1.0, keel at 0, bow at x = 0.
fn wigley() -> String {
    let mut text = String::from("x_m,z_m,half_breadth_m\n");
    for i in 0..=20 {
        for j in 0..=8 {
            let (x, z) = (f64::from(i) / 20.0, f64::from(j) / 8.0);
            let y = 1.2 * (1.0 - (2.0 * x - 1.0).powi(2)) * (1.0 - (z - 1.0).powi(2));
            text.push_str(&format!("{},{z},{y}\n", 8.0 * x));
        }
    }
    text
}

/// Exact integrals of the Wigley form; wetted surface by independent quadrature.
#[test]
fn hydrostatics_of_a_form_with_exact_figures() {
    let text = wigley();
    let got = reckon("hydrostatics", &[("offsets", &text), ("waterline-m", "1.0")]).unwrap();
    for (key, wanted) in [
        ("volume_m3", 8.533333),
        ("wetted_surface_m2", 22.302233),
        ("waterplane_m2", 12.8),
        ("lcb_m", 4.0),
        ("kb_m", 0.625),
        ("bmt_m", 0.493714),
        ("cb", 4.0 / 9.0),
        ("cp", 2.0 / 3.0),
    ] {
        near(key, figure(&got, key), wanted, 1e-3);
    }
    assert!(got.answer.cautions.iter().any(|c| c.contains("where the bow is")), "{:?}", got.answer.cautions);
    let missing = reckon("hydrostatics", &[("offsets", &text)]).unwrap_err();
    assert!(missing.contains("--waterline-m is missing"), "{missing}");
    let low = reckon("hydrostatics", &[("offsets", &text), ("waterline-m", "-2")]).unwrap_err();
    assert!(low.starts_with("--waterline-m -2") && low.contains("above the lowest point"), "{low}");
    let bad = text.replacen("0.4,", "0.4x,", 1);
    let bad = reckon("hydrostatics", &[("offsets", &bad), ("waterline-m", "1")]).unwrap_err();
    assert!(bad.contains("Line 11, x_m") && bad.contains("0.4x"), "{bad}");
}

#[test]
fn expansion_gives_girths_strakes_and_a_drawing() {
    let got = reckon("expansion", &[("offsets", &wigley()), ("strakes", "6"), ("frames", "20")]).unwrap();
    let list = |key: &str| -> Vec<f64> {
        got.answer.results[key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect()
    };
    let (girths, areas) = (list("girths_mm"), list("area_m2"));
    assert_eq!((girths.len(), areas.len()), (21, 6));
    // By independent quadrature: girth amidships and at 0.8 m from it; strakes from the garboard up.
    near("girth", girths[10], 1635.300, 1e-3);
    near("girth", girths[8], 1596.946, 1e-3);
    for (area, wanted) in areas.iter().zip([1.821416, 1.829490, 1.844234, 1.864052, 1.886629, 1.905294]) {
        near("strake", *area, wanted, 1e-3);
    }
    near("side", figure(&got, "side_area_m2"), areas.iter().sum(), 1e-6);
    let sheet = &got.answer.sheets[0];
    assert!(sheet.to_svg().contains("Scale 1:") && sheet.to_dxf().contains("SEAMS-PORT"));
    assert!(
        reckon("expansion", &[("offsets", "nonsense"), ("strakes", "6")]).unwrap_err().contains("layout is not known")
    );
}

/// numpy.linalg.lstsq: δ 21.8701, sd 1.8234; sag -13.3741, sd 1.7070.
#[test]
fn keel_line_of_the_worked_points() {
    let points = |z: &[f64]| {
        let rows = z.iter().enumerate().map(|(x, z)| format!("{x},{z},2\n"));
        format!("x_m,z_mm,sd_mm\n{}", rows.collect::<String>())
    };
    let hog = points(&[0.0, 9.0, 15.0, 21.0, 22.0, 21.0, 17.0, 8.0, 1.0]);
    let hog = reckon("keel-line", &[("points", &hog)]).unwrap();
    near("hog", figure(&hog, "hog_mm"), 21.8701, 1e-5);
    near("sd", figure(&hog, "sd_mm"), 1.8234, 1e-4);
    assert_eq!(hog.answer.results["reading"], "hogged");
    assert!(hog.answer.cautions.iter().any(|c| c.contains("cannot tell an even curve")));
    let sag = points(&[0.0, -4.0, -7.0, -11.0, -12.0, -12.0, -13.0, -10.0, -8.0, -3.0, 1.0]);
    let sag = reckon("keel-line", &[("points", &sag)]).unwrap();
    near("sag", figure(&sag, "hog_mm"), -13.3741, 1e-5);
    assert_eq!(sag.answer.results["reading"], "sagged");

    let broken: Vec<f64> =
        (0..13).map(|i| if i < 5 { 5.0 * f64::from(i) } else { 20.0 - 2.5 * f64::from(i - 4) }).collect();
    let broken = reckon("keel-line", &[("points", &points(&broken).replace(",2\n", ",1\n"))]).unwrap();
    assert_eq!(broken.answer.results["shape"], "break");
    assert!((figure(&broken, "break_at_m") - 4.0).abs() < 0.2);
    assert!(broken.answer.cautions.iter().any(|c| c.contains("broken, not hogged")));

    let few = reckon("keel-line", &[("points", "0 0\n1 1\n")]).unwrap_err();
    assert!(few.starts_with("--points") && few.contains("three or more"), "{few}");
    let half = reckon("keel-line", &[("points", "0 0\n1 5\n2 0\n"), ("string-g-per-m", "1")]).unwrap_err();
    assert!(half.contains("--string-tension-n"), "{half}");
    let string = [("points", "0 0\n5 5\n10 0\n"), ("string-g-per-m", "1"), ("string-tension-n", "100")];
    near("less the string's sag", figure(&reckon("keel-line", &string).unwrap(), "hog_mm"), 5.0 - 1.2258, 1e-4);
}

/// Closed forms of the beam, and the rule's worked pressure 45.2359 kPa: σ = 3.2570 N/mm² at 25 mm over 300 mm.
#[test]
fn planking_and_its_comparison() {
    let base = [("species", "white oak"), ("thickness-mm", "25"), ("frame-spacing-mm", "300"), ("head-m", "1.5")];
    let plain = reckon("planking", &base).unwrap();
    near("head", figure(&plain, "pressure_kpa"), 1.5 * 1.025 * 9.80665, 1e-9);
    near("stress", figure(&plain, "bending_stress_mpa"), 15.0777e-3 * 72.0, 1e-4);
    near(
        "ratio",
        figure(&plain, "ratio"),
        figure(&plain, "bending_stress_mpa") / figure(&plain, "allowed_stress_mpa"),
        1e-9,
    );
    let needed = figure(&plain, "required_thickness_mm");
    near("thickness", (needed / 25.0).powi(2), figure(&plain, "ratio"), 1e-9);
    assert!(!plain.answer.results.contains_key("rule_pressure_kpa"));

    let more = [
        ("category", "B"),
        ("mass-kg", "8000"),
        ("waterline-length-m", "10"),
        ("panel-length-mm", "1500"),
        ("original-mm", "30"),
    ];
    let flags: Vec<_> = base.iter().chain(&more).copied().collect();
    let rule = reckon("planking", &flags).unwrap();
    near("rule pressure", figure(&rule, "rule_pressure_kpa"), 45.2359, 1e-5);
    near("rule stress", figure(&rule, "rule_bending_stress_mpa"), 3.2570, 1e-4);
    near("left", figure(&rule, "strength_percent"), 100.0 * (25.0f64 / 30.0).powi(2), 1e-9);
    assert!(rule.answer.cautions.iter().any(|c| c.contains("expressly excludes traditional wooden construction")));
    let lone: Vec<_> = base.iter().chain(&more[..1]).copied().collect();
    assert!(reckon("planking", &lone).unwrap_err().contains("belong together"));
    let no_wood = [("species", "unobtainium"), base[1], base[2], base[3]];
    assert!(reckon("planking", &no_wood).unwrap_err().starts_with("--species unobtainium"));
}
