//! One photograph, from the camera's file to what is printed.
//!
//! What is printed carries pixels only: no EXIF, no position, no maker's notes. The original is never changed.

use fast_image_resize::images::Image;
use fast_image_resize::{PixelType, Resizer};
use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageFormat, ImageReader, RgbImage};
use std::io::Cursor;
use std::sync::Mutex;

/// Photographs of more pixels than this are refused before any of it is decoded.
pub const MOST_MEGAPIXELS: f64 = 100.0;
/// Quality of the printed JPEG, of 100.
const QUALITY: u8 = 82;
/// Pictures larger than this are decoded one at a time, so that two do not fill the memory together.
const LARGE_PIXELS: u64 = 26_000_000;
static ONE_LARGE_AT_A_TIME: Mutex<()> = Mutex::new(());

/// Why a picture could not be printed. The report is made all the same, with a box that says so.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PictureFault {
    /// Its bytes are not to be had; the caller looks where they are kept.
    #[error("its file is not to be had ({0})")]
    Missing(String),
    /// Its bytes are not those that the record names; the caller treats the file as tampered with or damaged.
    #[error("the file is not the one in the record: its SHA-256 is {found}")]
    NotTheSame {
        /// The digest of the bytes found.
        found: String,
    },
    /// It has too many pixels.
    #[error("the picture has {megapixels:.0} megapixels; at most {MOST_MEGAPIXELS:.0} are accepted")]
    TooLarge {
        /// Its size, in millions of pixels.
        megapixels: f64,
    },
    /// It is no picture of a kind that can be printed.
    #[error("the file is not a JPEG, PNG, WebP or GIF picture ({0})")]
    NotAPicture(String),
    /// It ends too early or is damaged.
    #[error("the file is damaged or cut short: {0}")]
    Damaged(String),
}

/// A picture ready for print.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Print {
    /// The file: a JPEG of pixels only.
    pub jpeg: Vec<u8>,
    /// Its width in pixels.
    pub width_px: u32,
    /// Its height in pixels.
    pub height_px: u32,
}

/// Decodes, turns upright, resamples to fit in the box (never enlarging), and encodes anew.
///
/// # Errors
/// [`PictureFault`] when the bytes are no picture, too large, or damaged.
pub fn print(bytes: &[u8], box_px: (u32, u32)) -> Result<Print, PictureFault> {
    let format = image::guess_format(bytes).map_err(|_| PictureFault::NotAPicture(looks_like(bytes)))?;
    if !matches!(format, ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP | ImageFormat::Gif) {
        return Err(PictureFault::NotAPicture(format!("it is {}", format.to_mime_type())));
    }
    let damaged = |fault: image::ImageError| PictureFault::Damaged(fault.to_string());
    let (width, height) = ImageReader::with_format(Cursor::new(bytes), format).into_dimensions().map_err(damaged)?;
    let pixels = u64::from(width) * u64::from(height);
    let megapixels = pixels as f64 / 1e6;
    if megapixels > MOST_MEGAPIXELS {
        return Err(PictureFault::TooLarge { megapixels });
    }
    if pixels == 0 {
        return Err(PictureFault::Damaged("it has no pixels".to_owned()));
    }
    // A poisoned lock only means that another picture failed; this one is decoded all the same.
    let _one = (pixels > LARGE_PIXELS).then(|| ONE_LARGE_AT_A_TIME.lock().unwrap_or_else(|p| p.into_inner()));

    let turn = orientation(bytes);
    let on_its_side = matches!(
        turn,
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH
    );
    let box_px = if on_its_side { (box_px.1, box_px.0) } else { box_px };
    let scale = (f64::from(box_px.0) / f64::from(width)).min(f64::from(box_px.1) / f64::from(height)).min(1.0);
    let wanted = |side: u32| ((f64::from(side) * scale).round() as u32).max(1);
    let wanted = (wanted(width), wanted(height));

    let decoded = match format {
        ImageFormat::Jpeg => jpeg(bytes, wanted)?,
        _ => None,
    };
    let decoded = match decoded {
        Some(picture) => picture,
        None => on_white(ImageReader::with_format(Cursor::new(bytes), format).decode().map_err(damaged)?),
    };
    let mut upright = DynamicImage::ImageRgb8(resampled(decoded, wanted)?);
    upright.apply_orientation(turn);
    let upright = upright.into_rgb8();
    let mut out = Vec::new();
    JpegEncoder::new_with_quality(&mut out, QUALITY).encode_image(&upright).map_err(damaged)?;
    Ok(Print { jpeg: out, width_px: upright.width(), height_px: upright.height() })
}

