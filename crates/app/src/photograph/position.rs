//! Taking the position out of a picture, and nothing else.
//!
//! A surveyor's photographs go to clients and yards; where a boat lies is nobody's business unless it is kept on purpose.
//! JPEG (Exif 2.32 in its APP1 segment; XMP packets, which may repeat the position, are left out), PNG (`eXIf` and text
//! chunks) and WebP (`EXIF` and `XMP ` chunks) are known. The picture itself is not touched, so nothing is recompressed.
//! Not known here: the makers' own notes inside Exif, and positions inside films.

/// Returns the picture without its position; the same bytes when there is none or the format is not known.
pub fn without_position(bytes: &[u8]) -> Vec<u8> {
    match bytes {
        [0xff, 0xd8, ..] => jpeg(bytes).unwrap_or_else(|| bytes.to_vec()),
        [0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a, ..] => png(bytes).unwrap_or_else(|| bytes.to_vec()),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => {
            webp(bytes).unwrap_or_else(|| bytes.to_vec())
        }
        _ => bytes.to_vec(),
    }
}

fn jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = vec![0xff, 0xd8];
    let mut at = 2;
    loop {
        let [0xff, marker] = *bytes.get(at..at + 2)? else { return None };
        // Padding between segments, and the start of the picture itself.
        if marker == 0xff {
            at += 1;
            continue;
        }
        if marker == 0xda || marker == 0xd9 {
            out.extend_from_slice(bytes.get(at..)?);
            return Some(out);
        }
        let length = usize::from(u16::from_be_bytes([*bytes.get(at + 2)?, *bytes.get(at + 3)?]));
        let segment = bytes.get(at..at + 2 + length)?;
        let body = segment.get(4..)?;
        if marker == 0xe1 && body.starts_with(b"Exif\0\0") {
            let mut own = segment.to_vec();
            blank_position(own.get_mut(10..)?);
            out.extend_from_slice(&own);
        } else if !(marker == 0xe1 && body.starts_with(b"http://ns.adobe.com/")) {
            out.extend_from_slice(segment);
        }
        at += 2 + length;
    }
}

/// Blanks the position in the TIFF structure that Exif is written in: its directory gets no entries, and what they held
/// becomes zero. Anything out of bounds is left alone.
fn blank_position(tiff: &mut [u8]) -> Option<()> {
    let little = tiff.starts_with(b"II");
    let first = number(tiff, 4, 4, little)?;
    let entries = number(tiff, first, 2, little)?;
    for n in 0..entries {
        let entry = first + 2 + n * 12;
        if number(tiff, entry, 2, little)? != 0x8825 {
            continue;
        }
        let own = number(tiff, entry + 8, 4, little)?;
        let inner = number(tiff, own, 2, little)?;
        for m in 0..inner {
            let at = own + 2 + m * 12;
            let bytes = match number(tiff, at + 2, 2, little)? {
                3 => 2,
                4 | 9 => 4,
                5 | 10 => 8,
                _ => 1,
            } * number(tiff, at + 4, 4, little)?;
            if bytes > 4 {
                let value = number(tiff, at + 8, 4, little)?;
                tiff.get_mut(value..value.checked_add(bytes)?)?.fill(0);
            }
            tiff.get_mut(at..at + 12)?.fill(0);
        }
        tiff.get_mut(own..own + 2)?.fill(0);
    }
    Some(())
}

fn number(bytes: &[u8], at: usize, length: usize, little: bool) -> Option<usize> {
    let part = bytes.get(at..at.checked_add(length)?)?;
    let fold = |sum: usize, byte: &u8| (sum << 8) | usize::from(*byte);
    Some(if little { part.iter().rev().fold(0, fold) } else { part.iter().fold(0, fold) })
}

fn png(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = bytes.get(..8)?.to_vec();
    let mut at = 8;
    while at < bytes.len() {
        let length = number(bytes, at, 4, false)?;
        let chunk = bytes.get(at..at.checked_add(12)?.checked_add(length)?)?;
        if !matches!(chunk.get(4..8)?, b"eXIf" | b"iTXt" | b"tEXt" | b"zTXt") {
            out.extend_from_slice(chunk);
        }
        at += 12 + length;
    }
    Some(out)
}

fn webp(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = bytes.get(..12)?.to_vec();
    let mut at = 12;
    while at < bytes.len() {
        let length = number(bytes, at + 4, 4, true)?;
        let padded = length.checked_add(length & 1)?;
        let chunk = bytes.get(at..(at + 8).checked_add(padded)?.min(bytes.len()))?;
        match chunk.get(..4)? {
            b"EXIF" | b"XMP " => {}
            b"VP8X" => {
                let mut own = chunk.to_vec();
                // The header's flags for the two chunks left out (WebP container specification, "Extended File Format").
                *own.get_mut(8)? &= !0b0000_1100;
                out.extend_from_slice(&own);
            }
            _ => out.extend_from_slice(chunk),
        }
        at += 8 + padded;
    }
    let size = u32::try_from(out.len() - 8).ok()?;
    out.get_mut(4..8)?.copy_from_slice(&size.to_le_bytes());
    Some(out)
}
