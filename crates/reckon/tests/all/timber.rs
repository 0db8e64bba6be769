//! The topics of the room `timber`: the flags reach the room, the answers say what they must.

use reckon::{Inputs, Reckoned, Refusal, find};

fn reckon(topic: &str, pairs: &[(&str, &str)]) -> Result<Reckoned, Refusal> {
    let topic = find(topic).expect("a topic");
    topic.reckon(Inputs::read(topic, pairs.iter().copied())?)
}

fn figure(reckoned: &Reckoned, key: &str) -> f64 {
    reckoned.answer.results[key].as_f64().unwrap_or_else(|| panic!("{key} is a number"))
}

/// Refusals are one sentence on one line that names the flag.
fn refused(topic: &str, pairs: &[(&str, &str)], flag: &str) -> String {
    let message = reckon(topic, pairs).expect_err("refused").to_string();
    assert!(message.starts_with(&format!("--{flag}")) && message.contains("accepted is"), "{message}");
    assert!(!message.contains('\n') && message.ends_with('.') && !message.ends_with(".."), "{message}");
    message
}

/// Wood Handbook FPL-GTR-190 (2010) Table 4-2: 70 °F and 65 % give 12.0 %.
#[test]
fn emc() {
    let found = reckon("emc", &[("temp-c", "21.1"), ("rh-percent", "65"), ("mc-percent", "12")]).unwrap();
    assert!((figure(&found, "emc_percent") - 12.0).abs() < 0.1);
    assert!((figure(&found, "rh_for_mc_percent") - 65.0).abs() < 0.7);
    assert_eq!(found.answer.sheets.len(), 1);
    let sunny = reckon("emc", &[("temp-c", "20"), ("rh-percent", "65"), ("plank-temp-c", "45")]).unwrap();
    assert!(figure(&sunny, "emc_percent") < 5.0);
    refused("emc", &[("temp-c", "20"), ("rh-percent", "101")], "rh-percent");
    refused("emc", &[("temp-c", "20"), ("rh-percent", "-1")], "rh-percent");
    assert!(refused("emc", &[("temp-c", "20"), ("rh-percent", "0.65")], "rh-percent").contains("fraction"));
    let wet = reckon("emc", &[("temp-c", "20"), ("rh-percent", "65"), ("mc-percent", "40")]).unwrap();
    assert!(!wet.answer.results.contains_key("rh_for_mc_percent"));
}

const MOVED: [(&str, &str); 4] =
    [("species", "white oak"), ("width-mm", "100"), ("mc-from-percent", "12"), ("mc-to-percent", "8")];

/// Wood Handbook FPL-GTR-190 (2010) Table 13-5: white oak 0.00365 tangential, 0.00180 radial.
#[test]
fn movement() {
    let with = |more: (&str, &str)| reckon("movement", &[&MOVED[..], &[more]].concat());
    let flat = with(("grain", "flat")).unwrap();
    assert!((figure(&flat, "change_mm") + 1.46).abs() < 1e-9);
    assert!((figure(&flat, "coefficient_per_percent") - 0.00365).abs() < 1e-12);
    assert!((figure(&with(("grain", "quarter")).unwrap(), "change_mm") + 0.72).abs() < 1e-9);
    let by_angle = with(("ring-angle-deg", "45")).unwrap();
    assert_eq!(figure(&by_angle, "change_mm"), figure(&with(("grain", "rift")).unwrap(), "change_mm"));
    refused("movement", &MOVED, "grain");
    refused("movement", &[&MOVED[..], &[("ring-angle-deg", "120")]].concat(), "ring-angle-deg");
    let thick = [&MOVED[..], &[("grain", "flat"), ("thickness-mm", "200")]].concat();
    assert!(refused("movement", &thick, "thickness-mm").contains("changed places"));
}

#[test]
fn a_moisture_in_the_wrong_unit_is_refused() {
    for (bad, word) in [("0.12", "fraction"), ("1800", "out of range"), ("-3", "out of range")] {
        let pairs = [
            ("species", "teak"),
            ("grain", "flat"),
            ("width-mm", "100"),
            ("mc-from-percent", bad),
            ("mc-to-percent", "8"),
        ];
        assert!(refused("movement", &pairs, "mc-from-percent").contains(word));
        assert!(refused("strength", &[("species", "teak"), ("mc-percent", bad)], "mc-percent").contains(word));
    }
}

