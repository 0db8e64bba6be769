//! Photographs and drawings, with numbered captions and words for those who cannot see them.

use super::body::{Body, Medium};
use super::pieces::{Face, Piece, Target, plain, set};
use super::xml::escaped;
use crate::prints::{Wanted, boxed, printed_mm};
use crate::{Picture, Plan};

/// English Metric Units in a millimetre.
const EMU_PER_MM: f64 = 36_000.0;
/// The widest and highest that a drawing may be, in millimetres.
const ROOM_MM: (f64, f64) = (156.0, 190.0);

impl Body<'_> {
    /// Writes pictures one after another, each with its caption.
    pub(super) fn pictures(&mut self, pictures: &[Picture]) {
        for (picture, room_mm) in boxed(pictures) {
            self.picture(picture, room_mm, true);
        }
    }

    /// Writes a picture, or a box that says why it cannot be shown.
    pub(super) fn picture(&mut self, picture: &Picture, room_mm: (f64, f64), numbered: bool) {
        let alternative = [&picture.alternative, &picture.caption].into_iter().find(|words| !words.trim().is_empty());
        let alternative = alternative.map_or("A photograph of which the record says nothing.", |words| words.trim());
        match self.options.prints.get(&Wanted::of(picture, room_mm)) {
            Some(Ok(print)) => {
                let (width_mm, height_mm) = printed_mm(print, room_mm);
                let relation = self.medium("jpg", print.jpeg.clone());
                self.shown(&relation, None, (width_mm, height_mm), alternative);
            }
            fault => {
                let why = match fault {
                    Some(Err(why)) => why.to_string(),
                    _ => "it was not prepared".to_owned(),
                };
                self.paragraph("Missing", &[plain(format!("This picture could not be read: {why}."))]);
            }
        }
        if !numbered && picture.caption.trim().is_empty() {
            return;
        }
        let mut caption = Vec::new();
        if numbered {
            caption.extend([set("Picture ", Face::Strong), self.count("Picture"), set(". ", Face::Strong)]);
        }
        caption.push(plain(picture.caption.trim()));
        if let Some(number) = picture.observation {
            let target = Target::Observation(number);
            caption.extend([set(" (observation ", Face::Faint), Piece::See(target), set(")", Face::Faint)]);
        }
        for (before, words) in [("", &picture.place), ("Taken ", &picture.taken)] {
            if !words.trim().is_empty() {
                caption.push(set(format!(" {before}{}", super::findings::ended(words)), Face::Faint));
            }
        }
        self.paragraph("Caption", &caption);
    }

    /// Writes a drawing: as SVG, with a PNG for programs that cannot show it where there is one.
    pub(super) fn plan(&mut self, plan: &Plan, at: usize) {
        let sheet = &plan.sheet;
        let (width_mm, height_mm) = (sheet.width_mm.max(1.0), sheet.height_mm.max(1.0));
        let scale = (ROOM_MM.0 / width_mm).min(ROOM_MM.1 / height_mm).min(1.0);
        let words =
            [&sheet.description, &sheet.title, &plan.caption].into_iter().find(|words| !words.trim().is_empty());
        let alternative =
            words.map_or("A drawing of which the record says nothing.", |words| words.as_str()).to_owned();
        let svg = self.medium("svg", sheet.to_svg().into_bytes());
        let png = self.options.drawings_png.get(at).filter(|png| !png.is_empty()).cloned();
        let size = (width_mm * scale, height_mm * scale);
        match png {
            Some(png) => {
                let png = self.medium("png", png);
                self.shown(&png, Some(&svg), size, &alternative);
            }
            None => self.shown(&svg, Some(&svg), size, &alternative),
        }
        let number = self.count("Drawing");
        let mut caption =
            vec![set("Drawing ", Face::Strong), number, set(". ", Face::Strong), plain(plan.caption.trim())];
        for (i, (mark, word)) in plan.key.iter().enumerate() {
            let sign = match mark {
                crate::Mark::Bare => "bare",
                crate::Mark::Sparse => "sparse hatch",
                crate::Mark::Close => "close hatch",
                crate::Mark::Solid => "solid",
                crate::Mark::Dashed => "dashed outline",
            };
            caption.push(plain(format!("{}{sign} = {word}", if i == 0 { " " } else { "; " })));
        }
        self.paragraph("Caption", &caption);
    }

    fn medium(&mut self, ending: &str, bytes: Vec<u8>) -> String {
        let number = self.media.len() + 1;
        self.media.push(Medium { name: format!("picture-{number}.{ending}"), bytes });
        format!("media-{number}")
    }

    fn shown(&mut self, relation: &str, svg: Option<&str>, (width_mm, height_mm): (f64, f64), alternative: &str) {
        let emu = |mm: f64| (mm * EMU_PER_MM).round() as u64;
        let (cx, cy) = (emu(width_mm), emu(height_mm));
        let id = self.id();
        let better = svg.map_or_else(String::new, |svg| {
            format!(
                "<a:extLst><a:ext uri=\"{{96DAC541-7B7A-43D3-8B79-37D633B846F1}}\"><asvg:svgBlip xmlns:asvg=\"http://schemas.microsoft.com/office/drawing/2016/SVG/main\" r:embed=\"{svg}\"/></a:ext></a:extLst>"
            )
        });
        let words = escaped(&alternative.replace('\n', " "));
        self.xml.push_str(&format!(
            "<w:p><w:pPr><w:pStyle w:val=\"Figure\"/></w:pPr><w:r><w:drawing><wp:inline distT=\"0\" distB=\"0\" distL=\"0\" distR=\"0\">\
             <wp:extent cx=\"{cx}\" cy=\"{cy}\"/><wp:docPr id=\"{id}\" name=\"Picture {id}\" descr=\"{words}\"/>\
             <wp:cNvGraphicFramePr><a:graphicFrameLocks noChangeAspect=\"1\"/></wp:cNvGraphicFramePr>\
             <a:graphic><a:graphicData uri=\"http://schemas.openxmlformats.org/drawingml/2006/picture\"><pic:pic>\
             <pic:nvPicPr><pic:cNvPr id=\"{id}\" name=\"Picture {id}\" descr=\"{words}\"/><pic:cNvPicPr/></pic:nvPicPr>\
             <pic:blipFill><a:blip r:embed=\"{relation}\">{better}</a:blip><a:stretch><a:fillRect/></a:stretch></pic:blipFill>\
             <pic:spPr><a:xfrm><a:off x=\"0\" y=\"0\"/><a:ext cx=\"{cx}\" cy=\"{cy}\"/></a:xfrm><a:prstGeom prst=\"rect\"><a:avLst/></a:prstGeom></pic:spPr>\
             </pic:pic></a:graphicData></a:graphic></wp:inline></w:drawing></w:r></w:p>"
        ));
    }
}
