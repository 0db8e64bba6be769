//! Writing a sheet as SVG.

use crate::{Anchor, Hatch, Ink, Pen, Shape, Sheet};
use std::fmt::Write as _;

/// Inks by role. A page may override them by the custom properties named here; the fallback prints well.
fn ink(ink: Ink) -> &'static str {
    match ink {
        Ink::Main => "var(--ink, #1a1a1a)",
        Ink::Faint => "var(--faint, #8a8a84)",
        Ink::Accent => "var(--accent, #a3341f)",
    }
}

pub(crate) fn write(sheet: &Sheet) -> String {
    let mut out = String::new();
    let (w, h) = (num(sheet.width_mm), num(sheet.height_mm));
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" role=\"img\">"
    );
    let _ = write!(out, "<title>{}</title><desc>{}</desc>", escaped(&sheet.title), escaped(&sheet.description));
    out.push_str(PATTERNS);
    for shape in &sheet.shapes {
        write_shape(&mut out, shape);
    }
    out.push_str("</svg>\n");
    out
}

const PATTERNS: &str = "<defs>\
<pattern id=\"hatch-sparse\" width=\"2.4\" height=\"2.4\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V2.4\" stroke=\"var(--ink, #1a1a1a)\" stroke-width=\"0.25\"/></pattern>\
<pattern id=\"hatch-close\" width=\"0.9\" height=\"0.9\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V0.9\" stroke=\"var(--ink, #1a1a1a)\" stroke-width=\"0.35\"/></pattern>\
</defs>";

fn write_shape(out: &mut String, shape: &Shape) {
    match shape {
        Shape::Path { points, closed, pen, hatch } => {
            if points.is_empty() {
                return;
            }
            out.push_str("<path d=\"");
            for (i, (x, y)) in points.iter().enumerate() {
                let _ = write!(out, "{}{} {}", if i == 0 { 'M' } else { 'L' }, num(*x), num(*y));
            }
            if *closed {
                out.push('Z');
            }
            out.push('"');
            write_look(out, *pen, if *closed { *hatch } else { Hatch::Bare });
            out.push_str("/>");
        }
        Shape::Circle { centre, radius_mm, pen, hatch } => {
            let _ = write!(out, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", num(centre.0), num(centre.1), num(*radius_mm));
            write_look(out, *pen, *hatch);
            out.push_str("/>");
        }
        Shape::Text { at, words, size_mm, anchor, turn_deg, ink: role } => {
            let _ = write!(out, "<text x=\"{}\" y=\"{}\" font-size=\"{}\"", num(at.0), num(at.1), num(*size_mm));
            out.push_str(" font-family=\"Source Sans 3, sans-serif\"");
            match anchor {
                Anchor::Start => {}
                Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
                Anchor::End => out.push_str(" text-anchor=\"end\""),
            }
            if *turn_deg != 0.0 {
                let _ = write!(out, " transform=\"rotate({} {} {})\"", num(*turn_deg), num(at.0), num(at.1));
            }
            let _ = write!(out, " fill=\"{}\">{}</text>", ink(*role), escaped(words));
        }
        Shape::Group { name, label, shapes } => {
            out.push_str("<g");
            if !name.is_empty() {
                let _ = write!(out, " data-name=\"{}\"", escaped(name));
            }
            out.push('>');
            if !label.is_empty() {
                let _ = write!(out, "<title>{}</title>", escaped(label));
            }
            for inner in shapes {
                write_shape(out, inner);
            }
            out.push_str("</g>");
        }
    }
}

fn write_look(out: &mut String, pen: Pen, hatch: Hatch) {
    out.push_str(match hatch {
        Hatch::Bare => " fill=\"none\"",
        Hatch::Sparse => " fill=\"url(#hatch-sparse)\"",
        Hatch::Close => " fill=\"url(#hatch-close)\"",
        Hatch::Solid => " fill=\"var(--ink, #1a1a1a)\"",
        Hatch::Paper => " fill=\"var(--paper, #ffffff)\"",
        Hatch::Wash => " fill=\"var(--ink, #1a1a1a)\" fill-opacity=\"0.12\"",
    });
    if pen.width_mm > 0.0 {
        let _ = write!(
            out,
            " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
            ink(pen.ink),
            num(pen.width_mm)
        );
        if pen.dashed {
            out.push_str(" stroke-dasharray=\"1.6 1\"");
        }
    }
}

/// Writes a coordinate with at most two decimals, so that the bytes are the same on every machine.
pub(crate) fn num(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let rounded = (value * 100.0).round() / 100.0;
    let mut text = format!("{rounded:.2}");
    while text.ends_with('0') {
        text.pop();
    }
    if text.ends_with('.') {
        text.pop();
    }
    if text == "-0" { "0".to_owned() } else { text }
}

/// Escapes text for XML and leaves out the control characters that XML 1.0 does not allow.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if (c as u32) < 0x20 || c == '\u{fffe}' || c == '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}
