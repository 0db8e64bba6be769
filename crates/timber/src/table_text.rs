//! Reading the embedded tables, which are our own and plain: one header line, commas, quotes where a field has commas.

/// Returns the rows below the header, each field trimmed of its quotes.
pub(crate) fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines().skip(1).filter(|line| !line.trim().is_empty()).map(fields)
}

fn fields(line: &'static str) -> Vec<&'static str> {
    let mut found = Vec::new();
    let mut rest = line;
    loop {
        let (field, after) = match rest.strip_prefix('"').and_then(|inner| inner.split_once('"')) {
            Some((field, after)) => (field, after.strip_prefix(',')),
            None => match rest.split_once(',') {
                Some((field, after)) => (field, Some(after)),
                None => (rest, None),
            },
        };
        found.push(field);
        match after {
            Some(after) => rest = after,
            None => return found,
        }
    }
}
