//! Reading timed text. WebVTT is checked against the W3C's *WebVTT: The Web Video Text Tracks Format* (Candidate
//! Recommendation, 4 April 2019), clause by clause, with cases of our own that follow the questions of the
//! web-platform-tests (folder webvtt/parsing/file-parsing). SubRip has no standard: its cases are common practice.

use proptest::prelude::*;
use walk::text::{Layout, Oddity, TextFault, TimedText};

fn read(text: &str) -> TimedText {
    TimedText::read(text.as_bytes(), None).unwrap_or_else(|fault| panic!("{fault}"))
}

fn times(text: &TimedText) -> Vec<(f64, f64)> {
    text.cues.iter().map(|cue| (cue.start_s, cue.end_s)).collect()
}

fn has(text: &TimedText, oddity: Oddity) -> bool {
    text.cautions.iter().any(|caution| caution.oddity == oddity)
}

/// W3C WebVTT, 4.1 "WebVTT file structure": signature, header text, comments, cues with and without a name.
#[test]
fn the_structure_of_a_webvtt_file() {
    let text = read(
        "WEBVTT - a walk round an invented boat\nKind: captions\n\nNOTE spoken\nby the surveyor\n\nstem\n00:01.000 --> 00:04.500 \
         align:start position:10%\nPort side,\ngarboard.\n\nSTYLE\n::cue {}\n\nREGION\nid:a\n\n01:00:00.000 --> 01:00:01.000\nRings.",
    );
    assert_eq!(text.layout, Layout::WebVtt);
    assert_eq!(times(&text), [(1.0, 4.5), (3600.0, 3601.0)]);
    assert_eq!(text.cues[0].id.as_deref(), Some("stem"));
    assert_eq!(text.cues[0].text, "Port side,\ngarboard.");
    assert_eq!(text.cues[1].id, None);
    assert!(text.cautions.is_empty() && text.untimed.is_empty(), "{text:?}");
}

/// W3C WebVTT, "WebVTT file parsing": the signature may be followed by nothing, space or tab only; lines end in LF, CR or
/// CR LF; a byte order mark is passed over; NUL becomes U+FFFD.
#[test]
fn signatures_and_ends_of_lines() {
    for head in ["WEBVTT", "WEBVTT ", "WEBVTT\t", "WEBVTT x", "\u{feff}WEBVTT"] {
        let text = read(&format!("{head}\n\n00:00.000 --> 00:01.000\na"));
        assert_eq!((text.layout, text.cues.len()), (Layout::WebVtt, 1), "{head:?}");
    }
    for end in ["\n", "\r", "\r\n"] {
        let lines = ["WEBVTT", "", "00:00.000 --> 00:01.000", "a", "b", "", "00:01.000 --> 00:02.000", "c"];
        let text = read(&lines.join(end));
        assert_eq!(text.cues.len(), 2, "{end:?}");
        assert_eq!(text.cues[0].text, "a\nb");
    }
    assert_eq!(read("WEBVTT\n\n00:00.000 --> 00:01.000\na\0b").cues[0].text, "a\u{fffd}b");
    // A file with no cues is a file.
    assert!(read("WEBVTT\n").cues.is_empty());
    assert_ne!(TimedText::read_text("WEBVTTx\n\n00:00.000 --> 00:01.000\na", None).unwrap().layout, Layout::WebVtt);
}

