//! Writing a sheet as DXF R12.

use crate::{Anchor, Hatch, Ink, Pen, Shape, Sheet, hatch_lines};
use std::collections::BTreeSet;
use std::fmt::Write as _;

pub(crate) fn write(sheet: &Sheet) -> String {
    let mut layers = BTreeSet::new();
    layers.insert("0".to_owned());
    collect_layers(&sheet.shapes, &mut layers);

    let mut out = String::new();
    out.push_str("999\nDrawing in millimetres\n0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n");
    let (w, h) = (num(sheet.width_mm), num(sheet.height_mm));
    let _ = write!(out, "9\n$EXTMIN\n10\n0.0\n20\n0.0\n30\n0.0\n9\n$EXTMAX\n10\n{w}\n20\n{h}\n30\n0.0\n0\nENDSEC\n");
    out.push_str("0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLTYPE\n70\n2\n");
    out.push_str("0\nLTYPE\n2\nCONTINUOUS\n70\n0\n3\nSolid line\n72\n65\n73\n0\n40\n0.0\n");
    out.push_str("0\nLTYPE\n2\nDASHED\n70\n0\n3\n__ __ __\n72\n65\n73\n2\n40\n2.6\n49\n1.6\n49\n-1.0\n0\nENDTAB\n");
    let _ = write!(out, "0\nTABLE\n2\nLAYER\n70\n{}\n", layers.len());
    for layer in &layers {
        let _ = write!(out, "0\nLAYER\n2\n{layer}\n70\n0\n62\n7\n6\nCONTINUOUS\n");
    }
    out.push_str("0\nENDTAB\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n");
    for shape in &sheet.shapes {
        write_shape(&mut out, shape, "0", sheet.height_mm);
    }
    out.push_str("0\nENDSEC\n0\nEOF\n");
    out
}

fn write_shape(out: &mut String, shape: &Shape, layer: &str, height: f64) {
    match shape {
        Shape::Path { points, closed, pen, hatch } => {
            if points.len() < 2 {
                return;
            }
            if *closed {
                write_hatch(out, points, *hatch, layer, height);
            }
            if pen.width_mm <= 0.0 {
                return;
            }
            let _ = write!(out, "0\nPOLYLINE\n8\n{layer}\n{}66\n1\n", look(*pen));
            let _ = write!(out, "10\n0.0\n20\n0.0\n30\n0.0\n70\n{}\n", i32::from(*closed));
            for (x, y) in points {
                let _ = write!(out, "0\nVERTEX\n8\n{layer}\n10\n{}\n20\n{}\n30\n0.0\n", num(*x), num(height - y));
            }
            let _ = write!(out, "0\nSEQEND\n8\n{layer}\n");
        }
        Shape::Circle { centre, radius_mm, pen, hatch } => {
            let ring: Vec<_> = (0..32)
                .map(|i| {
                    let angle = f64::from(i) * std::f64::consts::TAU / 32.0;
                    (centre.0 + radius_mm * libm::cos(angle), centre.1 + radius_mm * libm::sin(angle))
                })
                .collect();
            write_hatch(out, &ring, *hatch, layer, height);
            if pen.width_mm <= 0.0 {
                return;
            }
            let _ = write!(
                out,
                "0\nCIRCLE\n8\n{layer}\n{}10\n{}\n20\n{}\n30\n0.0\n40\n{}\n",
                look(*pen),
                num(centre.0),
                num(height - centre.1),
                num(*radius_mm)
            );
        }
        Shape::Text { at, words, size_mm, anchor, turn_deg, ink } => {
            if words.is_empty() {
                return;
            }
            let (x, y) = (num(at.0), num(height - at.1));
            let colour = colour(*ink);
            let _ = write!(
                out,
                "0\nTEXT\n8\n{layer}\n62\n{colour}\n10\n{x}\n20\n{y}\n30\n0.0\n40\n{}\n1\n{}\n",
                num(size_mm * 0.7),
                lettering(words)
            );
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

fn write_hatch(out: &mut String, outline: &[(f64, f64)], hatch: Hatch, layer: &str, height: f64) {
    for [a, b] in hatch_lines::lines(outline, hatch) {
        let _ = write!(
            out,
            "0\nLINE\n8\n{layer}\n10\n{}\n20\n{}\n30\n0.0\n11\n{}\n21\n{}\n31\n0.0\n",
            num(a.0),
            num(height - a.1),
            num(b.0),
            num(height - b.1)
        );
    }
}

/// Line type and colour: R12 has no line widths that every reader heeds.
fn look(pen: Pen) -> String {
    let line = if pen.dashed { "6\nDASHED\n" } else { "" };
    format!("{line}62\n{}\n", colour(pen.ink))
}

/// Colour numbers of the format: 7 is black on white paper, 8 grey, 1 red.
fn colour(ink: Ink) -> u8 {
    match ink {
        Ink::Main => 7,
        Ink::Faint => 8,
        Ink::Accent => 1,
    }
}

/// Letters outside ASCII are written as `\U+XXXX`, the format's own escape; a line break would end the entry.
fn lettering(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            c if c.is_control() => out.push(' '),
            c if c.is_ascii() => out.push(c),
            c => {
                let mut units = [0u16; 2];
                for unit in c.encode_utf16(&mut units) {
                    let _ = write!(out, "\\U+{unit:04X}");
                }
            }
        }
    }
    out
}

fn collect_layers(shapes: &[Shape], layers: &mut BTreeSet<String>) {
    for shape in shapes {
        if let Shape::Group { name, shapes, .. } = shape {
            layers.extend(layer_name(name));
            collect_layers(shapes, layers);
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
