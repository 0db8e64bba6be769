//! The styles: the same look as the PDF, in the word processor's own terms.

/// Ink, faint ink and accent, as the drawings have them.
const FAINT: &str = "5F5F5A";
const ACCENT: &str = "A3341F";
const RULE: &str = "1A1A1A";

/// A paragraph style: its name in the file, its name as people see it, what it is based on, how paragraph and letters
/// are set.
struct Paragraph(&'static str, &'static str, &'static str, String, String);

fn sans(half_points: u32, more: &str) -> String {
    format!(
        "<w:rFonts w:ascii=\"Source Sans 3\" w:hAnsi=\"Source Sans 3\" w:cs=\"Source Sans 3\"/>{more}<w:sz w:val=\"{half_points}\"/><w:szCs w:val=\"{half_points}\"/>"
    )
}

fn spaced(before: u32, after: u32, more: &str) -> String {
    format!("{more}<w:spacing w:before=\"{before}\" w:after=\"{after}\"/>")
}

fn paragraph_styles() -> Vec<Paragraph> {
    let keep = "<w:keepNext/><w:keepLines/>";
    let side = |kind: &str| {
        format!(
            "<w:pBdr><w:left w:val=\"{kind}\" w:sz=\"10\" w:space=\"8\" w:color=\"{RULE}\"/></w:pBdr><w:spacing w:before=\"60\" w:after=\"80\"/><w:ind w:left=\"284\"/>"
        )
    };
    let heading = |outline: u8, before: u32, list: &str| {
        format!("{keep}{list}<w:spacing w:before=\"{before}\" w:after=\"140\"/><w:outlineLvl w:val=\"{outline}\"/>")
    };
    let numbered = |list: u8| format!("<w:numPr><w:ilvl w:val=\"0\"/><w:numId w:val=\"{list}\"/></w:numPr>");
    let first = "<w:sz w:val=\"34\"/><w:szCs w:val=\"34\"/>".to_owned();
    let bold = "<w:b/>";
    vec![
        Paragraph("BodyText", "Body Text", "Normal", spaced(60, 100, ""), String::new()),
        Paragraph("Letterhead", "Letterhead", "Normal", spaced(0, 0, ""), sans(18, "")),
        Paragraph("Kicker", "Kind of Report", "Normal", spaced(0, 400, ""), sans(21, "")),
        Paragraph(
            "Title",
            "Title",
            "Normal",
            spaced(0, 160, ""),
            "<w:sz w:val=\"60\"/><w:szCs w:val=\"60\"/>".to_owned(),
        ),
        Paragraph("Subtitle", "Subtitle", "Normal", spaced(0, 160, ""), "<w:i/><w:sz w:val=\"25\"/>".to_owned()),
        Paragraph("Heading1", "heading 1", "Normal", heading(0, 480, &numbered(1)), first.clone()),
        Paragraph("AppendixHeading", "Appendix Heading", "Normal", heading(0, 480, &numbered(2)), first.clone()),
        Paragraph("Heading1Plain", "Heading Without Number", "Normal", heading(0, 0, ""), first.clone()),
        Paragraph("Heading2", "heading 2", "Normal", heading(1, 320, ""), sans(23, bold)),
        Paragraph("Heading3", "heading 3", "Normal", heading(2, 260, ""), sans(21, bold)),
        Paragraph("ContentsHeading", "TOC Heading", "Normal", spaced(0, 200, keep), first),
        Paragraph("TOC1", "toc 1", "Normal", contents_line(0, 120), sans(19, bold)),
        Paragraph("TOC2", "toc 2", "Normal", contents_line(284, 20), sans(19, "")),
        Paragraph("Opinion", "Opinion", "BodyText", side("single"), String::new()),
        Paragraph("Proposed", "Proposed by Machine", "BodyText", side("dotted"), sans(19, "")),
        Paragraph(
            "Boxed",
            "Boxed",
            "BodyText",
            format!(
                "<w:pBdr>{}</w:pBdr><w:spacing w:before=\"240\" w:after=\"120\"/>",
                ["top", "left", "bottom", "right"]
                    .map(|edge| format!("<w:{edge} w:val=\"single\" w:sz=\"8\" w:space=\"6\" w:color=\"{ACCENT}\"/>"))
                    .concat()
            ),
            sans(19, ""),
        ),
        Paragraph("Figure", "Figure", "Normal", spaced(160, 40, "<w:keepNext/>"), String::new()),
        Paragraph("Missing", "Missing Picture", "Boxed", String::new(), String::new()),
        Paragraph("Caption", "caption", "Normal", spaced(0, 200, "<w:keepLines/>"), sans(17, "")),
        Paragraph("TableTitle", "Table Title", "Caption", spaced(240, 80, keep), sans(18, "")),
        Paragraph("TableHead", "Table Head", "TableText", "<w:keepNext/>".to_owned(), String::new()),
        Paragraph("TableText", "Table Text", "Normal", spaced(30, 30, ""), sans(17, "")),
        Paragraph(
            "TableNote",
            "Table Note",
            "Normal",
            spaced(40, 200, ""),
            sans(16, &format!("<w:color w:val=\"{FAINT}\"/>")),
        ),
        Paragraph("AfterTable", "After Table", "Normal", spaced(0, 60, ""), "<w:sz w:val=\"8\"/>".to_owned()),
        Paragraph(
            "Signature",
            "Signature Line",
            "Normal",
            format!(
                "<w:pBdr><w:bottom w:val=\"single\" w:sz=\"6\" w:space=\"1\" w:color=\"{RULE}\"/></w:pBdr><w:spacing w:before=\"900\" w:after=\"60\"/><w:ind w:right=\"4300\"/>"
            ),
            String::new(),
        ),
        Paragraph(
            "Header",
            "header",
            "Normal",
            "<w:pBdr><w:bottom w:val=\"single\" w:sz=\"4\" w:space=\"3\" w:color=\"B8B6AD\"/></w:pBdr><w:tabs><w:tab w:val=\"right\" w:pos=\"8844\"/></w:tabs>".to_owned(),
            sans(16, &format!("<w:color w:val=\"{FAINT}\"/>")),
        ),
        Paragraph(
            "Footer",
            "footer",
            "Normal",
            "<w:tabs><w:tab w:val=\"right\" w:pos=\"8844\"/></w:tabs>".to_owned(),
            sans(16, &format!("<w:color w:val=\"{FAINT}\"/>")),
        ),
    ]
}

fn contents_line(left: u32, before: u32) -> String {
    format!(
        "<w:tabs><w:tab w:val=\"right\" w:leader=\"dot\" w:pos=\"8844\"/></w:tabs><w:spacing w:before=\"{before}\" w:after=\"20\"/><w:ind w:left=\"{left}\"/>"
    )
}

/// Returns `styles.xml`.
pub(super) fn styles(language: survey::Language) -> String {
    let tag = language.tag();
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?><w:styles xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\">\
         <w:docDefaults><w:rPrDefault><w:rPr><w:rFonts w:ascii=\"Source Serif 4\" w:hAnsi=\"Source Serif 4\" w:cs=\"Source Serif 4\"/><w:sz w:val=\"21\"/><w:szCs w:val=\"21\"/><w:lang w:val=\"{tag}\" w:eastAsia=\"{tag}\" w:bidi=\"ar-SA\"/></w:rPr></w:rPrDefault>\
         <w:pPrDefault><w:pPr><w:spacing w:line=\"264\" w:lineRule=\"auto\"/></w:pPr></w:pPrDefault></w:docDefaults>\
         <w:style w:type=\"paragraph\" w:default=\"1\" w:styleId=\"Normal\"><w:name w:val=\"Normal\"/><w:qFormat/></w:style>\
         <w:style w:type=\"character\" w:default=\"1\" w:styleId=\"DefaultParagraphFont\"><w:name w:val=\"Default Paragraph Font\"/></w:style>",
    );
    for Paragraph(id, name, based_on, paragraph, letters) in paragraph_styles() {
        out.push_str(&format!(
            "<w:style w:type=\"paragraph\" w:styleId=\"{id}\"><w:name w:val=\"{name}\"/><w:basedOn w:val=\"{based_on}\"/><w:next w:val=\"BodyText\"/><w:qFormat/><w:pPr>{paragraph}</w:pPr><w:rPr>{letters}</w:rPr></w:style>"
        ));
    }
    for (id, letters) in [
        ("Strong", "<w:b/><w:bCs/>".to_owned()),
        ("Emphasis", "<w:i/><w:iCs/>".to_owned()),
        ("Label", sans(18, "<w:b/>")),
        ("Faint", format!("<w:color w:val=\"{FAINT}\"/>")),
        ("Accent", format!("<w:color w:val=\"{ACCENT}\"/>")),
    ] {
        out.push_str(&format!(
            "<w:style w:type=\"character\" w:styleId=\"{id}\"><w:name w:val=\"{id}\"/><w:qFormat/><w:rPr>{letters}</w:rPr></w:style>"
        ));
    }
    let line = |edge: &str, size: u8, colour: &str| {
        format!("<w:{edge} w:val=\"single\" w:sz=\"{size}\" w:space=\"0\" w:color=\"{colour}\"/>")
    };
    out.push_str(&format!(
        "<w:style w:type=\"table\" w:default=\"1\" w:styleId=\"TableNormal\"><w:name w:val=\"Normal Table\"/><w:tblPr><w:tblInd w:w=\"0\" w:type=\"dxa\"/></w:tblPr></w:style>\
         <w:style w:type=\"table\" w:styleId=\"Ruled\"><w:name w:val=\"Ruled\"/><w:basedOn w:val=\"TableNormal\"/><w:tblPr><w:tblBorders>{}{}{}</w:tblBorders><w:tblCellMar><w:left w:w=\"60\" w:type=\"dxa\"/><w:right w:w=\"60\" w:type=\"dxa\"/></w:tblCellMar></w:tblPr>\
         <w:tblStylePr w:type=\"firstRow\"><w:tcPr><w:tcBorders>{}</w:tcBorders></w:tcPr></w:tblStylePr></w:style></w:styles>",
        line("top", 8, RULE),
        line("bottom", 6, RULE),
        line("insideH", 4, "B8B6AD"),
        line("bottom", 6, RULE),
    ));
    out
}

/// Returns `numbering.xml`: sections in figures, appendices in letters.
pub(super) fn numbering() -> String {
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?><w:numbering xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\">",
    );
    for (id, format, style) in [(1, "decimal", "Heading1"), (2, "upperLetter", "AppendixHeading")] {
        out.push_str(&format!(
            "<w:abstractNum w:abstractNumId=\"{id}\"><w:multiLevelType w:val=\"singleLevel\"/><w:lvl w:ilvl=\"0\"><w:start w:val=\"1\"/><w:numFmt w:val=\"{format}\"/><w:pStyle w:val=\"{style}\"/><w:lvlText w:val=\"%1\"/><w:lvlJc w:val=\"left\"/><w:pPr><w:ind w:left=\"567\" w:hanging=\"567\"/></w:pPr><w:rPr><w:color w:val=\"{ACCENT}\"/></w:rPr></w:lvl></w:abstractNum>"
        ));
    }
    out.push_str("<w:num w:numId=\"1\"><w:abstractNumId w:val=\"1\"/></w:num><w:num w:numId=\"2\"><w:abstractNumId w:val=\"2\"/></w:num></w:numbering>");
    out
}
