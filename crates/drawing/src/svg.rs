//! Writing a sheet as SVG.

use crate::{Anchor, Hatch, Ink, Pen, Shape, Sheet};
use std::fmt::Write as _;

/// The rules by which a page that shows drawings in line gives them its own inks. Without them a drawing comes out
/// in dark ink on white, which prints well. Plain attributes and classes are used, and no custom properties inside
/// the drawing itself, because typesetters that place SVG do not read those.
pub const PAGE_STYLE: &str = "\
.ink-main{stroke:var(--ink,#1a1a1a)}.ink-faint{stroke:var(--faint,#8a8a84)}.ink-accent{stroke:var(--accent,#a3341f)}\
.fill-main{fill:var(--ink,#1a1a1a)}.fill-faint{fill:var(--faint-letters,#5f5f5a)}.fill-accent{fill:var(--accent,#a3341f)}\
.fill-paper{fill:var(--paper,#ffffff)}";

/// The class that a page may restyle, and the colour without it. Faint lettering is darker than faint lines, which
/// would otherwise be too light to read.
fn stroke(ink: Ink) -> &'static str {
    match ink {
        Ink::Main => "class=\"ink-main\" stroke=\"#1a1a1a\"",
        Ink::Faint => "class=\"ink-faint\" stroke=\"#8a8a84\"",
        Ink::Accent => "class=\"ink-accent\" stroke=\"#a3341f\"",
    }
}

fn lettering(ink: Ink) -> &'static str {
    match ink {
        Ink::Main => "class=\"fill-main\" fill=\"#1a1a1a\"",
        Ink::Faint => "class=\"fill-faint\" fill=\"#5f5f5a\"",
        Ink::Accent => "class=\"fill-accent\" fill=\"#a3341f\"",
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
    out.push_str("<defs>");
    out.push_str(PATTERNS);
    if sheet.shapes.iter().any(is_dotted) {
        out.push_str(DOTS);
    }
    out.push_str("</defs>");
    for shape in &sheet.shapes {
        write_shape(&mut out, shape, false);
    }
    out.push_str("</svg>\n");
    out
}

const PATTERNS: &str = "\
<pattern id=\"hatch-sparse\" width=\"2.4\" height=\"2.4\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V2.4\" class=\"ink-main\" stroke=\"#1a1a1a\" stroke-width=\"0.25\"/></pattern>\
<pattern id=\"hatch-close\" width=\"0.9\" height=\"0.9\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V0.9\" class=\"ink-main\" stroke=\"#1a1a1a\" stroke-width=\"0.35\"/></pattern>";

const DOTS: &str = "\
<pattern id=\"hatch-dots\" width=\"1.5\" height=\"1.5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><circle cx=\"0.75\" cy=\"0.75\" r=\"0.16\" class=\"fill-main\" fill=\"#1a1a1a\"/></pattern>";

fn is_dotted(shape: &Shape) -> bool {
    match shape {
        Shape::Path { hatch, .. } | Shape::Circle { hatch, .. } => *hatch == Hatch::Dots,
        Shape::Group { shapes, .. } => shapes.iter().any(is_dotted),
        Shape::Text { .. } => false,
    }
}

/// Writes a shape. Within a group that tells a page something, what is bare inside can be pointed at all the same, and
/// so can an outline without a line; elsewhere such an outline is left out.
fn write_shape(out: &mut String, shape: &Shape, told: bool) {
    match shape {
        Shape::Path { points, closed, pen, hatch } => {
            let unseen = pen.width_mm <= 0.0 && (*hatch == Hatch::Bare || !closed);
            if points.is_empty() || (unseen && !told) {
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
            write_pointing(out, told && *closed && *hatch == Hatch::Bare);
            out.push_str("/>");
        }
        Shape::Circle { centre, radius_mm, pen, hatch } => {
            let _ = write!(out, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", num(centre.0), num(centre.1), num(*radius_mm));
            write_look(out, *pen, *hatch);
            write_pointing(out, told && *hatch == Hatch::Bare);
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
            let _ = write!(out, " {}>{}</text>", lettering(*role), escaped(words));
        }
        Shape::Group { name, label, data, shapes } => {
            out.push_str("<g");
            if !name.is_empty() {
                let _ = write!(out, " data-name=\"{}\"", escaped(name));
            }
            for (name, value) in data.iter().filter(|(name, _)| is_plain(name)) {
                let _ = write!(out, " data-{name}=\"{}\"", escaped(value));
            }
            out.push('>');
            if !label.is_empty() {
                let _ = write!(out, "<title>{}</title>", escaped(label));
            }
            for inner in shapes {
                write_shape(out, inner, told || !data.is_empty());
            }
            out.push_str("</g>");
        }
    }
}

fn write_pointing(out: &mut String, anywhere: bool) {
    if anywhere {
        out.push_str(" pointer-events=\"all\"");
    }
}

fn write_look(out: &mut String, pen: Pen, hatch: Hatch) {
    // Solid fills carry the class that recolours fills; the outline then needs no class of its own, so the one
    // attribute `class` holds both.
    let (fill, class) = match hatch {
        Hatch::Bare => ("none", ""),
        Hatch::Sparse => ("url(#hatch-sparse)", ""),
        Hatch::Close => ("url(#hatch-close)", ""),
        Hatch::Dots => ("url(#hatch-dots)", ""),
        Hatch::Solid => ("#1a1a1a", "fill-main"),
        Hatch::Paper => ("#ffffff", "fill-paper"),
        Hatch::Wash => ("#1a1a1a", "fill-main"),
    };
    let _ = write!(out, " fill=\"{fill}\"");
    if hatch == Hatch::Wash {
        out.push_str(" fill-opacity=\"0.12\"");
    }
    if pen.width_mm > 0.0 {
        let line = stroke(pen.ink);
        let line =
            if class.is_empty() { line.to_owned() } else { line.replacen("class=\"", &format!("class=\"{class} "), 1) };
        let _ = write!(out, " {line} stroke-width=\"{}\" stroke-linejoin=\"round\"", num(pen.width_mm));
        if pen.dashed {
            out.push_str(" stroke-dasharray=\"1.6 1\"");
        }
    } else if !class.is_empty() {
        let _ = write!(out, " class=\"{class}\"");
    }
}

/// Writes a coordinate with at most two decimals, so that the bytes are the same on every machine.
pub(crate) fn num(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    // Far beyond any paper; and a hundred times a greater figure might be none at all.
    let value = value.clamp(-1e9, 1e9);
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

/// Tells whether a name can stand in an attribute's name as it is.
fn is_plain(name: &str) -> bool {
    !name.is_empty() && name.bytes().all(|b| b.is_ascii_lowercase() || b == b'-')
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
