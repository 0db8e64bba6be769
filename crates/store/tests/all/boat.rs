//! A small invented survey to keep.

use std::sync::atomic::{AtomicU64, Ordering};
use store::{Store, StoreFault, write_down};
use survey::payload::{Attachment, NotSeen, Payload};
use survey::{Digest, Entry, EntryId, Place, SurveyId};

pub const SURVEY: SurveyId = SurveyId::from_bits(7);
pub const NOON: u64 = 1_780_000_000_000;

/// Returns a name that no other entry of this run has.
pub fn name() -> EntryId {
    static NEXT: AtomicU64 = AtomicU64::new(1);
    EntryId::from_bits(u128::from(NEXT.fetch_add(1, Ordering::Relaxed)))
}

pub fn note(words: &str) -> Payload {
    Payload::from(NotSeen { member: "frame".into(), place: Place::default(), why: words.into(), needs: String::new() })
}

pub fn photograph(sha256: Digest, bytes: u64) -> Payload {
    Payload::from(Attachment {
        sha256,
        bytes,
        media_type: "image/jpeg".into(),
        file_name: "garboard.jpg".into(),
        caption: "Garboard, port side".into(),
        alternative: String::new(),
        of: None,
        taken: None,
        position_deg: None,
    })
}

/// Writes one entry.
pub fn write(store: &dyn Store, device: &str, payload: Payload) -> Result<Entry, StoreFault> {
    let mut written = write_down(store, SURVEY, "A. Surveyor", device, NOON, &[(name(), payload)])?;
    Ok(written.pop().expect("one was written"))
}

/// Puts an attachment and writes the entry that names it.
pub fn write_photograph(store: &dyn Store, device: &str, content: &[u8]) -> Result<Entry, StoreFault> {
    let kept = store.put_attachment(&mut &content[..], None)?;
    write(store, device, photograph(kept.sha256, kept.bytes))
}

/// Writes a survey by two devices with notes and two photographs.
pub fn fill(store: &dyn Store) {
    for n in 0..3 {
        write(store, "office", note(&format!("behind the tank, {n}"))).unwrap();
        write(store, "phone", note(&format!("under ballast, {n}"))).unwrap();
    }
    write_photograph(store, "phone", b"a picture of the garboard").unwrap();
    write_photograph(store, "phone", &[0xa5; 100_000]).unwrap();
}

pub fn digest(store: &dyn Store) -> Digest {
    store.state(SURVEY).unwrap().digest()
}

/// Returns all that the store keeps, to compare before and after.
pub fn everything(store: &dyn Store) -> (Vec<store::KeptEntry>, Vec<Digest>) {
    let entries = store.kept_since(None, store::Position::START, usize::MAX).unwrap();
    (entries, store.attachments_after(None, usize::MAX).unwrap())
}

#[track_caller]
pub fn fits(store: &dyn Store) {
    let verified = store::verify(store).unwrap();
    assert!(verified.fits(), "{:#?}", verified.misfits);
}
