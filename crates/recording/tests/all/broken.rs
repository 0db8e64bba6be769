//! Broken tails and lying headers.

use crate::formats::{samples, wav};
use recording::{Channel, Unreadable, read_bytes};

fn tone(seconds: u32) -> Vec<f32> {
    (0..48_000 * seconds).map(|i| 0.3 * (i as f32 * 0.06).sin()).collect()
}

#[test]
fn a_file_that_breaks_off_gives_what_it_has() {
    let whole = include_bytes!("../sounds/impacts.flac");
    let (told, found) = samples(&whole[..whole.len() / 2]);
    assert!(found.len() > 48_000 / 2 && found.len() < 3 * 48_000, "{}", found.len());
    assert!(!told.cautions.is_empty(), "{told:?}");
}

#[test]
fn a_header_that_promises_more_is_not_believed() {
    let bytes = wav(48_000, &[&tone(4)]);
    let (told, found) = samples(&bytes[..bytes.len() / 2]);
    assert!((found.len() as i64 - 96_000).abs() < 2000, "{}", found.len());
    assert!(told.cautions.iter().any(|c| c.contains("4.0 s") || c.contains("breaks off")), "{told:?}");
}

#[test]
fn a_header_written_before_the_end_was_known_is_no_matter() {
    // Recorders that lose power leave the lengths at 0 or at the greatest number.
    for length in [0_u32, u32::MAX] {
        let mut bytes = wav(48_000, &[&tone(2)]);
        bytes[4..8].copy_from_slice(&length.to_le_bytes());
        bytes[40..44].copy_from_slice(&length.to_le_bytes());
        let (told, found) = samples(&bytes);
        assert_eq!(found.len(), 96_000, "{length}");
        assert!(told.cautions.iter().any(|c| c.contains("true length")), "{told:?}");
    }
}

#[test]
fn what_is_no_recording_is_refused_in_words() {
    for bytes in
        [Vec::new(), b"this is a letter, not a recording, and long enough to be looked at".to_vec(), vec![0; 5000]]
    {
        let refused = read_bytes(bytes, Channel::Mix, &mut |_| {}).expect_err("no recording");
        assert!(matches!(refused, Unreadable::Format { .. } | Unreadable::NoSound));
        assert!(refused.to_string().contains("accepted"), "{refused}");
    }
}
