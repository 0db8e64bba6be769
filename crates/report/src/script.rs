//! What the template reads: the document as JSON, with pictures numbered and sized, drawings placed, recommendations
//! grouped by urgency, and every text made safe to set.

use crate::letters::{Range, mend_all};
use crate::PictureFault;
use crate::pictures::{Prints, Wanted};
use crate::{Document, Options, Picture, Recommendation, plan};
use serde_json::{Map, Value, json};

/// Pixels to the inch at printed size.
const PRINT_DPI: f64 = 200.0;
const MM_PER_INCH: f64 = 25.4;

/// Boxes in which pictures are printed, in millimetres: the boat's portrait, one alone, two side by side.
const PORTRAIT_MM: (f64, f64) = (156.0, 96.0);
const ALONE_MM: (f64, f64) = (112.0, 84.0);
const PAIRED_MM: (f64, f64) = (75.0, 60.0);
/// The room for a drawing on an upright page and on one turned on its side, in millimetres.
const UPRIGHT_MM: (f64, f64) = (156.0, 190.0);
const TURNED_MM: (f64, f64) = (236.0, 128.0);

/// The data, the files beside it, and what a person should know of them.
pub(crate) struct Script {
    pub(crate) files: Vec<(String, Vec<u8>)>,
    pub(crate) letters_replaced: usize,
    pub(crate) picture_faults: Vec<(String, PictureFault)>,
}

/// Returns every picture of the document with the box it is printed in, in the order of the pages.
fn pictures(document: &Document) -> impl Iterator<Item = (&Picture, (f64, f64))> {
    let findings = document.parts.iter().flat_map(|part| &part.findings);
    let front = document.front.picture.iter().map(|picture| (picture, PORTRAIT_MM));
    front.chain(findings.flat_map(|finding| boxed(&finding.pictures))).chain(boxed(&document.pictures))
}

fn boxed(pictures: &[Picture]) -> impl Iterator<Item = (&Picture, (f64, f64))> {
    let room = if pictures.len() == 1 { ALONE_MM } else { PAIRED_MM };
    pictures.iter().map(move |picture| (picture, room))
}

fn wanted_print(picture: &Picture, room_mm: (f64, f64)) -> Wanted {
    let px = |mm: f64| (mm / MM_PER_INCH * PRINT_DPI).round() as u32;
    Wanted { sha256: picture.sha256.clone(), box_px: (px(room_mm.0), px(room_mm.1)) }
}

/// Returns the prints that the document needs.
pub(crate) fn wanted(document: &Document) -> Vec<Wanted> {
    pictures(document).map(|(picture, room)| wanted_print(picture, room)).collect()
}

/// Writes the script. Fails only where the document cannot be written as JSON.
pub(crate) fn write(
    document: &Document,
    prints: &Prints,
    options: &Options,
    range: Range,
) -> Result<Script, serde_json::Error> {
    let mut script = Script { files: Vec::new(), letters_replaced: 0, picture_faults: Vec::new() };
    let mut data = serde_json::to_value(document)?;

    let mut shown: Vec<Value> = pictures(document)
        .enumerate()
        .map(|(i, (picture, room))| show(picture, room, i, prints, &mut script))
        .collect();
    // The portrait on the title page has no number; the others are numbered in order.
    let has_portrait = document.front.picture.is_some();
    for (i, picture) in shown.iter_mut().enumerate() {
        picture["number"] = json!(if has_portrait { i } else { i + 1 });
    }
    put_pictures(&mut data, shown);

    for (i, plan) in document.plans.iter().enumerate() {
        let (svg, replaced) = plan::svg(&plan.sheet, range);
        script.letters_replaced += replaced;
        let path = format!("plans/{i}.svg");
        data["plans"][i]["path"] = json!(format!("/{path}"));
        data["plans"][i]["alternative"] =
            json!(alternative(&[&plan.sheet.description, &plan.sheet.title, &plan.caption]));
        let (width_mm, height_mm) = (plan.sheet.width_mm.max(1.0), plan.sheet.height_mm.max(1.0));
        let fits = |room: (f64, f64)| (room.0 / width_mm).min(room.1 / height_mm).min(1.0);
        // A wide drawing that would be too small across an upright page gets a page on its side.
        let turned = fits(UPRIGHT_MM) < 0.8 && fits(TURNED_MM) > fits(UPRIGHT_MM) * 1.15;
        let scale = if turned { fits(TURNED_MM) } else { fits(UPRIGHT_MM) };
        data["plans"][i]["turned"] = json!(turned);
        data["plans"][i]["width_mm"] = json!(width_mm * scale);
        data["plans"][i]["height_mm"] = json!(height_mm * scale);
        script.files.push((path, svg.into_bytes()));
    }

    data["recommendations"] = groups(&document.recommendations);
    data["paper"] = json!(options.paper.name());
    script.letters_replaced += mend_all(&mut data, range);
    script.files.push(("report.json".to_owned(), serde_json::to_vec(&data)?));
    Ok(script)
}