/// W3C WebVTT, "collect a WebVTT timestamp". The first list is what the parser must take, the second what it must not; we keep
/// the second too, with a caution, or apart when no time can be made of it.
#[test]
fn time_stamps() {
    for (line, start, end) in [
        ("00:00.000 --> 00:00:01.000", 0.0, 1.0),
        ("00:00:00.000 --> 00:01.000", 0.0, 1.0),
        ("000:00:00.000 --> 000:00:01.000", 0.0, 1.0),
        ("00:00.000-->00:01.000", 0.0, 1.0),
        ("00:00.000\t-->\t00:01.000", 0.0, 1.0),
        ("00:59.999 --> 01:59:59.999", 59.999, 7199.999),
        ("00:00.000 --> 00:01.000 align:start", 0.0, 1.0),
        ("120:00:00.000 --> 120:00:01.500", 432_000.0, 432_001.5),
    ] {
        let text = read(&format!("WEBVTT\n\n{line}\nword\n"));
        assert_eq!(times(&text), [(start, end)], "{line}");
        assert!(text.cautions.is_empty(), "{line}: {:?}", text.cautions);
    }
    for line in [
        "00:00:00.0000 --> 00:00:01.000",
        "00:00.00 --> 00:01.000",
        "00:00:60.000 --> 00:01:01.000",
        "00:60:00.000 --> 01:01:00.000",
        "0:00:00.000 --> 0:00:01.000",
        "00:00,000 --> 00:01,000",
        "000:00.000 --> 00:01.000",
        "00:00 --> 00:01",
        "00::00.000 --> 00:01.000",
        "00:00..000 --> 00:01.000",
        "-00:00.000 --> 00:01.000",
        "00:00.000 -- > 00:01.000",
        "00:00.000 --> soon",
        "--> 00:01.000",
    ] {
        let text = read(&format!("WEBVTT\n\n{line}\nspoken\n"));
        assert!(has(&text, Oddity::Timing) || has(&text, Oddity::Untimed), "{line}: {text:?}");
        let kept = text.cues.iter().any(|cue| cue.text == "spoken")
            || text.untimed.iter().any(|untimed| untimed.text.contains("spoken"));
        assert!(kept, "{line}: {text:?}");
    }
}

/// W3C WebVTT, "collect a WebVTT block": a second line with an arrow ends the block, so that a cue needs no empty line before
/// it (question of web-platform-tests arrows.html; six cues there, with lines of our own).
#[test]
fn arrows_end_a_block() {
    let body = ["-->", "one-->", "-->two", "--->", "-->-->"]
        .iter()
        .enumerate()
        .map(|(n, arrow)| format!("{arrow}\n00:0{n}.000 --> 00:0{}.000\nword{n}\n", n + 1))
        .collect::<String>();
    let text = read(&format!("WEBVTT\n\n{body}00:05.000 --> 00:06.000\nword5\n"));
    let words: Vec<&str> = text.cues.iter().map(|cue| cue.text.as_str()).collect();
    assert_eq!(words, ["word0", "word1", "word2", "word3", "word4", "word5"]);
    // A comment must not hold an arrow (4.1, "WebVTT comment block"). One that does loses no cue and is kept apart.
    let noted = read("WEBVTT\n\nNOTE see --> there\nand there\n\n00:00.000 --> 00:01.000\na");
    assert_eq!((noted.cues.len(), noted.untimed.len()), (1, 1));
}

/// Same clause: a name may be anything without an arrow, spaces and figures included (question of ids.html).
#[test]
fn names_of_cues() {
    for id in [" leading", "trailing ", "-- >", "->", "12", " "] {
        let text = read(&format!("WEBVTT\n\n{id}\n00:00.000 --> 00:01.000\na\n"));
        assert_eq!(text.cues[0].id.as_deref(), Some(id));
    }
}

/// W3C WebVTT, "WebVTT cue text parsing rules": tags, classes, voices, times and character references.
#[test]
fn text_inside_cues() {
    let text = read(
        "WEBVTT\n\n00:10.000 --> 00:14.000\n<v.loud Surveyor &amp; mate>port <c.dull>plank</c> <00:12.000>four &lt;5&nbsp;mm&gt; \
         <i>dull</i><b></b>&unknown; &#233;\n",
    );
    let cue = &text.cues[0];
    assert_eq!(cue.speaker.as_deref(), Some("Surveyor & mate"));
    assert_eq!(cue.text, "port plank four <5\u{a0}mm> dull&unknown; é");
    let four = cue.words.iter().find(|word| word.word == "four").unwrap();
    assert!(four.timed && four.start_s == 12.0, "{four:?}");
    assert!(cue.words.iter().take(2).all(|word| !word.timed && word.start_s < 12.0), "{cue:?}");
}