#[test]
fn an_unknown_wood_gives_the_nearest_names_and_a_loose_name_says_what_it_was_taken_for() {
    for topic in ["strength", "stress-wave"] {
        let message = refused(topic, &[("species", "dougles fir"), ("mc-percent", "12")], "species");
        assert!(message.contains("Douglas-fir"), "{message}");
    }
    let larch = reckon("strength", &[("species", "larch"), ("mc-percent", "12")]).unwrap();
    assert!(larch.answer.cautions.iter().any(|c| c.contains("western larch")));
}

#[test]
fn meter() {
    let cold = reckon("meter", &[("reading-percent", "15"), ("species", "Douglas fir"), ("temp-c", "0")]).unwrap();
    assert!((figure(&cold, "mc_percent") - 17.7).abs() < 0.06);
    assert_eq!(figure(&cold, "species_correction_percent"), 0.0);
    let teak = reckon("meter", &[("reading-percent", "24"), ("species", "teak")]).unwrap();
    assert!(teak.answer.results["species_correction_percent"].is_null());
    let own = [("reading-percent", "24"), ("species", "teak"), ("temp-c", "22"), ("species-correction-percent", "-4")];
    assert!((figure(&reckon("meter", &own).unwrap(), "mc_percent") - 20.0).abs() < 0.3);
    let salty = reckon("meter", &[("reading-percent", "24"), ("species", "teak"), ("salt", "yes")]).unwrap();
    assert!(salty.answer.cautions.iter().any(|c| c.contains("upper bound")));
}

const PLANK: [(&str, &str); 6] = [
    ("species", "white oak"),
    ("thickness-mm", "30"),
    ("mc-start-percent", "28"),
    ("temp-c", "15"),
    ("rh-percent", "65"),
    ("days", "30"),
];

#[test]
fn drying() {
    let found = reckon("drying", &PLANK).unwrap();
    assert!((figure(&found, "mean_mc_percent") - 18.6).abs() < 0.1);
    assert!(figure(&found, "surface_mc_percent") < figure(&found, "mean_mc_percent"));
    assert!(figure(&found, "core_mc_percent") > figure(&found, "mean_mc_percent"));
    assert!((figure(&found, "emc_percent") - 12.15).abs() < 0.05);
    let one = reckon("drying", &[&PLANK[..], &[("faces", "1")]].concat()).unwrap();
    assert!(figure(&one, "mean_mc_percent") > figure(&found, "mean_mc_percent"));
    let painted = reckon("drying", &[&PLANK[..], &[("coating", "oil-paint")]].concat()).unwrap();
    assert!(figure(&painted, "mean_mc_percent") > figure(&found, "mean_mc_percent") + 1.0);
    refused("drying", &PLANK[..3], "days");
    refused("drying", &[&PLANK[..3], &PLANK[4..]].concat(), "temp-c");
    refused("drying", &[&PLANK[..], &[("faces", "3")]].concat(), "faces");
    assert_eq!(found.answer.sheets.len(), 2);
}

#[test]
fn monthly_weather_with_eleven_months_is_refused() {
    let months = |last: u8| {
        (1..=last).fold(String::from("month,temp_c,rh_percent\n"), |text, month| format!("{text}{month},10,80\n"))
    };
    let (eleven, twelve) = (months(11), months(12));
    fn pairs(weather: &str) -> Vec<(&str, &str)> {
        [&PLANK[..3], &[("days", "30"), ("weather", weather)]].concat()
    }
    assert!(refused("drying", &pairs(&eleven), "weather").contains("11 months, not 12"));
    let same = figure(&reckon("drying", &pairs(&twelve)).unwrap(), "mean_mc_percent");
    let constant = [&PLANK[..3], &[("days", "30"), ("temp-c", "10"), ("rh-percent", "80")]].concat();
    assert!((same - figure(&reckon("drying", &constant).unwrap(), "mean_mc_percent")).abs() < 1e-9);
}

