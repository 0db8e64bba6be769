//! Topics of the room `fastening`, as scripts call them.

use reckon::{Inputs, find};
use serde_json::Value;

fn ask(name: &str, flags: &[(&str, &str)]) -> Result<Value, String> {
    let topic = find(name).unwrap_or_else(|| panic!("{name} is a topic"));
    let inputs = Inputs::read(topic, flags.iter().copied()).map_err(|refusal| refusal.to_string())?;
    topic.reckon(inputs).map(|reckoned| reckoned.to_json()).map_err(|refusal| refusal.to_string())
}

fn figure(answer: &Value, key: &str) -> f64 {
    answer["results"][key].as_f64().unwrap_or_else(|| panic!("{key} in {answer}"))
}

fn close(answer: &Value, key: &str, wanted: f64, share: f64) {
    let ours = figure(answer, key);
    assert!((ours - wanted).abs() <= share * wanted.abs(), "{key}: {ours} against {wanted}");
}

/// National Design Specification 12.2 and Wood Handbook ch. 8, worked by hand: #10, G 0.50: 23.71 and 130.60 N/mm.
#[test]
fn withdrawal_of_a_number_ten() {
    let flags = [("kind", "wood-screw"), ("gauge", "10"), ("penetration-mm", "1\""), ("specific-gravity", "0.5")];
    let answer = ask("withdrawal", &flags).unwrap();
    close(&answer, "reference_n_per_mm", 23.71, 1e-3);
    close(&answer, "reference_n", 23.71 * 25.4, 1e-3);
    close(&answer, "ultimate_n", 130.60 * 25.4, 1e-3);
    close(&answer, "adjustment", 0.63, 1e-12);
}

#[test]
fn a_wasted_screw_is_asked_for_by_its_measurements() {
    let flags = [
        ("kind", "wood-screw"),
        ("gauge", "14"),
        ("length-mm", "44.45"),
        ("penetration-mm", "29"),
        ("species", "white oak"),
        ("metal", "silicon bronze"),
        ("measured-root-mm", "2.49"),
    ];
    let answer = ask("withdrawal", &flags).unwrap();
    close(&answer, "tension_left_percent", 25.0, 0.01);
    let larger = flags.map(|(f, v)| if f == "measured-root-mm" { (f, "7") } else { (f, v) });
    let refused = ask("withdrawal", &larger).unwrap_err();
    assert!(refused.contains("--measured-root-mm 7") && refused.contains("more than a new #14"), "{refused}");
    let through = [
        ("kind", "nail"),
        ("diameter-mm", "4"),
        ("penetration-mm", "60"),
        ("frame-depth-mm", "45"),
        ("specific-gravity", "0.6"),
    ];
    let refused = ask("withdrawal", &through).unwrap_err();
    assert!(refused.contains("longer than the wood it sits in"), "{refused}");
}

#[test]
fn pull_through_and_lateral_come_out_as_worked() {
    let head = ask(
        "pull-through",
        &[("head-diameter-mm", "12.2"), ("thickness-mm", "14"), ("specific-gravity", "0.45"), ("larger-head-mm", "20")],
    )
    .unwrap();
    close(&head, "reference_n", 517.0, 1e-3);
    close(&head, "larger_reference_n", 847.0, 1e-3);
    assert!(head["cautions"].to_string().contains("from memory"));
    // #12, main 1.0 in of G 0.73, side 0.50 in of G 0.50, 80,000 psi: 124.3 lbf by mode IIIs
    let lateral = ask(
        "lateral",
        &[
            ("kind", "wood-screw"),
            ("gauge", "12"),
            ("main-thickness-mm", "25.4"),
            ("side-thickness-mm", "12.7"),
            ("main-specific-gravity", "0.73"),
            ("side-specific-gravity", "0.5"),
            ("yield-mpa", "551.58"),
        ],
    );
    let lateral = lateral.unwrap();
    close(&lateral, "reference_n", 124.3 * 4.448_222, 1e-3);
    assert_eq!(lateral["results"]["mode"], "IIIs");
    assert_eq!(lateral["results"]["modes_n"].as_object().unwrap().len(), 6);
}