/// Decodes a JPEG at the smallest of the sizes that its transform gives for nothing (1/8, 1/4, 1/2) and that is still
/// no smaller than wanted: a twelve-megapixel photograph for a third of a page needs a sixteenth of its pixels.
/// Returns nothing for the rare kinds that this decoder does not know.
fn jpeg(bytes: &[u8], wanted: (u32, u32)) -> Result<Option<RgbImage>, PictureFault> {
    use jpeg_decoder::{Decoder, Error, PixelFormat};
    let told = |fault: Error| match fault {
        Error::Unsupported(_) => Ok(None),
        Error::Io(_) => Err(PictureFault::Damaged("it ends before its last line".to_owned())),
        other => Err(PictureFault::Damaged(other.to_string())),
    };
    let side = |s: u32| u16::try_from(s).unwrap_or(u16::MAX);
    let mut decoder = Decoder::new(bytes);
    let (width, height) = match decoder.scale(side(wanted.0), side(wanted.1)) {
        Ok(size) => size,
        Err(fault) => return told(fault),
    };
    let pixels = match decoder.decode() {
        Ok(pixels) => pixels,
        Err(fault) => return told(fault),
    };
    let rgb = match decoder.info().map(|info| info.pixel_format) {
        Some(PixelFormat::RGB24) => pixels,
        Some(PixelFormat::L8) => pixels.iter().flat_map(|grey| [*grey; 3]).collect(),
        _ => return Ok(None),
    };
    Ok(RgbImage::from_raw(u32::from(width), u32::from(height), rgb))
}

/// Lays a picture with see-through parts on white paper.
fn on_white(picture: DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let rgba = picture.into_rgba8();
    let mut out = RgbImage::new(rgba.width(), rgba.height());
    for (from, to) in rgba.pixels().zip(out.pixels_mut()) {
        let [r, g, b, a] = from.0.map(u32::from);
        let over = |c: u32| ((c * a + 255 * (255 - a) + 127) / 255) as u8;
        to.0 = [over(r), over(g), over(b)];
    }
    out
}

fn resampled(picture: RgbImage, (width, height): (u32, u32)) -> Result<RgbImage, PictureFault> {
    if (picture.width(), picture.height()) == (width, height) {
        return Ok(picture);
    }
    let fault = |why: &dyn std::fmt::Display| PictureFault::Damaged(why.to_string());
    let from = Image::from_vec_u8(picture.width(), picture.height(), picture.into_raw(), PixelType::U8x3)
        .map_err(|why| fault(&why))?;
    let mut to = Image::new(width, height, PixelType::U8x3);
    Resizer::new().resize(&from, &mut to, None).map_err(|why| fault(&why))?;
    RgbImage::from_raw(width, height, to.into_vec()).ok_or_else(|| fault(&"its size is not what it says"))
}

/// Reads which way up the camera was held. A picture whose EXIF cannot be read is taken to be upright.
fn orientation(bytes: &[u8]) -> Orientation {
    let Ok(exif) = exif::Reader::new().read_from_container(&mut Cursor::new(bytes)) else {
        return Orientation::NoTransforms;
    };
    exif.get_field(exif::Tag::Orientation, exif::In::PRIMARY)
        .and_then(|field| field.value.get_uint(0))
        .and_then(|value| u8::try_from(value).ok())
        .and_then(Orientation::from_exif)
        .unwrap_or(Orientation::NoTransforms)
}

/// Says what a file seems to be, from its first bytes, for the message.
fn looks_like(bytes: &[u8]) -> String {
    let brand = bytes.get(4..12).unwrap_or_default();
    match bytes {
        [] => "it is empty".to_owned(),
        _ if bytes.starts_with(b"%PDF") => "it is a PDF".to_owned(),
        _ if brand.starts_with(b"ftyphei") || brand.starts_with(b"ftypmif") || brand.starts_with(b"ftyphev") => {
            "it is a HEIC picture; save it as JPEG".to_owned()
        }
        _ if brand.starts_with(b"ftyp") => "it is a film or an unknown picture".to_owned(),
        _ if bytes.starts_with(b"PK\x03\x04") => "it is a zip or office file".to_owned(),
        _ if bytes.trim_ascii_start().starts_with(b"<") => "it is text with markup".to_owned(),
        _ => "it begins like none of them".to_owned(),
    }
}
