//! Sheets: what is drawn, what is left out, the same bytes every time.

use drawing::{Hatch, Shape, Sheet};
use hull::sheets::*;
use hull::{Along, Frame, Layout, Patch, Place, Side};

fn layout() -> Layout {
    Layout::schematic(9.2, 12, 34).unwrap()
}

fn soft(side: Side) -> Condition {
    let patch = Patch::strake(side, 1).between(Along::Frame(10.0), Along::Frame(16.0));
    Condition::seen(Place::Shell(patch), Hatch::Close).word("soft")
}

fn points(shapes: &[Shape]) -> Vec<(f64, f64)> {
    let mut all = Vec::new();
    for shape in shapes {
        match shape {
            Shape::Path { points, .. } => all.extend(points.iter().copied()),
            Shape::Circle { centre, .. } => all.push(*centre),
            Shape::Text { at, .. } => all.push(*at),
            Shape::Group { shapes, .. } => all.extend(points_of(shapes)),
        }
    }
    all
}

fn points_of(shapes: &[Shape]) -> Vec<(f64, f64)> {
    points(shapes)
}

fn all_on_paper(sheet: &Sheet) {
    for p in points(&sheet.shapes) {
        let slack = 0.5;
        let inside = p.0 >= -slack && p.0 <= sheet.width_mm + slack && p.1 >= -slack && p.1 <= sheet.height_mm + slack;
        // The key's swatches are drawn about their own corner before they are moved; nothing else may stray.
        assert!(inside, "{} at {p:?}", sheet.title);
    }
}

#[test]
fn a_schematic_says_so_and_an_unplaced_finding_is_counted() {
    let lost = Condition::seen(Place::Shell(Patch::strake(Side::Port, 99)), Hatch::Solid);
    let sheet = shell(&layout(), Side::Port, &[soft(Side::Port), lost, soft(Side::Starboard)], &[]);
    let svg = sheet.to_svg();
    assert!(svg.contains("Schematic: no lines known") && svg.contains("Not to scale"));
    assert!(
        sheet.description.contains("2 conditions") && sheet.description.contains("1 could not be placed"),
        "{}",
        sheet.description
    );
    assert!(svg.contains("work needed: soft"));
}

#[test]
fn the_same_bytes_every_time_and_everything_on_paper() {
    let outline = Outline::schematic(9.2).unwrap();
    let frames = Frame::evenly(30, 0.6, 8.7);
    let found = [
        soft(Side::Port),
        Condition::not_seen(Place::member("apron")),
        Condition::seen(Place::Frame { side: Side::Starboard, frame: 7 }, Hatch::Solid),
        Condition::seen(Place::Beam { beam: 4 }, Hatch::Sparse),
        Condition::seen(Place::Transom { from: -0.5, to: 0.0, low: 0.2, high: 0.5 }, Hatch::Close),
    ];
    let marks = [
        Mark::new(Place::Shell(Patch::spot(Side::Port, 12, Along::Stem)), MarkKind::Photograph, "P1"),
        Mark::new(Place::member("keel-bolt-2"), MarkKind::Draw, "B2"),
    ];
    for page in [Page::REPORT, Page::A4, Page::PHONE] {
        let sheets = || {
            vec![
                shell_on(page, &layout(), Side::Port, &found, &marks),
                shell_on(page, &layout(), Side::Starboard, &found, &marks),
                shell_pair(page, &layout(), &found, &marks),
                backbone(page, &outline, &BackboneParts::default(), &found, &marks),
                framing(page, &outline, &frames, &found, &marks),
                deck(page, &outline, 14, &frames, &[("hatch".to_owned(), 2.0, 3.0, 0.4)], &found, &marks),
                transom(page, &outline, &found, &marks),
            ]
        };
        for (a, b) in sheets().iter().zip(&sheets()) {
            assert_eq!(a.to_svg(), b.to_svg());
            assert_eq!(a.to_dxf(), b.to_dxf());
            assert!(!a.description.is_empty());
            all_on_paper(a);
        }
    }
}

/// Seen from outside the bow is left to port and right to starboard: the one sheet is the other's mirror image.
#[test]
fn mirrored_findings_make_a_mirrored_drawing() {
    let fill = |sheet: &Sheet, name: &str| {
        let group = sheet.shapes.iter().find_map(|s| match s {
            Shape::Group { name: n, shapes, .. } if n == name => Some(shapes.clone()),
            _ => None,
        });
        points(&group.unwrap())
    };
    let port = shell(&layout(), Side::Port, &[soft(Side::Port)], &[]);
    let place = soft(Side::Port).place.mirrored();
    let starboard = shell(&layout(), Side::Starboard, &[Condition { place, ..soft(Side::Port) }], &[]);
    let (a, b) = (fill(&port, "conditions-port"), fill(&starboard, "conditions-starboard"));
    assert!(!a.is_empty() && a.len() == b.len());
    for (p, q) in a.iter().zip(&b) {
        assert!((p.0 + q.0 - port.width_mm).abs() < 1e-6 && (p.1 - q.1).abs() < 1e-6, "{p:?} {q:?}");
    }
}

