//! What the template reads: the document as JSON, with pictures numbered and sized, drawings placed, recommendations
//! grouped by urgency, and every text made safe to set.

use crate::PictureFault;
use crate::letters::{Range, mend_all};
use crate::{Document, Options, Picture, Plan, Recommendation, plan};
use faircopy::prints::{Prints, Wanted, printed_mm};
use serde_json::{Map, Value, json};

/// The room for a drawing on an upright page and on one turned on its side, in millimetres.
const UPRIGHT_MM: (f64, f64) = (156.0, 190.0);
const TURNED_MM: (f64, f64) = (236.0, 128.0);

/// The data, the files beside it, and what a person should know of them.
pub(crate) struct Script {
    pub(crate) files: Vec<(String, Vec<u8>)>,
    pub(crate) letters_replaced: usize,
    pub(crate) picture_faults: Vec<(String, PictureFault)>,
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

    let mut shown: Vec<Value> = document
        .pictures_placed()
        .enumerate()
        .map(|(i, (picture, room))| show(picture, room, i, prints, &mut script))
        .collect();
    // The portrait on the title page has no number; the others are numbered in order.
    let has_portrait = document.front.picture.is_some();
    for (i, picture) in shown.iter_mut().enumerate() {
        picture["number"] = json!(if has_portrait { i } else { i + 1 });
    }
    put_pictures(&mut data, shown);

    let mut drawn = document.drawings().enumerate().map(|(i, plan)| place(plan, i + 1, range, &mut script));
    data["plans"] = drawn.by_ref().take(document.plans.len()).collect();
    for (part, there) in [
        ("estimate", document.estimate.as_ref().is_some_and(|estimate| estimate.drawn.is_some())),
        ("value", document.value.as_ref().is_some_and(|value| value.drawn.is_some())),
    ] {
        if there {
            data[part]["drawn"] = drawn.next().unwrap_or_default();
        }
    }
    drop(drawn);

    data["recommendations"] = groups(&document.recommendations);
    data["paper"] = json!(options.paper.name());
    script.letters_replaced += mend_all(&mut data, range);
    script.files.push(("report.json".to_owned(), serde_json::to_vec(&data)?));
    Ok(script)
}

/// Puts a drawing among the files, and returns what the template reads of it.
fn place(plan: &Plan, number: usize, range: Range, script: &mut Script) -> Value {
    let (svg, replaced) = plan::svg(&plan.sheet, range);
    script.letters_replaced += replaced;
    let path = format!("plans/{number}.svg");
    let (width_mm, height_mm) = (plan.sheet.width_mm.max(1.0), plan.sheet.height_mm.max(1.0));
    let fits = |room: (f64, f64)| (room.0 / width_mm).min(room.1 / height_mm).min(1.0);
    // A wide drawing that would be too small across an upright page gets a page on its side.
    let turned = fits(UPRIGHT_MM) < 0.8 && fits(TURNED_MM) > fits(UPRIGHT_MM) * 1.15;
    let scale = if turned { fits(TURNED_MM) } else { fits(UPRIGHT_MM) };
    let mut placed = json!(plan);
    placed["number"] = json!(number);
    placed["path"] = json!(format!("/{path}"));
    placed["alternative"] = json!(alternative(&[&plan.sheet.description, &plan.sheet.title, &plan.caption]));
    placed["turned"] = json!(turned);
    placed["width_mm"] = json!(width_mm * scale);
    placed["height_mm"] = json!(height_mm * scale);
    script.files.push((path, svg.into_bytes()));
    placed
}

fn show(picture: &Picture, room_mm: (f64, f64), i: usize, prints: &Prints, script: &mut Script) -> Value {
    let mut shown = json!({
        "caption": picture.caption,
        "alternative": alternative(&[&picture.alternative, &picture.caption]),
        "observation": picture.observation,
        "place": picture.place,
        "taken": picture.taken,
    });
    match prints.get(&Wanted::of(picture, room_mm)) {
        Some(Ok(print)) => {
            let path = format!("pictures/{i}.jpg");
            let (width_mm, height_mm) = printed_mm(print, room_mm);
            shown["path"] = json!(format!("/{path}"));
            shown["width_mm"] = json!(width_mm);
            shown["height_mm"] = json!(height_mm);
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
    let mut groups: Vec<Value> = Vec::new();
    for recommendation in Recommendation::by_urgency(recommendations) {
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
