//! Attachments: kept whole as blobs under their digest.

use super::database::{ATTACHMENTS, HOLDS, hashed};
use super::{Keep, KeepFault};
use js_sys::{Array, ArrayBuffer, Uint8Array};
use sha2::{Digest as _, Sha256};
use survey::{Digest, SurveyId};
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag};

/// How much is read and hashed at a time, so that the page goes on answering meanwhile.
const PIECE_BYTES: f64 = 1_048_576.0;

impl Keep {
    /// Keeps an attachment and returns its digest and length. It is sent before the first entry that names it.
    ///
    /// # Errors
    /// [`KeepFault::Full`]; [`KeepFault::Damaged`] when the file cannot be read.
    pub async fn put_attachment(&self, survey: SurveyId, blob: &Blob) -> Result<(Digest, u64), KeepFault> {
        // What is hashed is what is kept, even if the file changes meanwhile.
        let (sha256, blob) = read_whole(blob).await?;
        let transaction = self.writing(&[ATTACHMENTS, HOLDS]).await?;
        transaction.store(ATTACHMENTS)?.put(&blob, Some(&sha256.to_string().into()))?;
        transaction.store(HOLDS)?.put(&JsValue::NULL, Some(&hashed(survey, &sha256)))?;
        transaction.done().await?;
        Ok((sha256, blob.size() as u64))
    }

    /// Keeps an attachment that was fetched and whose digest was made sure of.
    pub(crate) async fn keep_fetched(&self, sha256: Digest, blob: &Blob) -> Result<(), KeepFault> {
        let transaction = self.writing(&[ATTACHMENTS]).await?;
        transaction.store(ATTACHMENTS)?.put(blob, Some(&sha256.to_string().into()))?;
        transaction.done().await
    }

    /// Returns an attachment that is kept here.
    pub async fn attachment(&self, sha256: Digest) -> Result<Option<Blob>, KeepFault> {
        let transaction = self.reading(&[ATTACHMENTS]).await?;
        let blob = transaction.store(ATTACHMENTS)?.get(JsValue::from(sha256.to_string()))?.await?;
        transaction.done().await?;
        Ok(blob.and_then(|blob| blob.dyn_into().ok()))
    }

    /// Tells whether an attachment is kept here.
    pub(crate) async fn has_attachment(&self, sha256: Digest) -> Result<bool, KeepFault> {
        let transaction = self.reading(&[ATTACHMENTS]).await?;
        let count = transaction.store(ATTACHMENTS)?.count(Some(JsValue::from(sha256.to_string()).into()))?.await?;
        transaction.done().await?;
        Ok(count > 0)
    }
}

/// Reads a blob whole and returns its digest and the same bytes, held by the browser.
pub(crate) async fn read_whole(blob: &Blob) -> Result<(Digest, Blob), KeepFault> {
    let (mut hasher, pieces, mut from) = (Sha256::new(), Array::new(), 0.0);
    while from < blob.size() {
        let piece = blob.slice_with_f64_and_f64(from, from + PIECE_BYTES)?;
        let buffer: ArrayBuffer = JsFuture::from(piece.array_buffer()).await?.dyn_into()?;
        hasher.update(Uint8Array::new(&buffer).to_vec());
        pieces.push(&buffer);
        from += PIECE_BYTES;
    }
    let kind = BlobPropertyBag::new();
    kind.set_type(&blob.type_());
    let whole = Blob::new_with_buffer_source_sequence_and_options(&pieces, &kind)?;
    Ok((Digest::from_bytes(hasher.finalize().into()), whole))
}