const PLANK: [(&str, &str); 6] = [
    ("species", "Honduras mahogany"),
    ("thickness-mm", "22"),
    ("width-mm", "120"),
    ("spacing-mm", "200"),
    ("rows", "12"),
    ("frame-species", "white oak"),
];

fn spring(more: &[(&str, &str)]) -> Result<Value, String> {
    ask("spring", &[&PLANK[..], more].concat())
}

/// Mahogany of E 10.3 GPa at R 3 m: 1,159 N a screw, stress E t/2R = 37.8 MPa; the head governs.
#[test]
fn a_sprung_plank_names_what_governs() {
    let answer = spring(&[("radius-m", "3"), ("years", "40"), ("bung-mm", "16")]).unwrap();
    close(&answer, "force_per_fastening_n", 1159.0, 2e-3);
    close(&answer, "bending_stress_mpa", 37.77, 2e-3);
    assert_eq!(answer["results"]["governs"], "pull-through");
    assert_eq!(answer["results"]["curve_explains_bungs"], "yes");
    assert!(figure(&answer, "pull_through_ratio") > figure(&answer, "withdrawal_ratio"));
    let middle = spring(&[("radius-m", "3"), ("bung-mm", "16"), ("bung-where", "middle")]).unwrap();
    assert_eq!(middle["results"]["curve_explains_bungs"], "no");
    assert!(middle["results"]["rows_a_curve_cannot_explain"].as_array().unwrap().contains(&Value::from(6)));
}

#[test]
fn the_same_curve_by_radius_string_and_three_offsets() {
    let force = |more: &[(&str, &str)]| figure(&spring(more).unwrap(), "force_per_fastening_n");
    let by_radius = force(&[("radius-m", "2.5")]);
    // R 2.5 m under a chord of 1.4 m rises 0.1 m (7-24-25 triangle), and so do offsets 0.7 m either side of the middle.
    let by_string = force(&[("chord-mm", "1400"), ("rise-mm", "100")]);
    let by_offsets = force(&[("offset-spacing-mm", "700"), ("three-offsets-mm", "110, 10, 110")]);
    assert!((by_string / by_radius - 1.0).abs() < 1e-9 && (by_offsets / by_radius - 1.0).abs() < 1e-9);
}

#[test]
fn measured_frames_are_taken_with_their_error() {
    let flags =
        [("positions-mm", "0, 200, 410, 600, 800"), ("frame-offsets-mm", "0, 12, 17, 13, 0"), ("offset-sd-mm", "1")];
    let answer = spring(&flags).unwrap();
    assert_eq!(answer["results"]["rows"].as_array().unwrap().len(), 5);
    assert!(figure(&answer, "force_sd_n") > 50.0);
    let refused = spring(&[("positions-mm", "0, 200, 100"), ("frame-offsets-mm", "0, 1, 0")]).unwrap_err();
    assert!(refused.contains("--positions-mm 100"), "{refused}");
    let refused = spring(&[("positions-mm", "0, 200, soon")]).unwrap_err();
    assert!(refused.contains("soon") && refused.contains("not a number"), "{refused}");
    assert!(spring(&[]).unwrap_err().contains("--radius-m is missing"));
}

