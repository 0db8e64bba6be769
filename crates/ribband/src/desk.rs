//! The desk: the folder with the surveys, who writes, and on which device.

use crate::fault::Fault;
use crate::time::{new_entry_id, now_ms};
use serde::{Deserialize, Serialize};
use std::fs;
use std::path::{Path, PathBuf};
use store::{SqliteStore, Store as _, StoreFault};
use survey::payload::Payload;
use survey::{Digest, Draft, Entry, EntryId, State, SurveyId};

/// A payload about to be written, with its identifier when one was chosen beforehand.
pub struct Planned {
    /// The identifier chosen beforehand.
    pub id: Option<EntryId>,
    /// What is written.
    pub payload: Payload,
}

/// A file that is now kept as an attachment.
pub struct KeptFile {
    /// Its digest.
    pub digest: Digest,
    /// Its length in bytes.
    pub bytes: u64,
}

/// Who writes here, kept beside the surveys in `desk.json`.
#[derive(Default, Serialize, Deserialize)]
struct Writer {
    author: Option<String>,
    device: Option<String>,
}

/// A folder with surveys, and who writes in it.
pub struct Desk {
    folder: PathBuf,
    store: SqliteStore,
    writer: Writer,
}

impl Desk {
    /// Opens the folder, or the user's data folder when none is named, in which there must be a field book.
    pub fn open(folder: Option<&Path>) -> Result<Self, Fault> {
        let folder = Self::folder_of(folder)?;
        if !folder.exists() {
            let folder = folder.display();
            return Err(Fault::input(format!("there is no survey yet in {folder}; `ribband create` opens one")));
        }
        Self::open_or_make(Some(&folder))
    }

    /// Opens the folder as [`Desk::open`] does; where its disk cannot be written to, opens it to read only.
    pub fn open_to_read(folder: Option<&Path>) -> Result<Self, Fault> {
        let folder = Self::folder_of(folder)?;
        if !folder.exists() {
            return Self::open(Some(&folder));
        }
        let store = match SqliteStore::open(&folder) {
            Err(StoreFault::ReadOnly { .. }) => SqliteStore::open_to_read(&folder),
            opened => opened,
        };
        Ok(Self::with(folder, store.map_err(Fault::undone)?))
    }

    /// Opens the folder as [`Desk::open`] does; makes it when it is not there.
    pub fn open_or_make(folder: Option<&Path>) -> Result<Self, Fault> {
        let folder = Self::folder_of(folder)?;
        let store = SqliteStore::open(&folder).map_err(Fault::undone)?;
        Ok(Self::with(folder, store))
    }

    fn with(folder: PathBuf, store: SqliteStore) -> Self {
        let writer = match fs::read_to_string(folder.join("desk.json")) {
            Ok(text) => serde_json::from_str(&text).unwrap_or_default(),
            Err(_) => Writer::default(),
        };
        Self { folder, store, writer }
    }

    fn folder_of(named: Option<&Path>) -> Result<PathBuf, Fault> {
        use etcetera::BaseStrategy as _;
        match named {
            Some(folder) => Ok(folder.to_owned()),
            None => etcetera::choose_base_strategy()
                .map(|dirs| dirs.data_dir().join("ribband"))
                .map_err(|_| Fault::input("there is no home folder; name a folder with --folder")),
        }
    }

    /// Returns the folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Returns the survey of the same boat that a survey follows, where it says so and that one is here.
    pub fn before(&self, state: &State) -> Result<Option<State>, Fault> {
        let Some(after) = state.brief().and_then(|brief| brief.payload.after) else { return Ok(None) };
        if !self.surveys()?.contains(&after) {
            return Ok(None);
        }
        self.state(after).map(Some)
    }

    /// Returns the store.
    pub fn store(&self) -> &SqliteStore {
        &self.store
    }

    /// Gives the store away, to be served.
    pub fn into_store(self) -> SqliteStore {
        self.store
    }

