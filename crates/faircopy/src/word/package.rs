//! The package: parts, what they are, and how they hang together.

use super::WordOptions;
use super::body::Body;
use super::front::{name, standing, title};
use super::pieces::{Face, field, run};
use super::styles::{numbering, styles};
use super::xml::escaped;
use crate::Document;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>";
const W: &str = "xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\"";
const RELATION: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
/// Margins at the sides, top and bottom, in millimetres.
const SIDE_MM: f64 = 27.0;
const TOP_MM: f64 = 30.0;
const BOTTOM_MM: f64 = 24.0;

/// Puts the parts together as a ZIP. Every file bears the same early date, so that the same report has the same bytes.
pub(super) fn put_together(
    document: &Document,
    options: &WordOptions<'_>,
    mut body: Body<'_>,
) -> Result<Vec<u8>, String> {
    body.put_contents();
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let packed = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(zip::DateTime::default());
    // Photographs are packed already.
    let stored = packed.compression_method(CompressionMethod::Stored);
    let mut put = |name: &str, bytes: &[u8], how: SimpleFileOptions| -> Result<(), String> {
        zip.start_file(name, how).map_err(|why| why.to_string())?;
        zip.write_all(bytes).map_err(|why| why.to_string())
    };
    put("[Content_Types].xml", content_types().as_bytes(), packed)?;
    put("_rels/.rels", package_relations().as_bytes(), packed)?;
    put("docProps/core.xml", core(document, options).as_bytes(), packed)?;
    put("docProps/app.xml", app().as_bytes(), packed)?;
    put("word/document.xml", main(options, &body.xml).as_bytes(), packed)?;
    put("word/_rels/document.xml.rels", relations(&body).as_bytes(), packed)?;
    put("word/styles.xml", styles(document.language).as_bytes(), packed)?;
    put("word/numbering.xml", numbering().as_bytes(), packed)?;
    put("word/settings.xml", settings().as_bytes(), packed)?;
    put("word/fontTable.xml", fonts().as_bytes(), packed)?;
    put("word/header.xml", header(document).as_bytes(), packed)?;
    put("word/footer.xml", footer(document).as_bytes(), packed)?;
    for medium in &body.media {
        let how = if medium.name.ends_with(".svg") { packed } else { stored };
        put(&format!("word/media/{}", medium.name), &medium.bytes, how)?;
    }
    zip.finish().map(Cursor::into_inner).map_err(|why| why.to_string())
}

fn content_types() -> String {
    let main = "application/vnd.openxmlformats-officedocument.wordprocessingml";
    let mut out = format!(
        "{HEAD}<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">\
         <Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\
         <Default Extension=\"xml\" ContentType=\"application/xml\"/><Default Extension=\"jpg\" ContentType=\"image/jpeg\"/>\
         <Default Extension=\"png\" ContentType=\"image/png\"/><Default Extension=\"svg\" ContentType=\"image/svg+xml\"/>\
         <Override PartName=\"/docProps/core.xml\" ContentType=\"application/vnd.openxmlformats-package.core-properties+xml\"/>\
         <Override PartName=\"/docProps/app.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.extended-properties+xml\"/>"
    );
    for (part, kind) in [
        ("document", "document.main"),
        ("styles", "styles"),
        ("numbering", "numbering"),
        ("settings", "settings"),
        ("fontTable", "fontTable"),
        ("header", "header"),
        ("footer", "footer"),
    ] {
        out.push_str(&format!("<Override PartName=\"/word/{part}.xml\" ContentType=\"{main}.{kind}+xml\"/>"));
    }
    out + "</Types>"
}

fn package_relations() -> String {
    format!(
        "{HEAD}<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">\
         <Relationship Id=\"main\" Type=\"{RELATION}/officeDocument\" Target=\"word/document.xml\"/>\
         <Relationship Id=\"core\" Type=\"http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties\" Target=\"docProps/core.xml\"/>\
         <Relationship Id=\"app\" Type=\"{RELATION}/extended-properties\" Target=\"docProps/app.xml\"/></Relationships>"
    )
}

