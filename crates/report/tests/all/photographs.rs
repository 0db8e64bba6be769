//! Photographs: upright, stripped, of the right size, kept, and never the end of a report.

use crate::boat::{Album, emptiest, options, planks};
use image::{ImageReader, RgbImage};
use report::{Document, Front, Pdf, Picture, PictureFault, Pictures, typeset};
use std::io::{self, Cursor};
use std::sync::atomic::{AtomicUsize, Ordering};

fn with(picture: Picture) -> Document {
    Document { front: Front { picture: Some(picture), ..Front::default() }, ..emptiest() }
}

fn set_one(album: &Album, name: String) -> Pdf {
    let read = |sha256: &str| album.read(sha256);
    let document = with(Picture::new(name, "Caption.", "Words."));
    typeset(&document, Pictures { read: &read, kept_in: None }, &options()).expect("typesets")
}

fn fault_of(bytes: Vec<u8>) -> PictureFault {
    let mut album = Album::default();
    let name = album.keep(bytes);
    let pdf = set_one(&album, name);
    assert_eq!(pdf.picture_faults.len(), 1);
    pdf.picture_faults[0].1.clone()
}

/// Returns the pictures inside the file.
fn printed(pdf: &Pdf) -> Vec<RgbImage> {
    let file = lopdf::Document::load_mem(&pdf.bytes).expect("reads");
    let streams = file.objects.values().filter_map(|o| o.as_stream().ok());
    streams
        .filter(|s| s.dict.get(b"Filter").and_then(|f| f.as_name()).is_ok_and(|f| f == b"DCTDecode"))
        .map(|s| image::load_from_memory(&s.content).expect("a JPEG").into_rgb8())
        .collect()
}

/// Puts an EXIF segment (EXIF 2.3, TIFF 6.0 layout) with an orientation and a GPS latitude into a JPEG.
fn with_exif(jpeg: &[u8], orientation: u16) -> Vec<u8> {
    let mut tiff = Vec::from(*b"II*\0\x08\0\0\0");
    tiff.extend(2_u16.to_le_bytes());
    let mut entry = |tag: u16, kind: u16, count: u32, value: u32| {
        tiff.extend(tag.to_le_bytes());
        tiff.extend(kind.to_le_bytes());
        tiff.extend(count.to_le_bytes());
        tiff.extend(value.to_le_bytes());
    };
    entry(0x0112, 3, 1, u32::from(orientation));
    entry(0x8825, 4, 1, 38);
    tiff.extend(0_u32.to_le_bytes());
    tiff.extend(1_u16.to_le_bytes());
    tiff.extend(1_u16.to_le_bytes());
    tiff.extend(2_u16.to_le_bytes());
    tiff.extend(2_u32.to_le_bytes());
    tiff.extend(*b"N\0\0\0");
    tiff.extend(0_u32.to_le_bytes());
    let mut segment = Vec::from(*b"Exif\0\0");
    segment.extend(tiff);
    let mut out = jpeg[..2].to_vec();
    out.extend([0xff, 0xe1]);
    out.extend(u16::try_from(segment.len() + 2).expect("short").to_be_bytes());
    out.extend(segment);
    out.extend(&jpeg[2..]);
    out
}

/// A picture that is white above and black below, 1600 by 1200.
fn white_above() -> Vec<u8> {
    let picture = RgbImage::from_fn(1600, 1200, |_, y| image::Rgb([if y < 600 { 250 } else { 5 }; 3]));
    let mut out = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, 90).encode_image(&picture).expect("encodes");
    out
}

#[test]
fn a_picture_is_turned_upright_stripped_and_brought_to_print_size() {
    let mut album = Album::default();
    // Orientation 6: the top of the scene is at the right-hand side of the stored picture (EXIF 2.3, table 5).
    let name = album.keep(with_exif(&white_above(), 6));
    let pdf = set_one(&album, name);
    let pictures = printed(&pdf);
    assert_eq!(pictures.len(), 1);
    let picture = &pictures[0];
    assert!(picture.height() > picture.width());
    // Stored white above; turned a quarter clockwise, white comes to the right.
    assert!(picture.get_pixel(picture.width() - 4, picture.height() / 2).0[0] > 200);
    assert!(picture.get_pixel(4, picture.height() / 2).0[0] < 50);
    // 96 mm high at 200 dots an inch.
    assert!((755..=757).contains(&picture.height()), "{}", picture.height());
    assert!(!pdf.bytes.windows(6).any(|w| w == b"Exif\0\0"));
}

