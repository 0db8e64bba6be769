//! A sheet as DXF. The reader `ezdxf` finds no fault with these files (tests/reference/read_dxf.py and its output).

use drawing::{Hatch, Pen, Shape, Sheet};

fn sheet(shapes: Vec<Shape>) -> Sheet {
    Sheet { shapes, ..Sheet::new(100.0, 60.0, "A sheet", "Shapes.") }
}

/// Pairs of group code and value.
fn pairs(dxf: &str) -> Vec<(i32, &str)> {
    let lines: Vec<&str> = dxf.lines().collect();
    lines.chunks_exact(2).map(|p| (p[0].trim().parse().unwrap(), p[1])).collect()
}

fn entities(dxf: &str, kind: &str) -> usize {
    pairs(dxf).iter().filter(|p| **p == (0, kind)).count()
}

#[test]
fn layers_are_declared_and_y_runs_up() {
    let plank = Shape::rectangle(10.0, 5.0, 50.0, 20.0).pen(Pen::THIN.dashed());
    let dxf = sheet(vec![Shape::group("strake port 4", "", vec![plank])]).to_dxf();
    let pairs = pairs(&dxf);
    assert!(pairs.windows(2).any(|p| p[0] == (0, "LAYER") && p[1] == (2, "STRAKE_PORT_4")));
    assert!(pairs.contains(&(6, "DASHED")));
    let heights: Vec<&str> = pairs.iter().filter(|p| p.0 == 20).map(|p| p.1).collect();
    assert!(heights.contains(&"55.0") && heights.contains(&"35.0"), "{heights:?}");
    assert!(dxf.ends_with("0\nEOF\n"));
}

#[test]
fn words_outside_ascii_are_escaped() {
    let dxf = sheet(vec![Shape::text((1.0, 1.0), 3.0, "15 °C\n½")]).to_dxf();
    assert!(dxf.contains("\n15 \\U+00B0C \\U+00BD\n"), "{dxf}");
}

/// Hatch lines lie inside the outline, and their length times their pitch is the area, to the edge's share.
#[test]
fn hatching_covers_the_outline_and_nothing_else() {
    // An L: 40 × 30 without its upper right 20 × 15; area 900.
    let ell = [(10.0, 10.0), (30.0, 10.0), (30.0, 25.0), (50.0, 25.0), (50.0, 40.0), (10.0, 40.0)];
    for (hatch, pitch) in [(Hatch::Sparse, 2.4), (Hatch::Close, 0.9), (Hatch::Solid, 0.2)] {
        let dxf = sheet(vec![Shape::outline(ell).pen(Pen::NONE).hatch(hatch)]).to_dxf();
        let pairs = pairs(&dxf);
        let mut covered = 0.0;
        for (i, _) in pairs.iter().enumerate().filter(|(_, p)| **p == (0, "LINE")) {
            let of = |code: i32| pairs[i..].iter().find(|p| p.0 == code).unwrap().1.parse::<f64>().unwrap();
            let (a, b) = ((of(10), 60.0 - of(20)), (of(11), 60.0 - of(21)));
            covered += (a.0 - b.0).hypot(a.1 - b.1) * pitch;
            let middle = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
            let inside = middle.0 > 9.9 && middle.0 < 50.1 && middle.1 > 9.9 && middle.1 < 40.1;
            assert!(inside && !(middle.0 > 30.1 && middle.1 < 24.9), "{middle:?}");
        }
        assert!((covered / 900.0 - 1.0).abs() < 0.04, "{hatch:?} {covered}");
        assert_eq!(entities(&dxf, "POLYLINE"), 0);
    }
    let bare = sheet(vec![Shape::outline(ell), Shape::outline(ell).hatch(Hatch::Paper)]).to_dxf();
    assert_eq!((entities(&bare, "LINE"), entities(&bare, "POLYLINE")), (0, 2));
}