#[test]
fn seam() {
    let base = [&PLANK[..], &[("width-mm", "125"), ("grain", "flat")]].concat();
    let found = reckon("seam", &base).unwrap();
    let gap = figure(&found, "expected_gap_mm");
    assert!((gap - 4.15).abs() < 0.05);
    assert!(figure(&found, "gap_low_mm") < 0.61 * gap && figure(&found, "gap_high_mm") > 1.39 * gap);
    let read = |mm: &'static str| {
        let found = reckon("seam", &[&base[..], &[("measured-gap-mm", mm)]].concat()).unwrap();
        (found.answer.results["reading"].as_str().unwrap().to_owned(), figure(&found, "excess_mm"))
    };
    assert_eq!(read("4").0, "as expected");
    assert_eq!(read("0.2").0, "tighter");
    let (wide, excess) = read("15");
    assert_eq!(wide, "wider");
    assert!((excess - (15.0 - gap)).abs() < 1e-9);
    let swapped = [
        ("species", "white oak"),
        ("thickness-mm", "125"),
        ("width-mm", "30"),
        ("grain", "flat"),
        ("mc-start-percent", "28"),
        ("temp-c", "15"),
        ("rh-percent", "65"),
        ("days", "30"),
    ];
    assert!(refused("seam", &swapped, "thickness-mm").contains("changed places"));
    // A dry plank in damp air closes its seam and opens none.
    let dry = [
        ("species", "white oak"),
        ("thickness-mm", "30"),
        ("width-mm", "125"),
        ("grain", "flat"),
        ("mc-start-percent", "10"),
        ("temp-c", "15"),
        ("rh-percent", "85"),
        ("days", "30"),
    ];
    let closing = reckon("seam", &dry).unwrap();
    assert_eq!(figure(&closing, "expected_gap_mm"), 0.0);
    assert!(figure(&closing, "swelling_mm") > 0.5);
}

/// Wood Handbook FPL-GTR-190 (2010) Table 5-3a, 12 %: Douglas-fir, coast 0.48, 85.5 MPa (12 400 psi), 13 400 MPa.
#[test]
fn strength() {
    let fir = reckon("strength", &[("species", "Oregon pine"), ("mc-percent", "12")]).unwrap();
    assert!((figure(&fir, "mor_mpa") - 85.5).abs() < 0.1);
    assert!((figure(&fir, "moe_mpa") - 13_400.0).abs() < 1.0);
    assert_eq!(figure(&fir, "specific_gravity"), 0.48);
    let larch = reckon("strength", &[("species", "European larch"), ("mc-percent", "12")]).unwrap();
    assert!(larch.answer.results["shear_mpa"].is_null());
    let iroko = reckon("strength", &[("species", "iroko"), ("mc-percent", "12"), ("load-years", "1")]).unwrap();
    assert!(iroko.answer.results["ranges"]["mor_mpa"].is_array());
    assert!((figure(&iroko, "lasting_load_percent") - 66.9).abs() < 0.06);
    assert!(iroko.answer.cautions.iter().any(|c| c.contains("from memory")));
}

#[test]
fn boxed_heart_and_stress_wave_and_wood() {
    let oak = reckon(
        "boxed-heart",
        &[("species", "white oak"), ("radius-mm", "3 in"), ("mc-percent", "15"), ("measured-mm", "30")],
    )
    .unwrap();
    assert!((figure(&oak, "sum_mm") - 11.73).abs() < 0.05);
    assert!(oak.answer.results["reading"].as_str().unwrap().contains("another cause (load"));
    let slow =
        reckon("stress-wave", &[("species", "white oak"), ("mc-percent", "12"), ("across-us-per-m", "2500")]).unwrap();
    assert!(slow.answer.results["reading"].as_str().unwrap().contains("far slower"));
    let iroko = reckon("wood", &[("species", "kambala")]).unwrap();
    assert_eq!(iroko.answer.results["common"], "iroko");
    assert_eq!(iroko.answer.results["decay_class_en350"], "1-2");
}
