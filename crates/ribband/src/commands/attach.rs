//! `ribband attach`.

use super::{print, print_json};
use crate::arguments::AttachArgs;
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use serde_json::json;
use std::path::Path;
use survey::payload::Attachment;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &AttachArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let survey = desk.choose(chosen)?;
    let state = desk.state(survey)?;
    let of = args.to.as_deref().map(|name| Desk::find(&state, name)).transpose()?;
    let mut planned = Vec::new();
    for file in &args.files {
        let media_type = media_type(file)?;
        let camera = camera(file);
        let kept = desk.keep_file(file)?;
        let file_name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let attachment = Attachment {
            sha256: kept.digest,
            bytes: kept.bytes,
            media_type: media_type.to_owned(),
            file_name,
            caption: args.caption.clone(),
            alternative: args.alternative.clone(),
            of,
            taken: camera.taken,
            position_deg: camera.position_deg.filter(|_| args.keep_position),
        };
        planned.push(Planned { id: None, payload: attachment.into() });
    }
    let entries = desk.write(survey, &author, &planned)?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        return print_json(&json!({"survey": survey.to_string(), "entries": ids}));
    }
    for (entry, file) in entries.iter().zip(&args.files) {
        print(&format!("Attached {} as {}.", file.display(), entry.id.short()))?;
    }
    Ok(())
}

/// Tells what a file is by its content, never by its name alone.
fn media_type(file: &Path) -> Result<&'static str, Fault> {
    let fault = |why: String| Fault::input(format!("{}: {why}", file.display()));
    let mut head = Vec::new();
    {
        use std::io::Read as _;
        let opened = std::fs::File::open(file).map_err(|e| fault(format!("it cannot be read ({e})")))?;
        if opened.metadata().is_ok_and(|meta| meta.is_dir()) {
            return Err(fault("this is a folder; accepted is a file".to_owned()));
        }
        opened.take(64).read_to_end(&mut head).map_err(|e| fault(format!("it cannot be read ({e})")))?;
    }
    if head.is_empty() {
        return Err(fault("the file is empty".to_owned()));
    }
    let found = infer::get(&head).map_or("application/octet-stream", |kind| kind.mime_type());
    let ending = file.extension().map(|e| e.to_string_lossy().to_ascii_lowercase()).unwrap_or_default();
    let looks_like_picture = ["jpg", "jpeg", "png", "webp", "gif"].contains(&ending.as_str());
    if looks_like_picture && !found.starts_with("image/") {
        return Err(fault(format!("its name says it is a picture, but its content is {found}; nothing was attached")));
    }
    Ok(found)
}

#[derive(Default)]
struct Camera {
    taken: Option<String>,
    position_deg: Option<(f64, f64)>,
}

/// Reads what the camera wrote: when and where. A file without it, or with nonsense in it, gives nothing.
fn camera(file: &Path) -> Camera {
    let Ok(opened) = std::fs::File::open(file) else { return Camera::default() };
    let Ok(exif) = exif::Reader::new().read_from_container(&mut std::io::BufReader::new(opened)) else {
        return Camera::default();
    };
    let text = |tag| {
        let field = exif.get_field(tag, exif::In::PRIMARY)?;
        let shown = field.display_value().to_string().trim_matches('"').trim().to_owned();
        (!shown.is_empty()).then_some(shown)
    };
    let taken = text(exif::Tag::DateTimeOriginal).map(|when| {
        let when = when.replacen(' ', "T", 1);
        text(exif::Tag::OffsetTimeOriginal).map_or_else(|| when.clone(), |zone| format!("{when}{zone}"))
    });
    let degrees = |tag, sign_tag, negative: &str| {
        let exif::Value::Rational(parts) = &exif.get_field(tag, exif::In::PRIMARY)?.value else { return None };
        let value: f64 = parts.iter().zip([1.0, 60.0, 3600.0]).map(|(part, by)| part.to_f64() / by).sum();
        let sign = if text(sign_tag)?.starts_with(negative) { -1.0 } else { 1.0 };
        (value.is_finite() && value.abs() <= 180.0).then_some(sign * value)
    };
    let lat = degrees(exif::Tag::GPSLatitude, exif::Tag::GPSLatitudeRef, "S");
    let lon = degrees(exif::Tag::GPSLongitude, exif::Tag::GPSLongitudeRef, "W");
    Camera { taken, position_deg: lat.zip(lon) }
}
