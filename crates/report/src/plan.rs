//! Drawings as the typesetter reads them.

use crate::letters::{Range, mend};
use drawing::{Shape, Sheet};

/// Returns the drawing as SVG with its inks written out (the typesetter knows no custom properties), and how many
/// characters of its lettering were replaced.
pub(crate) fn svg(sheet: &Sheet, range: Range) -> (String, usize) {
    let mut replaced = 0;
    let mut sheet = sheet.clone();
    for shape in &mut sheet.shapes {
        mend_shape(shape, range, &mut replaced);
    }
    // Title and description go into the report as words beside the picture, where they can be mended and read.
    sheet.title.clear();
    sheet.description.clear();
    (with_inks(&sheet.to_svg()), replaced)
}

fn mend_shape(shape: &mut Shape, range: Range, replaced: &mut usize) {
    match shape {
        Shape::Text { words, .. } => {
            let (mended, count) = mend(words, range, false);
            *words = mended.replace('\n', " ");
            *replaced += count;
        }
        Shape::Group { shapes, name, label, data } => {
            name.clear();
            label.clear();
            data.clear();
            shapes.iter_mut().for_each(|inner| mend_shape(inner, range, replaced));
        }
        _ => {}
    }
}

/// Replaces each `var(--ink, #1a1a1a)` by the colour it falls back on.
fn with_inks(svg: &str) -> String {
    let mut out = String::with_capacity(svg.len());
    let mut rest = svg;
    while let Some(start) = rest.find("var(--") {
        out.push_str(&rest[..start]);
        let inside = &rest[start..];
        let (Some(comma), Some(end)) = (inside.find(','), inside.find(')')) else { break };
        if comma > end {
            break;
        }
        out.push_str(inside[comma + 1..end].trim());
        rest = &inside[end + 1..];
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inks_are_written_out() {
        assert_eq!(with_inks("<p fill=\"var(--ink, #1a1a1a)\"/>"), "<p fill=\"#1a1a1a\"/>");
    }
}
