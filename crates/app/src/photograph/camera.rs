//! What a camera wrote into a picture: when it was taken and where.

/// When and where a picture was taken, as far as it says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Camera {
    /// When, as RFC 3339 or as local time when no zone is named.
    pub taken: Option<String>,
    /// Latitude and longitude in degrees.
    pub position_deg: Option<(f64, f64)>,
}

/// Reads what the camera wrote. A file without it, or with nonsense in it, gives nothing.
pub fn camera(bytes: &[u8]) -> Camera {
    let Ok(exif) = exif::Reader::new().read_from_container(&mut std::io::Cursor::new(bytes)) else {
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
    let degrees = |tag, sign_tag, negative: &str, most: f64| {
        let exif::Value::Rational(parts) = &exif.get_field(tag, exif::In::PRIMARY)?.value else { return None };
        let value: f64 = parts.iter().zip([1.0, 60.0, 3600.0]).map(|(part, by)| part.to_f64() / by).sum();
        let sign = if text(sign_tag)?.starts_with(negative) { -1.0 } else { 1.0 };
        (value.is_finite() && value.abs() <= most).then_some(sign * value)
    };
    let lat = degrees(exif::Tag::GPSLatitude, exif::Tag::GPSLatitudeRef, "S", 90.0);
    let lon = degrees(exif::Tag::GPSLongitude, exif::Tag::GPSLongitudeRef, "W", 180.0);
    Camera { taken, position_deg: lat.zip(lon) }
}