#[test]
fn conditions_are_told_by_hatching_and_word() {
    let patch = |hatch| Condition::seen(Place::Shell(Patch::strake(Side::Port, 3)), hatch);
    for (hatch, word, mark) in [
        (Hatch::Sparse, "watch", "hatch-sparse"),
        (Hatch::Close, "work needed", "hatch-close"),
        (Hatch::Solid, "failed", "fill-main"),
    ] {
        let svg = shell(&layout(), Side::Port, &[patch(hatch)], &[]).to_svg();
        assert!(svg.contains(&format!("<title>{word}</title>")) && svg.contains(mark), "{word}");
    }
    let svg =
        shell(&layout(), Side::Port, &[Condition::not_seen(Place::Shell(Patch::strake(Side::Port, 3)))], &[]).to_svg();
    assert!(svg.contains("stroke-dasharray") && svg.contains("not seen"));
}

#[test]
fn a_tap_on_the_drawing_finds_its_strake() {
    let layout = layout();
    for strake in 1..=12 {
        for across in [0.1, 0.5, 0.9] {
            let p = layout.point(strake, across, 4.0).unwrap();
            let (found, share) = layout.locate(p.0, p.1).unwrap();
            assert_eq!(found, strake);
            assert!((share - across).abs() < 1e-9);
        }
    }
    assert!(layout.locate(4.0, 99.0).is_none());
    assert_eq!(
        layout.from_stem_m(Along::Frame(35.0)).unwrap_err().to_string(),
        "The frame is 35; accepted is 1 to 34."
    );
}

#[test]
fn bad_counts_are_refused() {
    assert!(Layout::schematic(0.0, 12, 30).is_err() && Layout::schematic(9.0, 0, 30).is_err());
    assert!(Layout::schematic(9.0, 12, 401).is_err() && Outline::schematic(f64::NAN).is_err());
}

fn quantity() -> Quantity {
    Quantity { name: "moisture".into(), unit: "%".into(), sd: 0.5, reach_along_m: 0.8, reach_across_m: 0.3 }
}

/// Near readings the estimate is theirs, within their deviation; far off it is the mean, and everything is left open.
#[test]
fn a_field_knows_where_it_knows_nothing() {
    let at: Vec<(f64, f64)> = (0..6).map(|i| (2.0 + 0.3 * f64::from(i), 0.6)).collect();
    let values = [18.0, 19.0, 21.0, 24.0, 26.0, 27.0];
    let field = FieldEstimate::new(&at, &values, &quantity()).unwrap();
    let near = field.at(at[3]);
    assert!((near.value - 24.0).abs() < 1.0 && near.sd < 0.5, "{near:?}");
    let far = field.at((8.0, 0.6));
    assert!((far.value - 22.5).abs() < 1e-6 && far.open > 0.999, "{far:?}");
    assert!(FieldEstimate::new(&at[..2], &values[..2], &quantity()).is_err());
}

/// The estimate against a posterior worked by hand for a single pair of equal readings: k (k + ...)⁻¹ k.
#[test]
fn a_field_of_one_cluster_has_the_closed_form_of_its_variance() {
    // Three readings at one place: variance left = s² (1 - 3 s²/(3 s² + sd²)), the normal-normal posterior.
    let at = [(3.0, 0.5); 3];
    let values = [19.0, 20.0, 21.0];
    let s2 = 1.0;
    let field = FieldEstimate::new(&at, &values, &quantity()).unwrap();
    let wanted = s2 * (1.0 - 3.0 * s2 / (3.0 * s2 + 0.25));
    assert!((field.at((3.0, 0.5)).sd.powi(2) - wanted).abs() < 1e-9);
}

#[test]
fn contours_stay_where_readings_are() {
    let reading = |strake, frame: f64, value| Reading {
        place: Patch::spot(Side::Port, strake, Along::Frame(frame)),
        value,
        entry: String::new(),
    };
    let readings: Vec<Reading> = (0..24)
        .map(|i| reading(2 + i % 6, 8.0 + f64::from((i / 6) as u32) * 1.5, 18.0 + f64::from((i * 7 % 11) as u32)))
        .collect();
    let sheet = field(Page::REPORT, &layout(), Side::Port, &quantity(), &readings).unwrap();
    all_on_paper(&sheet);
    let contours = sheet.shapes.iter().find_map(|s| match s {
        Shape::Group { name, shapes, .. } if name == "contours" => Some(points(shapes)),
        _ => None,
    });
    let contours = contours.unwrap();
    assert!(contours.len() > 50);
    // Readings stand in the fore half only: so do the lines.
    assert!(contours.iter().all(|p| p.0 < 0.6 * sheet.width_mm));
    assert_eq!(sheet.to_svg(), field(Page::REPORT, &layout(), Side::Port, &quantity(), &readings).unwrap().to_svg());
    assert!(field(Page::REPORT, &layout(), Side::Starboard, &quantity(), &readings).is_err());
}
