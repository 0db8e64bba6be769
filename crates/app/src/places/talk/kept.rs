//! How a talk-through is kept: its words and its sound whole, and each entry tied to the moment at which it was said.

use crate::book::{Book, Workbench, new_id};
use crate::hearing::proposals::{Proposal, SOUND, WORDS, moment};
use leptos::prelude::*;
use survey::payload::{Attachment, Payload};
use survey::{Digest, EntryId, State};
use web_sys::Blob;

/// A talk-through in the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// The entry of its words.
    pub id: EntryId,
    /// The digest of its words.
    pub words: Digest,
    /// Their length in bytes.
    pub bytes: u64,
    /// The digest of its sound, when it has any.
    pub sound: Option<Digest>,
    /// The name of the file of its words.
    pub name: String,
}

/// Returns the talk-throughs of a survey, the newest last.
pub fn kept(state: &State) -> Vec<Kept> {
    state
        .attachments()
        .filter(|words| words.payload.caption.starts_with(WORDS))
        .map(|words| Kept {
            id: words.id(),
            words: words.payload.sha256,
            bytes: words.payload.bytes,
            sound: state
                .attachments_of(words.id())
                .find(|a| a.payload.caption.starts_with(SOUND))
                .map(|a| a.payload.sha256),
            name: words.payload.file_name.clone(),
        })
        .collect()
}

/// Keeps the words and the sound of a talk-through; one that is kept already is returned as it is.
///
/// # Errors
/// One sentence when they cannot be kept.
pub async fn keep(
    book: Book,
    bench: Workbench,
    words: (&Blob, &str),
    sound: Option<(&Blob, &str)>,
) -> Result<Kept, String> {
    let put = async |blob: &Blob, name: &str, caption: &str, of: Option<EntryId>| {
        let (sha256, bytes) = bench.keep().put_attachment(book.survey, blob).await.map_err(|f| f.to_string())?;
        Ok::<_, String>(Attachment {
            sha256,
            bytes,
            media_type: Some(blob.type_()).filter(|t| !t.is_empty()).unwrap_or_else(|| "text/plain".to_owned()),
            file_name: name.to_owned(),
            caption: caption.to_owned(),
            alternative: String::new(),
            of,
            taken: None,
            position_deg: None,
        })
    };
    let id = new_id();
    let of_words = put(words.0, words.1, WORDS, None).await?;
    let known = book.state.with_untracked(|state| kept(state).into_iter().find(|k| k.words == of_words.sha256));
    if let Some(known) = known.filter(|known| sound.is_none() || known.sound.is_some()) {
        return Ok(known);
    }
    let mut new = Kept { id, words: of_words.sha256, bytes: of_words.bytes, sound: None, name: words.1.to_owned() };
    let mut named = vec![(id, Payload::from(of_words))];
    if let Some((blob, name)) = sound {
        let of_sound = put(blob, name, SOUND, Some(id)).await?;
        new.sound = Some(of_sound.sha256);
        named.push((new_id(), of_sound.into()));
    }
    book.write_named(named, "The talk-through is kept.").await?;
    Ok(new)
}

/// Returns what ties an entry to its moment: said when, in which words.
fn tie(proposal: &Proposal, timed: bool) -> String {
    if timed {
        format!("Said from {} to {}: {}", moment(proposal.draft.start_s), moment(proposal.draft.end_s), proposal.heard)
    } else {
        format!("Said: {}", proposal.heard)
    }
}

/// Returns the payloads by which a proposal is entered, tied to the words kept.
pub fn entered(talk: &Kept, proposal: &Proposal, timed: bool, payload: Payload) -> [(EntryId, Payload); 2] {
    let id = new_id();
    let tied = Attachment {
        sha256: talk.words,
        bytes: talk.bytes,
        media_type: "text/plain".to_owned(),
        file_name: talk.name.clone(),
        caption: tie(proposal, timed),
        alternative: proposal.key(),
        of: Some(id),
        taken: None,
        position_deg: None,
    };
    [(id, payload), (new_id(), tied.into())]
}

/// Returns the entry that a proposal was accepted as, when it was and still stands.
pub fn accepted(state: &State, talk: &Kept, proposal: &Proposal) -> Option<EntryId> {
    let key = proposal.key();
    state
        .attachments()
        .filter(|a| a.payload.sha256 == talk.words && a.payload.alternative == key)
        .filter_map(|a| a.payload.of)
        .find(|of| state.record(*of).is_some_and(|record| !record.is_withdrawn()))
}

/// Returns the proposals of a talk-through that were refused in this browser, by their names.
pub async fn refused(bench: Workbench, talk: &Kept) -> Vec<String> {
    let text = bench.keep().setting(&setting(talk)).await.ok().flatten().unwrap_or_default();
    text.lines().map(str::to_owned).collect()
}

/// Keeps which proposals were refused. That it was refused is no part of the record: nothing was found out.
pub fn keep_refused(bench: Workbench, talk: &Kept, refused: &[String]) {
    let (name, text) = (setting(talk), refused.join("\n"));
    leptos::task::spawn_local(async move {
        if let Err(fault) = bench.keep().set_setting(&name, &text).await {
            bench.complain(fault.to_string());
        }
    });
}

fn setting(talk: &Kept) -> String {
    format!("refused of {}", talk.words)
}