fn relations(body: &Body<'_>) -> String {
    let mut out =
        format!("{HEAD}<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">");
    for part in ["styles", "numbering", "settings", "fontTable", "header", "footer"] {
        out.push_str(&format!("<Relationship Id=\"{part}\" Type=\"{RELATION}/{part}\" Target=\"{part}.xml\"/>"));
    }
    for (number, medium) in (1..).zip(&body.media) {
        out.push_str(&format!(
            "<Relationship Id=\"media-{number}\" Type=\"{RELATION}/image\" Target=\"media/{}\"/>",
            medium.name
        ));
    }
    out + "</Relationships>"
}

fn core(document: &Document, options: &WordOptions<'_>) -> String {
    let made = options.made.strftime("%Y-%m-%dT%H:%M:%SZ");
    let author = document.front.surveyor.as_ref().map(|surveyor| surveyor.name.trim()).unwrap_or_default();
    format!(
        "{HEAD}<cp:coreProperties xmlns:cp=\"http://schemas.openxmlformats.org/package/2006/metadata/core-properties\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:dcterms=\"http://purl.org/dc/terms/\" xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\
         <dc:title>{}</dc:title><dc:creator>{}</dc:creator><dc:language>{}</dc:language>\
         <dcterms:created xsi:type=\"dcterms:W3CDTF\">{made}</dcterms:created><dcterms:modified xsi:type=\"dcterms:W3CDTF\">{made}</dcterms:modified></cp:coreProperties>",
        escaped(&title(document)),
        escaped(author),
        document.language.tag()
    )
}

fn app() -> String {
    format!(
        "{HEAD}<Properties xmlns=\"http://schemas.openxmlformats.org/officeDocument/2006/extended-properties\"><Application>Ribband</Application></Properties>"
    )
}

fn twips(mm: f64) -> u32 {
    (mm / 25.4 * 1440.0).round() as u32
}

fn main(options: &WordOptions<'_>, xml: &str) -> String {
    let paper = options.paper;
    // The text is as wide on either paper.
    let side = SIDE_MM + (paper.width_mm - 210.0) / 2.0;
    format!(
        "{HEAD}<w:document {W} xmlns:r=\"{RELATION}\" xmlns:wp=\"http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing\" xmlns:a=\"http://schemas.openxmlformats.org/drawingml/2006/main\" xmlns:pic=\"http://schemas.openxmlformats.org/drawingml/2006/picture\">\
         <w:body>{xml}<w:sectPr><w:headerReference w:type=\"default\" r:id=\"header\"/><w:footerReference w:type=\"default\" r:id=\"footer\"/>\
         <w:pgSz w:w=\"{}\" w:h=\"{}\"/><w:pgMar w:top=\"{}\" w:right=\"{side}\" w:bottom=\"{}\" w:left=\"{side}\" w:header=\"709\" w:footer=\"567\" w:gutter=\"0\"/><w:titlePg/></w:sectPr></w:body></w:document>",
        twips(paper.width_mm),
        twips(paper.height_mm),
        twips(TOP_MM),
        twips(BOTTOM_MM),
        side = twips(side),
    )
}

fn settings() -> String {
    format!(
        "{HEAD}<w:settings {W}><w:zoom w:percent=\"100\"/><w:defaultTabStop w:val=\"567\"/><w:characterSpacingControl w:val=\"doNotCompress\"/><w:compat><w:compatSetting w:name=\"compatibilityMode\" w:uri=\"http://schemas.microsoft.com/office/word\" w:val=\"15\"/></w:compat><w:themeFontLang w:val=\"en-GB\"/></w:settings>"
    )
}

fn fonts() -> String {
    let font = |name: &str, other: &str, family: &str| {
        format!(
            "<w:font w:name=\"{name}\"><w:altName w:val=\"{other}\"/><w:family w:val=\"{family}\"/><w:pitch w:val=\"variable\"/></w:font>"
        )
    };
    format!(
        "{HEAD}<w:fonts {W}>{}{}</w:fonts>",
        font("Source Serif 4", "Georgia", "roman"),
        font("Source Sans 3", "Arial", "swiss")
    )
}

fn header(document: &Document) -> String {
    let surveyed = document.surveyed.trim();
    let left = if surveyed.is_empty() {
        name(document).to_owned()
    } else {
        format!("{}, surveyed {surveyed}", name(document))
    };
    format!(
        "{HEAD}<w:hdr {W} xmlns:r=\"{RELATION}\"><w:p><w:pPr><w:pStyle w:val=\"Header\"/></w:pPr>{}<w:r><w:tab/></w:r>{}{}{}{}</w:p></w:hdr>",
        run(&left, Face::Plain),
        run("page ", Face::Plain),
        field("PAGE", "1", Face::Plain),
        run(" of ", Face::Plain),
        field("NUMPAGES", "1", Face::Plain),
    )
}

fn footer(document: &Document) -> String {
    format!(
        "{HEAD}<w:ftr {W} xmlns:r=\"{RELATION}\"><w:p><w:pPr><w:pStyle w:val=\"Footer\"/></w:pPr>{}<w:r><w:tab/></w:r>{}</w:p></w:ftr>",
        run(&document.reference, Face::Plain),
        run(&standing(document), Face::Accent)
    )
}
