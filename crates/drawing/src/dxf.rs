//! Writing a sheet as DXF R12.

use crate::{Anchor, Shape, Sheet};
use std::fmt::Write as _;

pub(crate) fn write(sheet: &Sheet) -> String {
    let mut out = String::new();
    out.push_str("999\nDrawing in millimetres\n0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n0\nENDSEC\n");
    out.push_str("0\nSECTION\n2\nENTITIES\n");
    for shape in &sheet.shapes {
        write_shape(&mut out, shape, "0", sheet.height_mm);
    }
    out.push_str("0\nENDSEC\n0\nEOF\n");
    out
}

fn write_shape(out: &mut String, shape: &Shape, layer: &str, height: f64) {
    match shape {
        Shape::Path { points, closed, .. } => {
            let _ = write!(out, "0\nPOLYLINE\n8\n{layer}\n66\n1\n70\n{}\n", i32::from(*closed));
            for (x, y) in points {
                let _ = write!(out, "0\nVERTEX\n8\n{layer}\n10\n{}\n20\n{}\n30\n0.0\n", num(*x), num(height - y));
            }
            let _ = write!(out, "0\nSEQEND\n8\n{layer}\n");
        }
        Shape::Circle { centre, radius_mm, .. } => {
            let _ = write!(
                out,
                "0\nCIRCLE\n8\n{layer}\n10\n{}\n20\n{}\n30\n0.0\n40\n{}\n",
                num(centre.0),
                num(height - centre.1),
                num(*radius_mm)
            );
        }
        Shape::Text { at, words, size_mm, anchor, turn_deg, .. } => {
            let (x, y) = (num(at.0), num(height - at.1));
            let line: String = words.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
            let _ =
                write!(out, "0\nTEXT\n8\n{layer}\n10\n{x}\n20\n{y}\n30\n0.0\n40\n{}\n1\n{line}\n", num(size_mm * 0.7));
            if *turn_deg != 0.0 {
                let _ = write!(out, "50\n{}\n", num(-turn_deg));
            }
            let how = match anchor {
                Anchor::Start => 0,
                Anchor::Middle => 1,
                Anchor::End => 2,
            };
            if how != 0 {
                let _ = write!(out, "72\n{how}\n11\n{x}\n21\n{y}\n31\n0.0\n");
            }
        }
        Shape::Group { name, shapes, .. } => {
            let own = layer_name(name);
            for inner in shapes {
                write_shape(out, inner, own.as_deref().unwrap_or(layer), height);
            }
        }
    }
}

/// Layer names of R12 hold letters, digits, `-` and `_` only, 31 at most.
fn layer_name(name: &str) -> Option<String> {
    let clean: String =
        name.chars().map(|c| if c.is_ascii_alphanumeric() || c == '-' { c } else { '_' }).take(31).collect();
    (!clean.is_empty()).then(|| clean.to_uppercase())
}

fn num(value: f64) -> String {
    let text = crate::svg::num(value);
    if text.contains('.') { text } else { format!("{text}.0") }
}
