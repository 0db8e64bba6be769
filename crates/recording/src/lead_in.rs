//! The silence an encoder puts before the sound of an MP4 or M4A file, as its edit list tells it (ISO/IEC 14496-12, 8.6.6).

use std::io::{Read, Seek, SeekFrom};

/// Most bytes of the file's table of contents that are read.
const MOST: u64 = 32 << 20;

/// Returns the samples to leave out at the beginning, if the file is an MP4 that says so.
pub(crate) fn of_mp4<S: Read + Seek>(source: &mut S) -> Option<u64> {
    let movie = movie_box(source)?;
    let mut track = None;
    each_box(&movie, &mut |kind, body| {
        if kind == b"trak" && track.is_none() {
            track = lead_of_track(body);
        }
    });
    track
}

/// Finds the box `moov` among the outermost boxes.
fn movie_box<S: Read + Seek>(source: &mut S) -> Option<Vec<u8>> {
    let mut at = 0_u64;
    for _ in 0..256 {
        source.seek(SeekFrom::Start(at)).ok()?;
        let mut head = [0_u8; 16];
        source.read_exact(&mut head[..8]).ok()?;
        let mut size = u64::from(u32::from_be_bytes([head[0], head[1], head[2], head[3]]));
        let kind = [head[4], head[5], head[6], head[7]];
        if at == 0 && &kind != b"ftyp" && &kind != b"moov" && &kind != b"wide" {
            return None;
        }
        let mut inside = 8;
        if size == 1 {
            source.read_exact(&mut head[8..]).ok()?;
            size = u64::from_be_bytes([head[8], head[9], head[10], head[11], head[12], head[13], head[14], head[15]]);
            inside = 16;
        }
        if &kind == b"moov" {
            let length = size.saturating_sub(inside).min(MOST);
            let mut body = Vec::new();
            source.take(length).read_to_end(&mut body).ok()?;
            return Some(body);
        }
        if size < 8 {
            return None;
        }
        at = at.checked_add(size)?;
    }
    None
}

fn each_box(bytes: &[u8], take: &mut dyn FnMut(&[u8], &[u8])) {
    let mut rest = bytes;
    while let Some(size) = number(rest, 0) {
        let size = size as usize;
        let (Some(kind), Some(body)) = (rest.get(4..8), rest.get(8..size)) else { return };
        take(kind, body);
        rest = &rest[size..];
    }
}

fn number(bytes: &[u8], at: usize) -> Option<u32> {
    let four = bytes.get(at..at + 4)?;
    Some(u32::from_be_bytes([four[0], four[1], four[2], four[3]]))
}

/// Returns the start of the first real edit of a sound track, in samples.
fn lead_of_track(body: &[u8]) -> Option<u64> {
    let (mut sound, mut start) = (false, None);
    each_box(body, &mut |kind, body| match kind {
        b"edts" => each_box(body, &mut |kind, list| {
            if kind == b"elst" {
                start = first_edit(list);
            }
        }),
        b"mdia" => each_box(body, &mut |kind, inner| {
            if kind == b"hdlr" {
                sound = inner.get(8..12) == Some(b"soun");
            }
        }),
        _ => {}
    });
    // The time scale of a sound track is its sample rate; more than half a second is an edit, not a lead-in.
    start.filter(|s| sound && *s < 24_000)
}

fn first_edit(list: &[u8]) -> Option<u64> {
    let (version, count) = (*list.first()?, number(list, 4)?);
    for i in 0..count.min(16) as usize {
        let start = if version == 1 {
            let at = 8 + 20 * i + 8;
            i64::from(number(list, at)? as i32) << 32 | i64::from(number(list, at + 4)?)
        } else {
            i64::from(number(list, 8 + 12 * i + 4)? as i32)
        };
        if start >= 0 {
            return Some(start as u64);
        }
    }
    None
}