/// Common practice, no source: what SubRip files are met with.
#[test]
fn subrip() {
    let text = read(
        "1\n00:00:01,000 --> 00:00:02,500\n<font color=\"red\">Port</font> {\\an8}side\n\n2\n0:03.5 --> 0:04 X1:1 Y1:2\ngarboard < 5 mm\n\n\
         still garboard\n\n00:00:05.000 --> 00:00:06.000\n12\n",
    );
    assert_eq!(text.layout, Layout::SubRip);
    assert_eq!(times(&text), [(1.0, 2.5), (3.5, 4.0), (5.0, 6.0)]);
    assert_eq!(text.cues[0].text, "Port side");
    assert_eq!(text.cues[1].text, "garboard < 5 mm\n\nstill garboard");
    assert_eq!(text.cues[2].text, "12");
    assert_eq!(text.cues[0].id.as_deref(), Some("1"));
    assert!(has(&text, Oddity::Timing));
}

#[test]
fn json_words_in_our_shape_and_nested() {
    let ours = r#"[{"start_s": 1.0, "end_s": 1.4, "word": "port", "confidence": 0.9}, {"start_s": 1.4, "end_s": 1.9, "word": "side."},
                   {"start_s": 4.0, "end_s": 4.5, "word": "dull", "confidence": 7}]"#;
    let text = read(ours);
    assert_eq!(text.layout, Layout::JsonWords);
    assert_eq!(text.cues.iter().map(|cue| cue.text.as_str()).collect::<Vec<_>>(), ["port side.", "dull"]);
    assert_eq!(text.cues[0].words[0].confidence, Some(0.9));
    assert_eq!(text.cues[1].words[0].confidence, None, "a confidence of 7 is left out");
    assert!(has(&text, Oddity::WordTime));
    let nested = r#"{"segments": [{"text": "port side", "start": 0, "end": 2, "words":
                    [{"word": " port", "start": 0.1, "end": 0.5, "probability": 0.8}, {"word": "side", "start": 0.5, "end": 0.9}, {"word": "lost"}]}]}"#;
    let text = read(nested);
    assert_eq!(text.words().map(|word| word.word.as_str()).collect::<Vec<_>>(), ["port", "side"]);
    assert_eq!(text.untimed[0].text, "lost");
    for bad in ["[{\"word\": 1}]", "{", "[]", "[{\"start_s\": 1}]"] {
        assert!(matches!(TimedText::read_text(bad, None), Err(TextFault::Json(_) | TextFault::NoTimes)), "{bad}");
    }
}

#[test]
fn text_without_times_is_refused_in_one_sentence() {
    assert_eq!(TimedText::read_text(" \n", None), Err(TextFault::Empty));
    let refusal = TimedText::read_text("Port side garboard is dull.", None).unwrap_err().to_string();
    assert!(refusal.contains("accepted is WebVTT") && !refusal.contains('\n'), "{refusal}");
}

/// Unicode 15, 3.10 (byte order marks), and the WHATWG Encoding Standard, index windows-1252 (0x92 is U+2019, 0xE9 is é).
#[test]
fn other_encodings_are_read_with_a_caution() {
    let said = "WEBVTT\n\n00:00.000 --> 00:01.000\nscarf’s lé\n";
    let little: Vec<u8> = said.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let big: Vec<u8> = said.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let latin: Vec<u8> = said
        .chars()
        .map(|c| match c {
            '’' => 0x92,
            'é' => 0xe9,
            c => c as u8,
        })
        .collect();
    for (bytes, cautions) in [
        (said.as_bytes().to_vec(), 0),
        ([&[0xef, 0xbb, 0xbf], said.as_bytes()].concat(), 0),
        ([&[0xff, 0xfe], little.as_slice()].concat(), 1),
        ([&[0xfe, 0xff], big.as_slice()].concat(), 1),
        (little, 1),
        (latin, 1),
    ] {
        let text = TimedText::read(&bytes, None).unwrap();
        assert_eq!(text.cues[0].text, "scarf’s lé");
        assert_eq!(text.cautions.iter().filter(|c| c.oddity == Oddity::Encoding).count(), cautions);
    }
}

