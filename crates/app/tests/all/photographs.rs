//! Photographs on their way in. Exif as written by an independent writer (kamadak-exif's, after Exif 2.32), pictures read
//! again by an independent decoder (the crate `image`).

use app::photograph::camera::camera;
use app::photograph::position::without_position;
use exif::experimental::Writer;
use exif::{Field, In, Rational, Tag, Value};
use image::{ImageFormat, RgbImage};
use proptest::prelude::*;
use std::io::Cursor;

fn picture(format: ImageFormat) -> Vec<u8> {
    let image = RgbImage::from_fn(24, 16, |x, y| image::Rgb([(x * 10) as u8, (y * 15) as u8, 90]));
    let mut bytes = Vec::new();
    image.write_to(&mut Cursor::new(&mut bytes), format).unwrap();
    bytes
}

fn text(tag: Tag, said: &str) -> Field {
    Field { tag, ifd_num: In::PRIMARY, value: Value::Ascii(vec![said.as_bytes().to_vec()]) }
}

fn exif(little: bool) -> Vec<u8> {
    let degrees =
        |d, m, s| Value::Rational([(d, 1), (m, 1), (s, 100)].map(|(num, denom)| Rational { num, denom }).to_vec());
    let fields = [
        Field { tag: Tag::Orientation, ifd_num: In::PRIMARY, value: Value::Short(vec![6]) },
        text(Tag::Make, "Invented"),
        text(Tag::DateTimeOriginal, "2026:06:03 10:11:12"),
        text(Tag::OffsetTimeOriginal, "+01:00"),
        text(Tag::GPSLatitudeRef, "S"),
        Field { tag: Tag::GPSLatitude, ifd_num: In::PRIMARY, value: degrees(51, 30, 1234) },
        text(Tag::GPSLongitudeRef, "W"),
        Field { tag: Tag::GPSLongitude, ifd_num: In::PRIMARY, value: degrees(4, 15, 5678) },
    ];
    let mut writer = Writer::new();
    for field in &fields {
        writer.push_field(field);
    }
    let mut out = Cursor::new(Vec::new());
    writer.write(&mut out, little).unwrap();
    out.into_inner()
}

fn jpeg_with(tiff: &[u8]) -> Vec<u8> {
    let plain = picture(ImageFormat::Jpeg);
    let length = u16::try_from(tiff.len() + 8).unwrap().to_be_bytes();
    [&plain[..2], &[0xff, 0xe1], &length, b"Exif\0\0", tiff, &plain[2..]].concat()
}

#[test]
fn the_position_goes_and_time_orientation_and_picture_stay() {
    for little in [true, false] {
        let bytes = jpeg_with(&exif(little));
        let before = camera(&bytes);
        assert_eq!(before.taken.as_deref(), Some("2026-06-03T10:11:12+01:00"));
        let (lat, lon) = before.position_deg.unwrap();
        assert!((lat + 51.503_427_8).abs() < 1e-6 && (lon + 4.265_772_2).abs() < 1e-6);

        let out = without_position(&bytes);
        let after = camera(&out);
        assert_eq!(after.taken, before.taken);
        assert_eq!(after.position_deg, None);
        let read = exif::Reader::new().read_from_container(&mut Cursor::new(&out)).unwrap();
        assert!(
            read.fields().all(|field| field.tag.context() != exif::Context::Gps),
            "no field of the position is left"
        );
        assert_eq!(read.get_field(Tag::Orientation, In::PRIMARY).unwrap().value.get_uint(0), Some(6));
        assert_eq!(image::load_from_memory(&out).unwrap(), image::load_from_memory(&bytes).unwrap());
        let seconds = if little { 1234_u32.to_le_bytes() } else { 1234_u32.to_be_bytes() };
        assert!(!out.windows(4).any(|four| four == seconds), "not even the figures are left in the file");
    }
}

#[test]
fn an_xmp_packet_is_left_out_of_a_jpeg() {
    let plain = picture(ImageFormat::Jpeg);
    let packet = b"http://ns.adobe.com/xap/1.0/\0<x exif:GPSLatitude=\"51,30.2N\"/>";
    let length = u16::try_from(packet.len() + 2).unwrap().to_be_bytes();
    let bytes = [&plain[..2], &[0xff, 0xe1], &length, packet, &plain[2..]].concat();
    let out = without_position(&bytes);
    assert!(!out.windows(11).any(|w| w == b"GPSLatitude"));
    assert_eq!(out, plain);
}

#[test]
fn png_and_webp_lose_their_exif_and_keep_their_picture() {
    let plain = picture(ImageFormat::Png);
    let tiff = exif(true);
    // A chunk after the header chunk (PNG specification, third edition, 11.3.3.3 eXIf); its checksum is not looked at here.
    let chunk = [&u32::try_from(tiff.len()).unwrap().to_be_bytes()[..], b"eXIf", &tiff, &[0; 4]].concat();
    let bytes = [&plain[..33], &chunk, &plain[33..]].concat();
    let out = without_position(&bytes);
    assert_eq!(out, plain);

    let plain = picture(ImageFormat::WebP);
    let chunk =
        [b"EXIF", &u32::try_from(tiff.len()).unwrap().to_le_bytes()[..], &tiff, &vec![0; tiff.len() % 2]].concat();
    let bytes = [&plain[..], &chunk].concat();
    let out = without_position(&bytes);
    assert_eq!(image::load_from_memory(&out).unwrap(), image::load_from_memory(&plain).unwrap());
    assert!(!out.windows(4).any(|w| w == b"EXIF"));
}

proptest! {
    #[test]
    fn no_bytes_make_it_panic_and_what_is_no_picture_stays(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        let _ = camera(&bytes);
        let out = without_position(&bytes);
        let known = bytes.starts_with(&[0xff, 0xd8]) || bytes.starts_with(&[0x89, b'P']) || bytes.starts_with(b"RIFF");
        prop_assert!(known || out == bytes);
    }

    #[test]
    fn a_damaged_jpeg_does_not_make_it_panic(at in 0_usize..300, to in any::<u8>(), cut in 0_usize..900) {
        let mut bytes = jpeg_with(&exif(true));
        let length = bytes.len();
        bytes[at % length] = to;
        bytes.truncate(length - cut.min(length));
        let _ = camera(&bytes);
        let _ = without_position(&bytes);
    }
}
