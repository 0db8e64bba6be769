//! A sheet as SVG: well formed, escaped, readable without a page's styles, the same bytes every time.

use drawing::{Anchor, Hatch, Ink, PAGE_STYLE, Pen, Shape, Sheet};
use proptest::prelude::*;

fn sheet(shapes: Vec<Shape>) -> Sheet {
    Sheet { shapes, ..Sheet::new(60.0, 30.0, "A plank", "One plank.") }
}

#[test]
fn a_plank_is_these_bytes() {
    let drawn = sheet(vec![
        Shape::rectangle(5.0, 5.0, 50.0, 20.0).pen(Pen::MIDDLE.dashed()).hatch(Hatch::Close),
        Shape::circle((30.004, 15.0), 1.5).hatch(Hatch::Solid),
        Shape::text((30.0, 28.0), 3.0, "5 mm & <more>").anchored(Anchor::Middle).turned(-90.0).inked(Ink::Accent),
    ]);
    let svg = drawn.to_svg();
    let body = svg.split("</defs>").nth(1).unwrap();
    assert_eq!(
        body,
        "<path d=\"M5 5L55 5L55 25L5 25Z\" fill=\"url(#hatch-close)\" class=\"ink-main\" stroke=\"#1a1a1a\" \
         stroke-width=\"0.35\" stroke-linejoin=\"round\" stroke-dasharray=\"1.6 1\"/>\
         <circle cx=\"30\" cy=\"15\" r=\"1.5\" fill=\"#1a1a1a\" class=\"fill-main ink-main\" stroke=\"#1a1a1a\" \
         stroke-width=\"0.18\" stroke-linejoin=\"round\"/>\
         <text x=\"30\" y=\"28\" font-size=\"3\" font-family=\"Source Sans 3, sans-serif\" text-anchor=\"middle\" \
         transform=\"rotate(-90 30 28)\" class=\"fill-accent\" fill=\"#a3341f\">5 mm &amp; &lt;more&gt;</text></svg>\n"
    );
    assert_eq!(svg, drawn.to_svg());
}

/// Typesetters that place SVG do not read custom properties: none may stand in the drawing.
#[test]
fn colours_need_no_page() {
    let hatches = [Hatch::Dots, Hatch::Bare, Hatch::Sparse, Hatch::Close, Hatch::Solid, Hatch::Paper, Hatch::Wash];
    let shapes = hatches.map(|h| Shape::rectangle(0.0, 0.0, 5.0, 5.0).hatch(h).pen(Pen::FAINT)).to_vec();
    let svg = sheet(shapes).to_svg();
    assert!(!svg.contains("var("), "{svg}");
    for class in ["ink-main", "ink-faint", "fill-main", "fill-paper"] {
        assert!(PAGE_STYLE.contains(&format!(".{class}{{")) && svg.contains(class), "{class}");
    }
    // No element carries the same attribute twice.
    for element in svg.split('<') {
        assert!(element.matches(" class=").count() <= 1 && element.matches(" fill=").count() <= 1, "{element}");
    }
}

/// What a page wants to know of a group stands in the SVG and changes no other byte there, and none of the DXF.
#[test]
fn a_group_tells_what_it_is_to_a_page_only() {
    let plain = sheet(vec![Shape::group("strake", "", vec![Shape::circle((1.0, 1.0), 1.0)])]);
    let told = Shape::group("strake", "", vec![Shape::circle((1.0, 1.0), 1.0)]);
    let told = sheet(vec![told.telling("strake", "4").telling("word", "a \"b\" <c>").telling("No Name", "x")]);
    let added = " data-strake=\"4\" data-word=\"a &quot;b&quot; &lt;c&gt;\"";
    assert_eq!(told.to_svg().matches(added).count(), 1);
    // What is bare can be pointed at inside a group that tells something.
    let all = " pointer-events=\"all\"";
    assert!(told.to_svg().contains(all) && !plain.to_svg().contains(all));
    assert_eq!(told.to_svg().replace(added, "").replace(all, ""), plain.to_svg());
    assert_eq!(told.to_dxf(), plain.to_dxf());
}

/// Dots are spread 1.5 mm apart both ways: 44 dots on a square of 10 mm, give or take those cut by the edge.
#[test]
fn dots_are_defined_where_they_are_used_and_plotted_as_short_strokes() {
    let square = |hatch| sheet(vec![Shape::rectangle(5.0, 5.0, 10.0, 10.0).hatch(hatch)]);
    assert!(square(Hatch::Dots).to_svg().contains("<pattern id=\"hatch-dots\""));
    assert!(!square(Hatch::Close).to_svg().contains("hatch-dots"));
    let strokes = square(Hatch::Dots).to_dxf().matches("\nLINE\n").count();
    assert!((36..=52).contains(&strokes), "{strokes}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Any words and any figures give text without raw angle brackets, control characters or `NaN`.
    #[test]
    fn any_words_and_figures_are_safe(words in any::<String>(), x in any::<f64>(), y in any::<f64>()) {
        let group = Shape::group(words.clone(), words.clone(), vec![Shape::text((x, y), 3.0, words.clone())]);
        let drawn = sheet(vec![group, Shape::line([(x, y), (0.0, 0.0)]), Shape::outline(Vec::new())]);
        let svg = drawn.to_svg();
        prop_assert!(!svg.contains("NaN") && !svg.contains("inf"), "a figure that is none");
        prop_assert!(svg.chars().all(|c| c as u32 >= 0x20 || c == '\n'));
        prop_assert_eq!(svg.matches('<').count(), svg.matches('>').count());
        let dxf = drawn.to_dxf();
        prop_assert!(dxf.is_ascii() && dxf.lines().count().is_multiple_of(2));
    }
}
