//! Writing words so that XML can say them.

/// Writes words for the text of an element or the value of an attribute. What XML 1.0 cannot say, and marks that would
/// turn round the text about them, are shown by their number.
pub(super) fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len() + words.len() / 16);
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(c),
            c if hidden(c) => out.push_str(&format!("\u{27e8}U+{:04X}\u{27e9}", c as u32)),
            c => out.push(c),
        }
    }
    out
}

fn hidden(c: char) -> bool {
    let code = c as u32;
    c.is_control()
        || matches!(code, 0x200e | 0x200f | 0x202a..=0x202e | 0x2066..=0x2069 | 0xfff9..=0xfffb | 0xfffe | 0xffff)
}

/// Returns the words as paragraphs of lines: an empty line parts paragraphs, a line end parts lines.
pub(super) fn paragraphs(words: &str) -> Vec<Vec<String>> {
    let mut out: Vec<Vec<String>> = Vec::new();
    let mut lines: Vec<String> = Vec::new();
    for line in words
        .replace("\r\n", "\n")
        .replace(['\r', '\u{b}', '\u{c}', '\u{85}', '\u{2028}', '\u{2029}'], "\n")
        .split('\n')
    {
        if line.trim().is_empty() {
            if !lines.is_empty() {
                out.push(std::mem::take(&mut lines));
            }
        } else {
            lines.push(line.trim_end().to_owned());
        }
    }
    if !lines.is_empty() {
        out.push(lines);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_gets_out_of_its_place() {
        assert_eq!(escaped("<a b=\"c\">&\u{7}\u{202e}"), "&lt;a b=&quot;c&quot;&gt;&amp;⟨U+0007⟩⟨U+202E⟩");
        assert_eq!(paragraphs("a\nb\n\n\r\nc"), [vec!["a".to_owned(), "b".to_owned()], vec!["c".to_owned()]]);
    }
}
