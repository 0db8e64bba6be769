//! The pictures are there, small enough, and each attachment names one.

use crate::{demo, state};
use survey::Digest;

/// The pictures among what is kept beside the record; the letter to the client is kept there too.
fn pictures() -> impl Iterator<Item = &'static demo::Picture> {
    demo().attachments.iter().filter(|kept| kept.file_name.ends_with(".jpg"))
}

#[test]
fn the_letter_is_kept_beside_the_record() {
    let letter = Digest::of(demo::LETTER.as_bytes());
    assert_eq!(demo().attachments.iter().filter(|kept| kept.digest == letter).count(), 1);
}

#[test]
fn every_attachment_has_its_picture_and_every_picture_its_attachment() {
    let state = state();
    let drawn = || state.attachments().filter(|a| a.payload.media_type == "image/jpeg");
    for attachment in drawn() {
        let picture = pictures().find(|p| p.digest == attachment.payload.sha256).expect("there is one");
        assert_eq!(picture.bytes.len() as u64, attachment.payload.bytes);
        assert_eq!(picture.file_name, attachment.payload.file_name);
        assert_eq!(Digest::of(picture.bytes), picture.digest);
        assert!(attachment.payload.of.is_some());
    }
    assert_eq!(pictures().count(), drawn().count());
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("marram/pictures");
    assert_eq!(std::fs::read_dir(folder).expect("the folder").count(), pictures().count());
}

#[test]
fn every_picture_is_a_jpeg_of_1600_by_1200_and_no_larger_than_150_kb() {
    let mut all = 0;
    for picture in pictures() {
        assert!(picture.bytes.len() <= 150_000, "{}", picture.file_name);
        assert_eq!(size(picture.bytes), Some((1600, 1200)), "{}", picture.file_name);
        all += picture.bytes.len();
    }
    assert!(all < 4_000_000, "{all}");
}

#[test]
fn every_picture_can_be_told_in_words() {
    for attachment in state().attachments().filter(|a| a.payload.media_type == "image/jpeg") {
        let words = attachment.payload.alternative.split_whitespace().count();
        assert!(words >= 8, "{}", attachment.payload.file_name);
        assert_ne!(attachment.payload.alternative, attachment.payload.caption);
    }
}

/// Reads width and height from the start-of-frame segment (ITU-T T.81, B.2.2).
fn size(jpeg: &[u8]) -> Option<(u16, u16)> {
    let two = |at: usize| Some(u16::from_be_bytes([*jpeg.get(at)?, *jpeg.get(at + 1)?]));
    let mut at = 2;
    loop {
        let marker = two(at)?;
        if (0xffc0..=0xffc2).contains(&marker) {
            return Some((two(at + 7)?, two(at + 5)?));
        }
        at += 2 + usize::from(two(at + 2)?);
    }
}

#[test]
fn the_talk_through_lies_beside_the_record_and_says_that_it_is_invented() {
    let state = state();
    let others: Vec<_> = state.attachments().filter(|a| a.payload.media_type != "image/jpeg").collect();
    assert_eq!(others.len(), 3);
    for attachment in others {
        let kept = demo().attachments.iter().find(|kept| kept.digest == attachment.payload.sha256).expect("its file");
        assert_eq!(
            (kept.bytes.len() as u64, kept.media_type),
            (attachment.payload.bytes, attachment.payload.media_type.as_str())
        );
        assert!(attachment.payload.caption.contains("invented"), "{}", attachment.payload.caption);
        assert!(kept.bytes.len() < 1_500_000, "{}", kept.file_name);
    }
}