/// 2,000 kg, 0.5 m, 0.30 m, 8 bolts: 9,080 N at 90°.
#[test]
fn bolts_carry_their_ballast_and_no_limit_is_built_in() {
    let base = [("diameter-mm", "20"), ("measured-diameter-mm", "18"), ("metal", "mild steel")];
    let plain = ask("bolt", &base).unwrap();
    close(&plain, "residual_area_percent", 81.0, 1e-9);
    close(&plain, "residual_strength_percent", 81.0, 1e-9);
    assert!(
        plain["results"].get("within_your_limit").is_none()
            && plain["cautions"].to_string().contains("No wastage limit")
    );
    let keel = [
        ("thread", "M20"),
        ("ballast-kg", "2000"),
        ("depth-mm", "500"),
        ("joint-mm", "300"),
        ("bolts", "8"),
        ("spacing-mm", "400"),
        ("signs", "3: weep"),
    ];
    let answer = ask("bolt", &[&base[..], &keel[..]].concat()).unwrap();
    close(&answer, "heeled_90_n", 9080.0, 1e-4);
    close(&answer, "residual_strength_percent", 100.0, 1e-9);
    assert_eq!(answer["results"]["draw_first"][0]["bolt"], 3);
    assert!(answer["results"]["assumptions"].as_array().unwrap().len() > 6);
    let refused =
        ask("bolt", &[("diameter-mm", "20"), ("measured-diameter-mm", "25"), ("metal", "monel")]).unwrap_err();
    assert!(
        refused.starts_with("--measured-diameter-mm 25") && refused.contains("larger than the bolt was new"),
        "{refused}"
    );
}

#[test]
fn wastage_gives_a_rate_and_years_only_to_a_limit_given() {
    let base = [("metal", "silicon-bronze"), ("original-mm", "6"), ("measured-mm", "5"), ("years", "40")];
    let answer = ask("wastage", &base).unwrap();
    close(&answer, "rate_mm_per_year", 0.025, 1e-9);
    assert!(answer["results"].get("years_to_limit").is_none());
    let with = ask("wastage", &[&base[..], &[("limit-mm", "4")]].concat()).unwrap();
    close(&with, "years_to_limit", 40.0, 1e-9);
    let grown = base.map(|(f, v)| if f == "measured-mm" { (f, "7") } else { (f, v) });
    assert!(ask("wastage", &grown).unwrap_err().starts_with("--measured-mm 7"));
}

#[test]
fn a_plan_is_exact_shared_out_and_repeatable() {
    let base = [("confidence-percent", "95"), ("bad-at-most-percent", "10")];
    let plan = ask("draw-plan", &[&base[..], &[("population", "200")]].concat()).unwrap();
    assert_eq!(plan["results"]["sample_size"], 26);
    assert_eq!(plan["results"]["sample_size_without_end"], 29);
    let zones = "zone,population,may_be_drawn\ngarboards,160,20\nhood ends,40,6\ntopsides,400,40\n";
    let flags = [&base[..], &[("zones", zones), ("seed", "7")]].concat();
    let shared = ask("draw-plan", &flags).unwrap();
    assert_eq!(shared, ask("draw-plan", &flags).unwrap());
    let drawn: u64 =
        shared["results"]["allocation"].as_array().unwrap().iter().map(|z| z["draw"].as_u64().unwrap()).sum();
    assert_eq!(Value::from(drawn), shared["results"]["sample_size"]);
    let refused = ask("draw-plan", &[&base[..], &[("zones", "zone,population\nattic,10\n")]].concat()).unwrap_err();
    assert!(refused.contains("attic") && refused.contains("garboards"), "{refused}");
    let few = ask("draw-plan", &[&base[..], &[("population", "400"), ("may-be-drawn", "8")]].concat()).unwrap();
    assert!(few["results"]["agreed"].as_str().unwrap().contains("8 drawn and none bad support"));
}

