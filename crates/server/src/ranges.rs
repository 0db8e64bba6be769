//! Ranges of bytes (RFC 9110, section 14).

/// What a request asks of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// All of it: no range was given, or one that is to be passed over.
    Whole,
    /// From one byte up to, and without, another.
    Part(u64, u64),
    /// Bytes that are not there.
    Nothing,
}

/// Reads a `Range` header against the length of the file. What is malformed, not in bytes or of several parts is
/// passed over, as section 14.2 allows.
pub fn wanted(header: Option<&str>, length: u64) -> Wanted {
    header.and_then(|header| read(header, length)).unwrap_or(Wanted::Whole)
}

fn read(header: &str, length: u64) -> Option<Wanted> {
    let (unit, set) = header.split_once('=')?;
    if !unit.trim().eq_ignore_ascii_case("bytes") {
        return None;
    }
    let (first, last) = set.split_once('-')?;
    let (from, to) = match (first.trim(), last.trim()) {
        ("", suffix) => (length.saturating_sub(number(suffix)?), length),
        (first, "") => (number(first)?, length),
        (first, last) => {
            let (first, last) = (number(first)?, number(last)?);
            if last < first {
                return None;
            }
            (first, last.saturating_add(1).min(length))
        }
    };
    Some(if from < to { Wanted::Part(from, to) } else { Wanted::Nothing })
}

/// Reads a whole number; one beyond counting is as good as the greatest.
fn number(text: &str) -> Option<u64> {
    let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    digits.then(|| text.parse().unwrap_or(u64::MAX))
}

#[cfg(test)]
mod tests {
    use super::Wanted::{Nothing, Part, Whole};
    use super::wanted;

    #[test]
    fn ranges_are_read_as_rfc_9110_writes_them() {
        // RFC 9110, section 14.1.2: the examples of byte ranges, for a representation of 10000 bytes.
        let cases = [
            ("bytes=0-499", Part(0, 500)),
            ("bytes=500-999", Part(500, 1000)),
            ("bytes=-500", Part(9500, 10_000)),
            ("bytes=9500-", Part(9500, 10_000)),
            // The same section: a last position beyond the end means the end, a suffix longer than the whole the whole.
            ("bytes=9000-20000", Part(9000, 10_000)),
            ("bytes=-20000", Part(0, 10_000)),
            ("bytes=0-99999999999999999999999", Part(0, 10_000)),
            // The same section: unsatisfiable when it begins beyond the end, or the suffix is of length 0.
            ("bytes=10000-", Nothing),
            ("bytes=-0", Nothing),
            // Section 14.1.1: invalid when the last position is before the first; invalid ones are passed over.
            ("bytes=5-2", Whole),
            ("bytes=+1-2", Whole),
            ("bytes=", Whole),
            ("bytes=-", Whole),
            ("0-499", Whole),
            // Section 14.2: several parts and unknown units may be passed over. Section 14.1: units in any case.
            ("bytes=0-0,-1", Whole),
            ("lines=1-2", Whole),
            ("Bytes=0-0", Part(0, 1)),
        ];
        for (header, expected) in cases {
            assert_eq!(wanted(Some(header), 10_000), expected, "{header}");
        }
        assert_eq!(wanted(None, 10_000), Whole);
        assert_eq!(wanted(Some("bytes=0-"), 0), Nothing);
    }
}
