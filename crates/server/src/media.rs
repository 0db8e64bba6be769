//! What kinds of files are taken as attachments, told by their content and not by what a browser calls them.

/// Enough of a file to tell what it is.
pub const HEAD: usize = 4096;

/// Names given by `infer`, and the type and file ending under which they are served. What a browser could run (HTML,
/// SVG, XML) and what it has no use for is not among them.
const KINDS: [(&str, &str, &str); 26] = [
    ("image/jpeg", "image/jpeg", "jpg"),
    ("image/png", "image/png", "png"),
    ("image/gif", "image/gif", "gif"),
    ("image/webp", "image/webp", "webp"),
    ("image/heif", "image/heif", "heic"),
    ("image/avif", "image/avif", "avif"),
    ("image/jxl", "image/jxl", "jxl"),
    ("image/tiff", "image/tiff", "tif"),
    ("image/bmp", "image/bmp", "bmp"),
    ("audio/mpeg", "audio/mpeg", "mp3"),
    ("audio/m4a", "audio/mp4", "m4a"),
    ("audio/ogg", "audio/ogg", "ogg"),
    ("audio/opus", "audio/ogg", "opus"),
    ("audio/x-flac", "audio/flac", "flac"),
    ("audio/x-wav", "audio/wav", "wav"),
    ("audio/amr", "audio/amr", "amr"),
    ("audio/aac", "audio/aac", "aac"),
    ("audio/x-aiff", "audio/aiff", "aiff"),
    ("video/mp4", "video/mp4", "mp4"),
    ("video/x-m4v", "video/mp4", "m4v"),
    ("video/webm", "video/webm", "webm"),
    ("video/x-matroska", "video/matroska", "mkv"),
    ("video/quicktime", "video/quicktime", "mov"),
    ("video/x-msvideo", "video/x-msvideo", "avi"),
    ("video/mpeg", "video/mpeg", "mpg"),
    ("application/pdf", "application/pdf", "pdf"),
];

/// What is accepted, for a person.
pub const ACCEPTED: &str = "accepted are photographs, recordings of sound or pictures, PDF and plain text";

/// A kind of file that is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kind {
    /// The media type under which it is served.
    pub media_type: &'static str,
    /// The ending of its name when it is saved.
    pub ending: &'static str,
}

impl Kind {
    /// What is served without being told what it is: it may have come by another way than over HTTP.
    pub const OTHER: Self = Self { media_type: "application/octet-stream", ending: "bin" };

    /// Tells whether a page may show it in place, rather than only offer it to be saved.
    pub fn is_shown(self) -> bool {
        ["image/", "audio/", "video/"].iter().any(|class| self.media_type.starts_with(class))
    }
}

/// Tells what a file is by its first bytes. None for what is not taken.
pub fn kind_of(head: &[u8]) -> Option<Kind> {
    match infer::get(head) {
        Some(found) => KINDS
            .iter()
            .find(|(name, ..)| *name == found.mime_type())
            .map(|&(_, media_type, ending)| Kind { media_type, ending }),
        None => is_text(head).then_some(Kind { media_type: "text/plain; charset=utf-8", ending: "txt" }),
    }
}

/// Tells whether this begins like plain text in UTF-8 that is no markup.
fn is_text(head: &[u8]) -> bool {
    let text = match std::str::from_utf8(head) {
        Ok(text) => text,
        // A letter may be cut in two by the end of what was read.
        Err(fault) if fault.error_len().is_none() && head.len() >= HEAD => {
            std::str::from_utf8(&head[..fault.valid_up_to()]).unwrap_or_default()
        }
        Err(_) => return false,
    };
    let text = text.trim_start_matches('\u{feff}');
    !text.is_empty()
        && !text.trim_start().starts_with('<')
        && !text.chars().any(|c| c.is_control() && !matches!(c, '\t' | '\n' | '\r' | '\u{c}'))
}

#[cfg(test)]
mod tests {
    use super::{HEAD, kind_of};

    #[test]
    fn what_a_browser_could_run_is_not_taken_and_plain_words_are() {
        let media_type = |head: &[u8]| kind_of(head).map(|kind| kind.media_type);
        let refused: [&[u8]; 8] = [
            b"<!DOCTYPE html><p>x",
            b"  <svg xmlns='http://www.w3.org/2000/svg'/>",
            b"\xef\xbb\xbf<?xml version='1.0'?>",
            b"#!/bin/sh\n",
            b"MZ\x90\0\x03\0\0\0\x04\0",
            b"PK\x03\x04\x14\0",
            b"\xff\xfe<\0h\0",
            b"",
        ];
        for head in refused {
            assert_eq!(media_type(head), None, "{head:?}");
        }
        assert_eq!(media_type(b"WEBVTT\n\n00:00.000 --> 00:01.000\ngarboard"), Some("text/plain; charset=utf-8"));
        // A letter of two bytes cut in two by the end of what is read.
        let mut long = vec![b'a'; HEAD - 1];
        long.push(0xc3);
        assert_eq!(media_type(&long), Some("text/plain; charset=utf-8"));
        assert_eq!(media_type(b"cut \xc3"), None);
        // RIFF/WAVE (Multimedia Programming Interface and Data Specifications 1.0, 1991); PNG, ISO/IEC 15948, 5.2.
        assert_eq!(media_type(b"RIFF\x24\0\0\0WAVEfmt "), Some("audio/wav"));
        assert_eq!(media_type(b"\x89PNG\r\n\x1a\n"), Some("image/png"));
    }
}