#[test]
fn a_plan_over_patches_says_where_its_picks_are() {
    let patches = "zone,side,strake_from,strake_to,frame_from,frame_to,per_frame\n\
                   hood-ends,both,1,10,1,1,3\ngarboards,both,1,1,1,30,2\nbottom,port,2,10,1,30,2\n";
    let base = [("confidence-percent", "95"), ("bad-at-most-percent", "10"), ("seed", "11"), ("patches", patches)];
    let plan = ask("draw-plan", &base).unwrap();
    // 10 strakes × 3 × 2 sides; 29 frames left × 2 × 2; 9 strakes × 29 frames × 2 to port.
    assert_eq!(plan["results"]["population"], 60 + 116 + 522);
    let zones = plan["results"]["picks"].as_array().unwrap();
    assert_eq!(zones.len(), 3);
    for zone in zones {
        let (numbers, places) = (zone["draw"].as_array().unwrap(), zone["places"].as_array().unwrap());
        assert_eq!(numbers.len(), places.len());
        for place in places {
            let within = match zone["zone"].as_str().unwrap() {
                "hood-ends" => place["frame"] == 1,
                "garboards" => place["strake"] == 1 && place["frame"] != 1,
                _ => place["side"] == "port" && place["strake"].as_u64().unwrap() > 1 && place["frame"] != 1,
            };
            assert!(within, "{zone}");
        }
    }
    // What may be drawn is said by zone without its being counted a second time.
    let agreed = "zone,population,may_be_drawn\nhood-ends,,4\n";
    let some = ask("draw-plan", &[&base[..], &[("zones", agreed)]].concat()).unwrap();
    let row = |zone: &str| {
        some["results"]["allocation"].as_array().unwrap().iter().find(|row| row["zone"] == zone).unwrap().clone()
    };
    assert!(row("hood-ends")["draw"].as_u64().unwrap() <= 4 && row("bottom")["population"] == 522);
    let other = "zone,population\ngarboards,99\n";
    let refused = ask("draw-plan", &[&base[..], &[("zones", other)]].concat()).unwrap_err();
    assert!(refused.contains("99") && refused.contains("116"), "{refused}");
}

#[test]
fn a_result_says_no_more_than_it_supports() {
    let answer = ask("draw-result", &[("population", "400"), ("drawn", "16"), ("bad", "0")]).unwrap();
    close(&answer, "upper_percent", 20.59, 1e-3);
    close(&answer, "one_sided_upper_percent", 17.07, 1e-3);
    assert!(answer["results"]["statement"].as_str().unwrap().contains("does not show that none is"));
    let more = ask("draw-result", &[("population", "10"), ("drawn", "11"), ("bad", "0")]).unwrap_err();
    assert!(more.starts_with("--drawn 11") && more.contains("population of 10"), "{more}");
    let bad = ask("draw-result", &[("population", "10"), ("drawn", "5"), ("bad", "6")]).unwrap_err();
    assert!(bad.starts_with("--bad 6"), "{bad}");
    let judged =
        ask("draw-result", &[("population", "400"), ("drawn", "16"), ("bad", "2"), ("chosen", "judgement")]).unwrap();
    assert!(judged["results"].get("upper_percent").is_none());
    let zones = "zone,population,drawn,bad\ngarboards,80,8,5\ntopsides,600,40,0\n";
    let together = ask("draw-result", &[("zones", zones)]).unwrap();
    assert!(together["results"]["statements"][0].as_str().unwrap().starts_with("Garboards: Of 80"));
}

/// No figure that is only remembered of an inspection circular is printed, nor any called a requirement.
#[test]
fn nothing_remembered_is_printed_as_a_requirement() {
    for name in [
        "withdrawal",
        "pull-through",
        "lateral",
        "bung",
        "spring",
        "bolt",
        "wastage",
        "metal-pair",
        "protection",
        "draw-plan",
        "draw-result",
    ] {
        let topic = find(name).unwrap();
        let said = topic
            .reckon(Inputs::read(topic, topic.example.iter().copied()).unwrap())
            .unwrap()
            .to_string()
            .to_lowercase();
        for word in ["nvic", "circular", "seaworthy", "required by", "passed"] {
            assert!(!said.contains(word), "{name} says {word}: {said}");
        }
    }
}