#[test]
fn odd_times_are_kept_with_a_caution() {
    let written = "WEBVTT\n\n00:05.000 --> 00:04.000\nbackwards\n\n00:01.000 --> 00:03.000\nfirst\n\n00:02.000 --> 00:03.500\nover it\n\n\
                   00:30.000 --> 00:31.000\nafter the end\n";
    let text = TimedText::read_text(written, Some(20.0)).unwrap();
    for oddity in [Oddity::Backwards, Oddity::Overlap, Oddity::PastTheEnd, Oddity::Order] {
        assert!(has(&text, oddity), "{oddity:?}");
    }
    assert_eq!(times(&text), [(1.0, 3.0), (2.0, 3.5), (5.0, 5.0), (20.0, 20.0)]);
    assert!(text.cautions.iter().any(|c| c.words.contains("30.000")), "the time told is kept in the caution");
}

#[test]
fn rolling_captions_count_once() {
    let text = read(
        "WEBVTT\n\n00:00.000 --> 00:02.000\nport side garboard\n\n00:02.000 --> 00:04.000\nport side garboard\nis dull here\n",
    );
    let words: Vec<&str> = text.words().map(|word| word.word.as_str()).collect();
    assert_eq!(words, ["port", "side", "garboard", "is", "dull", "here"]);
    assert!(has(&text, Oddity::Repeated));
    assert_eq!(text.cues[1].text, "port side garboard\nis dull here", "the cue itself stays whole");
}

fn pieces() -> impl Strategy<Value = String> {
    let known = prop::sample::select(vec![
        "WEBVTT",
        "\n",
        "\r\n",
        "\n\n",
        "00:01.000",
        " --> ",
        "00:00:02,5",
        "NOTE",
        "<v A>",
        "<",
        ">",
        "&amp;",
        "&#",
        "word",
        "[",
        "{",
        "\"",
        "\"word\":",
        "\"start\":1",
        "}",
        "]",
        "\0",
        "1",
        "é",
        "-",
        "{\\an8}",
        "99999999:00:00.000",
    ]);
    prop::collection::vec(known, 0..40).prop_map(|parts| parts.concat())
}

proptest! {
    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = TimedText::read(&bytes, Some(3.0));
    }

    #[test]
    fn no_text_makes_it_panic_and_every_time_is_within_the_recording(text in pieces(), recording_s in 0.0..100.0f64) {
        for text in [text.clone(), format!("WEBVTT\n\n{text}")] {
            let Ok(read) = TimedText::read(text.as_bytes(), Some(recording_s)) else { continue };
            for cue in &read.cues {
                prop_assert!(0.0 <= cue.start_s && cue.start_s <= cue.end_s && cue.end_s <= recording_s);
                for word in &cue.words {
                    prop_assert!(cue.start_s <= word.start_s && word.start_s <= word.end_s && word.end_s <= cue.end_s);
                }
            }
            prop_assert!(read.cues.windows(2).all(|pair| pair[0].start_s <= pair[1].start_s));
        }
    }

    #[test]
    fn what_is_written_as_webvtt_is_read_again(
        cues in prop::collection::vec((0u32..100_000, 0u32..10_000, "[a-z<>&é \n-]{1,30}"), 0..8),
    ) {
        let written: String = cues
            .iter()
            .map(|(start, length, text)| {
                let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
                format!("{}\n\n", serde_json_cue(f64::from(*start) / 1000.0, f64::from(start + length) / 1000.0, &text))
            })
            .collect();
        let Ok(first) = TimedText::read_text(&format!("WEBVTT\n\n{written}"), None) else { return Ok(()) };
        let again = TimedText::read_text(&first.to_webvtt(), None).unwrap();
        prop_assert!(again.cautions.iter().all(|c| matches!(c.oddity, Oddity::Overlap)), "{:?}", again.cautions);
        prop_assert_eq!(first.cues.len(), again.cues.len());
        for (a, b) in first.cues.iter().zip(&again.cues) {
            prop_assert!((a.start_s - b.start_s).abs() < 0.0006 && (a.end_s - b.end_s).abs() < 0.0006);
            prop_assert_eq!(a.text.trim(), b.text.trim());
        }
    }
}

fn serde_json_cue(start_s: f64, end_s: f64, text: &str) -> String {
    let escaped = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    let stamp = |t: f64| format!("{:02}:{:06.3}", (t / 60.0) as u64, t % 60.0);
    format!("{} --> {}\n{escaped}", stamp(start_s), stamp(end_s))
}
