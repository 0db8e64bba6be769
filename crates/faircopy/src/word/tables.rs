//! Tables: ruled, with a head that repeats on every page and words for those who cannot see them.

use super::body::Body;
use super::pieces::{Face, Piece, plain, set};
use super::xml::escaped;
use crate::{Align, Column, Table};

/// The width of the text on the page, in twentieths of a point.
const TEXT_WIDTH: f64 = 156.0 / 25.4 * 1440.0;

impl Body<'_> {
    /// Writes a plain table with its heading as a numbered caption above it.
    pub(super) fn table(&mut self, table: &Table) {
        if table.columns.is_empty() || table.rows.is_empty() {
            return;
        }
        let cells = table.rows.iter().map(|row| {
            (0..table.columns.len()).map(|i| vec![plain(row.get(i).cloned().unwrap_or_default())]).collect()
        });
        let rows: Vec<Vec<Vec<Piece>>> = cells.collect();
        self.ruled(&table.title, &table.columns, &rows);
        self.prose("TableNote", &table.note);
    }

    /// Writes a table whose cells are pieces.
    pub(super) fn ruled(&mut self, title: &str, columns: &[Column], rows: &[Vec<Vec<Piece>>]) {
        if !title.trim().is_empty() {
            let number = self.count("Table");
            self.paragraph("TableTitle", &[set("Table ", Face::Strong), number, set(". ", Face::Strong), plain(title)]);
        }
        let shares: Vec<f64> = columns.iter().map(|column| column.share.max(0.2)).collect();
        let whole: f64 = shares.iter().sum();
        let widths: Vec<u32> = shares.iter().map(|share| (share / whole * TEXT_WIDTH).round() as u32).collect();
        let about = if title.trim().is_empty() {
            columns.iter().map(|column| column.title.as_str()).collect::<Vec<_>>().join(", ")
        } else {
            title.to_owned()
        };
        let mut out = format!(
            "<w:tbl><w:tblPr><w:tblStyle w:val=\"Ruled\"/><w:tblW w:w=\"5000\" w:type=\"pct\"/><w:tblLayout w:type=\"fixed\"/>\
             <w:tblLook w:val=\"0020\" w:firstRow=\"1\" w:lastRow=\"0\" w:firstColumn=\"0\" w:lastColumn=\"0\" w:noHBand=\"1\" w:noVBand=\"1\"/>\
             <w:tblCaption w:val=\"{}\"/><w:tblDescription w:val=\"{} rows; columns: {}\"/></w:tblPr><w:tblGrid>",
            escaped(&about),
            rows.len(),
            escaped(&columns.iter().map(|column| column.title.as_str()).collect::<Vec<_>>().join(", "))
        );
        for width in &widths {
            out.push_str(&format!("<w:gridCol w:w=\"{width}\"/>"));
        }
        out.push_str("</w:tblGrid><w:tr><w:trPr><w:cantSplit/><w:tblHeader/></w:trPr>");
        for (column, width) in columns.iter().zip(&widths) {
            let cell = self.runs(&[set(column.title.clone(), Face::Strong)]);
            out.push_str(&one_cell(*width, column.align, "TableHead", &cell));
        }
        out.push_str("</w:tr>");
        for row in rows {
            out.push_str("<w:tr><w:trPr><w:cantSplit/></w:trPr>");
            for ((cell, column), width) in row.iter().zip(columns).zip(&widths) {
                let runs = self.runs(cell);
                out.push_str(&one_cell(*width, column.align, "TableText", &runs));
            }
            out.push_str("</w:tr>");
        }
        // A table must not run into the next one.
        out.push_str("</w:tbl><w:p><w:pPr><w:pStyle w:val=\"AfterTable\"/></w:pPr></w:p>");
        self.xml.push_str(&out);
    }
}

fn one_cell(width: u32, align: Align, style: &str, runs: &str) -> String {
    let side = match align {
        Align::Left => "",
        Align::Right => "<w:jc w:val=\"right\"/>",
    };
    format!(
        "<w:tc><w:tcPr><w:tcW w:w=\"{width}\" w:type=\"dxa\"/></w:tcPr><w:p><w:pPr><w:pStyle w:val=\"{style}\"/>{side}</w:pPr>{runs}</w:p></w:tc>"
    )
}
