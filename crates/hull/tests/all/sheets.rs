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