fn show(picture: &Picture, room_mm: (f64, f64), i: usize, prints: &Prints, script: &mut Script) -> Value {
    let mut shown = json!({
        "caption": picture.caption,
        "alternative": alternative(&[&picture.alternative, &picture.caption]),
        "observation": picture.observation,
        "place": picture.place,
        "taken": picture.taken,
    });
    match prints.get(&wanted_print(picture, room_mm)) {
        Some(Ok(print)) => {
            let path = format!("pictures/{i}.jpg");
            let (w, h) = (f64::from(print.width_px.max(1)), f64::from(print.height_px.max(1)));
            // A small picture is not blown up beyond a hundred pixels to the inch.
            let widest = w * MM_PER_INCH / (PRINT_DPI / 2.0);
            let width_mm = room_mm.0.min(room_mm.1 * w / h).min(widest);
            shown["path"] = json!(format!("/{path}"));
            shown["width_mm"] = json!(width_mm);
            shown["height_mm"] = json!(width_mm * h / w);
            script.files.push((path, print.jpeg.clone()));
        }
        fault => {
            let fault = match fault {
                Some(Err(fault)) => fault.clone(),
                _ => PictureFault::Missing("it was not prepared".to_owned()),
            };
            shown["fault"] = json!(fault.to_string());
            script.picture_faults.push((picture.sha256.clone(), fault));
        }
    }
    shown
}

/// Returns the first of the texts that says anything.
fn alternative(texts: &[&str]) -> String {
    let said = texts.iter().map(|text| text.trim()).find(|text| !text.is_empty());
    said.unwrap_or("A photograph of which the record says nothing.").to_owned()
}

/// Puts the pictures back where they came from, in the same order.
fn put_pictures(data: &mut Value, shown: Vec<Value>) {
    let mut shown = shown.into_iter();
    let mut refill = |list: &mut Value| {
        for place in list.as_array_mut().into_iter().flatten() {
            *place = shown.next().unwrap_or_default();
        }
    };
    if !data["front"]["picture"].is_null() {
        let mut one = json!([null]);
        refill(&mut one);
        data["front"]["picture"] = one[0].take();
    }
    for part in data["parts"].as_array_mut().into_iter().flatten() {
        for finding in part["findings"].as_array_mut().into_iter().flatten() {
            refill(&mut finding["pictures"]);
        }
    }
    refill(&mut data["pictures"]);
    if !data["hand"].is_null() {
        let mut one = json!([null]);
        refill(&mut one);
        data["hand"] = one[0].take();
    }
}

/// Groups recommendations under their urgency in words, most urgent first, earlier dates first.
fn groups(recommendations: &[Recommendation]) -> Value {
    let mut sorted: Vec<&Recommendation> = recommendations.iter().collect();
    sorted.sort_by_key(|r| (r.urgency, r.date.is_none(), r.date_order.clone(), r.number));
    let mut groups: Vec<Value> = Vec::new();
    for recommendation in sorted {
        let title = sentence_case(&recommendation.urgency.words(recommendation.date.as_deref()));
        let one = json!(recommendation);
        match groups.last_mut() {
            Some(group) if group["title"] == title.as_str() => {
                if let Some(items) = group["items"].as_array_mut() {
                    items.push(one);
                }
            }
            _ => groups.push(Value::Object(Map::from_iter([
                ("title".to_owned(), json!(title)),
                ("items".to_owned(), json!([one])),
            ]))),
        }
    }
    Value::Array(groups)
}

fn sentence_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