    /// Returns who writes: the one named, or the one remembered; remembers one that is named.
    pub fn author(&mut self, named: Option<&str>) -> Result<String, Fault> {
        let named = named.map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned);
        if let Some(author) = named {
            if self.writer.author.is_none() {
                self.writer.author = Some(author.clone());
                self.remember()?;
            }
            return Ok(author);
        }
        let remembered = self.writer.author.clone();
        remembered.ok_or_else(|| Fault::input("it is not known who writes; say so once with --author 'A. Surveyor'"))
    }

    /// Returns this device's name in this folder, choosing one the first time.
    fn device(&mut self) -> Result<String, Fault> {
        if let Some(device) = &self.writer.device {
            return Ok(device.clone());
        }
        let drawn = uuid::Uuid::new_v4().simple().to_string();
        let device = format!("desk-{}", &drawn[..8]);
        self.writer.device = Some(device.clone());
        self.remember()?;
        Ok(device)
    }

    fn remember(&self) -> Result<(), Fault> {
        let text = serde_json::to_string_pretty(&self.writer).map_err(Fault::undone)?;
        let path = self.folder.join("desk.json");
        let new = self.folder.join("desk.json.new");
        let write = || fs::write(&new, text).and_then(|()| fs::rename(&new, &path));
        write().map_err(|e| Fault::undone(format!("{} cannot be written ({e})", path.display())))
    }

    /// Returns an identifier for a new survey.
    pub fn new_survey(&self) -> SurveyId {
        SurveyId::new(uuid::Uuid::now_v7())
    }

    /// Returns the surveys in the folder, the earliest first.
    pub fn surveys(&self) -> Result<Vec<SurveyId>, Fault> {
        Ok(self.store.surveys().map_err(Fault::undone)?.into_iter().map(|kept| kept.survey).collect())
    }

    /// Returns what a survey says now.
    pub fn state(&self, survey: SurveyId) -> Result<State, Fault> {
        self.store.state(survey).map_err(Fault::undone)
    }

    /// Returns the survey named, or the only one.
    pub fn choose(&self, named: Option<&str>) -> Result<SurveyId, Fault> {
        let surveys = self.surveys()?;
        let Some(named) = named else {
            return match surveys.as_slice() {
                [one] => Ok(*one),
                [] => Err(Fault::input("there is no survey yet; `ribband create` opens one")),
                _ => Err(Fault::input(format!(
                    "there are {} surveys here; name one with --survey (`ribband list` shows them)",
                    surveys.len()
                ))),
            };
        };
        let wanted = named.trim().to_lowercase();
        let mut found: Vec<SurveyId> =
            surveys.iter().copied().filter(|s| s.to_string() == wanted || s.short().ends_with(&wanted)).collect();
        if found.is_empty() {
            for survey in surveys {
                let state = self.state(survey)?;
                let name = state.vessel().map(|v| v.payload.name.to_lowercase()).unwrap_or_default();
                if !wanted.is_empty() && name.starts_with(&wanted) {
                    found.push(survey);
                }
            }
        }
        match found.as_slice() {
            [one] => Ok(*one),
            [] => {
                Err(Fault::input(format!("--survey {named}: no survey here is called that; `ribband list` shows them")))
            }
            _ => {
                Err(Fault::input(format!("--survey {named}: {} surveys fit; name one by its identifier", found.len())))
            }
        }
    }

    /// Returns the entry named: its identifier, the end of it, or `LAST` for the latest that is no attachment.
    pub fn find(state: &State, named: &str) -> Result<EntryId, Fault> {
        let wanted = named.trim();
        if wanted == "LAST" {
            // A photograph belongs to what it shows; whoever says LAST means what was found, not its picture.
            let entries = state.entries();
            let last = entries.iter().rev().find(|entry| entry.kind() != "attachment").map(|entry| entry.id);
            return last.ok_or_else(|| Fault::input("LAST: there is no entry yet"));
        }
        let wanted = wanted.to_lowercase();
        let long_enough = wanted.len() >= 4;
        let found: Vec<EntryId> = state
            .entries()
            .iter()
            .map(|entry| entry.id)
            .filter(|id| id.to_string() == wanted || (long_enough && id.short().ends_with(&wanted)))
            .collect();
        match found.as_slice() {
            [one] => Ok(*one),
            [] => Err(Fault::input(format!(
                "`{named}` is no entry of this survey; accepted is an identifier, at least the last four of its digits, or LAST"
            ))),
            _ => Err(Fault::input(format!("`{named}` fits {} entries; name one by more of its digits", found.len()))),
        }
    }

    /// Writes entries, all or none: first each is held against the survey as it will be by then.
    pub fn write(&mut self, survey: SurveyId, author: &str, planned: &[Planned]) -> Result<Vec<Entry>, Fault> {
        let device = self.device()?;
        let mut state = self.state(survey)?;
        let mut named: Vec<(EntryId, Payload)> = Vec::with_capacity(planned.len());
        // A rehearsal on a copy of the state, so that later lines may name earlier ones.
        let mut rehearsal = survey::Pen::new(survey, author, device.clone()).after(None, state.latest());
        for (n, one) in planned.iter().enumerate() {
            let place =
                if planned.len() > 1 { format!("entry {} of {}: ", n + 1, planned.len()) } else { String::new() };
            state.admits(&one.payload).map_err(|fault| Fault::input(format!("{place}{fault}")))?;
            let id = one.id.unwrap_or_else(new_entry_id);
            if state.entry(id).is_some() {
                return Err(Fault::input(format!("{place}there is an entry {id} already")));
            }
            state.take(rehearsal.write(id, now_ms(), &one.payload));
            named.push((id, one.payload.clone()));
        }
        store::write_down(&self.store, survey, author, &device, now_ms(), &named).map_err(Fault::undone)
    }

    /// Keeps a file as an attachment.
    pub fn keep_file(&self, path: &Path) -> Result<KeptFile, Fault> {
        let mut file = fs::File::open(path).map_err(|e| Fault::input(format!("{}: {e}", path.display())))?;
        let kept = self.store.put_attachment(&mut file, None).map_err(Fault::undone)?;
        Ok(KeptFile { digest: kept.sha256, bytes: kept.bytes })
    }
}

impl From<Draft> for Planned {
    fn from(draft: Draft) -> Self {
        Self { id: draft.id, payload: draft.payload }
    }
}
