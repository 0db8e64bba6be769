//! Replacing what stands in for identifiers, digests and files in a line's payload.

use crate::pictures::Picture;
use crate::{DemoFault, LETTER};
use serde_json::{Map, Value};
use std::collections::HashMap;
use survey::{Digest, EntryId};

/// Stands for the digest of the field book as the writing device then has it.
const FIELD_BOOK: &str = "@the-field-book";

/// Stands for the digest of the letter to the client.
const THE_LETTER: &str = "@the-letter";

/// Replaces `@label` by the entry's name, `@the-field-book` and `@the-letter` by their digests, at any depth.
pub(crate) fn put_names(
    value: &mut Value,
    labels: &HashMap<String, EntryId>,
    field_book: Digest,
    line: usize,
) -> Result<(), DemoFault> {
    match value {
        Value::String(text) => {
            let Some(label) = text.strip_prefix('@') else { return Ok(()) };
            *text = match text.as_str() {
                FIELD_BOOK => field_book.to_string(),
                THE_LETTER => Digest::of(LETTER.as_bytes()).to_string(),
                _ => match labels.get(label) {
                    Some(id) => id.to_string(),
                    None => return Err(DemoFault::NoSuchLabel { line, label: label.to_owned() }),
                },
            };
            Ok(())
        }
        Value::Array(all) => all.iter_mut().try_for_each(|one| put_names(one, labels, field_book, line)),
        Value::Object(all) => all.values_mut().try_for_each(|one| put_names(one, labels, field_book, line)),
        _ => Ok(()),
    }
}

/// Replaces an attachment's `file` by its digest, length, media type and name, and returns the picture.
pub(crate) fn put_file(payload: &mut Map<String, Value>, line: usize) -> Result<Option<Picture>, DemoFault> {
    let Some(file) = payload.remove("file") else { return Ok(None) };
    let file = file.as_str().map_or_else(|| file.to_string(), str::to_owned);
    let Some(picture) = Picture::of_file(&file) else { return Err(DemoFault::NoSuchPicture { line, file }) };
    payload.insert("sha256".to_owned(), picture.digest.to_string().into());
    payload.insert("bytes".to_owned(), picture.bytes.len().into());
    payload.insert("media_type".to_owned(), picture.media_type.into());
    payload.insert("file_name".to_owned(), picture.file_name.into());
    Ok(Some(picture))
}