#[test]
fn a_small_picture_is_not_blown_up() {
    let mut album = Album::default();
    let name = album.keep(planks(120, 90, 100));
    let pictures = printed(&set_one(&album, name));
    assert_eq!((pictures[0].width(), pictures[0].height()), (120, 90));
}

#[test]
fn a_png_with_see_through_parts_lies_on_white() {
    let clear = image::RgbaImage::from_pixel(200, 150, image::Rgba([0, 0, 0, 0]));
    let mut png = Vec::new();
    clear.write_to(&mut Cursor::new(&mut png), image::ImageFormat::Png).expect("encodes");
    let mut album = Album::default();
    let name = album.keep(png);
    assert!(printed(&set_one(&album, name))[0].get_pixel(100, 75).0[0] > 250);
}

#[test]
fn pictures_that_cannot_be_read_say_why_and_do_not_stop_the_report() {
    let whole = planks(1600, 1200, 100);
    assert!(matches!(fault_of(whole[..whole.len() / 2].to_vec()), PictureFault::Damaged(_)));
    assert!(matches!(fault_of(whole[..40].to_vec()), PictureFault::Damaged(_)));
    assert_eq!(fault_of(Vec::new()).to_string(), "the file is not a JPEG, PNG, WebP or GIF picture (it is empty)");
    assert!(fault_of(b"%PDF-1.7 disguised".to_vec()).to_string().contains("it is a PDF"));
    assert!(fault_of(b"\0\0\0\x18ftypheic\0\0\0\0".to_vec()).to_string().contains("save it as JPEG"));
    assert!(fault_of(b"<svg xmlns='http://www.w3.org/2000/svg'/>".to_vec()).to_string().contains("text with markup"));
}

#[test]
fn a_picture_of_too_many_pixels_is_refused_from_its_head_alone() {
    // A PNG head (ISO/IEC 15948, 11.2.2) that says 20,000 by 20,000, and nothing after it.
    let mut head = Vec::from(*b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR");
    head.extend(20_000_u32.to_be_bytes());
    head.extend(20_000_u32.to_be_bytes());
    head.extend([8, 2, 0, 0, 0]);
    let crc = crc32(&head[12..]);
    head.extend(crc.to_be_bytes());
    head.extend(*b"\0\0\0\0IDAT\x35\xaf\x06\x1e");
    assert_eq!(fault_of(head), PictureFault::TooLarge { megapixels: 400.0 });
}

fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0_u32, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |c, _| if c & 1 == 1 { 0xedb8_8320 ^ (c >> 1) } else { c >> 1 })
    })
}

#[test]
fn bytes_other_than_the_records_are_not_printed() {
    let document = with(Picture::new("ab".repeat(32), "", ""));
    let read = |_: &str| Ok(planks(100, 80, 90));
    let pdf = typeset(&document, Pictures { read: &read, kept_in: None }, &options()).expect("typesets");
    assert!(matches!(pdf.picture_faults[0].1, PictureFault::NotTheSame { .. }));
}

#[test]
fn prints_are_kept_and_a_print_cut_short_is_made_anew() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut album = Album::default();
    let name = album.keep(planks(1600, 1200, 100));
    let document = with(Picture::new(name, "Caption.", "Words."));
    let reads = AtomicUsize::new(0);
    let read = |sha256: &str| -> io::Result<Vec<u8>> {
        reads.fetch_add(1, Ordering::Relaxed);
        album.read(sha256)
    };
    let pictures = Pictures { read: &read, kept_in: Some(folder.path()) };
    let first = typeset(&document, pictures, &options()).expect("typesets");
    let second = typeset(&document, pictures, &options()).expect("typesets");
    assert_eq!(reads.load(Ordering::Relaxed), 1);
    assert!(first.bytes == second.bytes);
    let kept = std::fs::read_dir(folder.path()).expect("lists").next().expect("one").expect("one").path();
    assert!(ImageReader::open(&kept).expect("opens").into_dimensions().is_ok());
    let bytes = std::fs::read(&kept).expect("reads");
    std::fs::write(&kept, &bytes[..bytes.len() / 2]).expect("writes");
    let third = typeset(&document, pictures, &options()).expect("typesets");
    assert_eq!(reads.load(Ordering::Relaxed), 2);
    assert!(first.bytes == third.bytes);
}
