//! The little world the typesetter sees: our templates, one report's data, its pictures. No disk, network or clock.

use crate::fonts::fonts;
use std::collections::HashMap;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

/// Our templates, by the name under which they call one another.
const TEMPLATES: [(&str, &str); 11] = [
    ("main.typ", include_str!("../template/main.typ")),
    ("look.typ", include_str!("../template/look.typ")),
    ("said.typ", include_str!("../template/said.typ")),
    ("front.typ", include_str!("../template/front.typ")),
    ("summary.typ", include_str!("../template/summary.typ")),
    ("findings.typ", include_str!("../template/findings.typ")),
    ("reckoned.typ", include_str!("../template/reckoned.typ")),
    ("appendices.typ", include_str!("../template/appendices.typ")),
    ("evidence.typ", include_str!("../template/evidence.typ")),
    ("issue.typ", include_str!("../template/issue.typ")),
    ("sheet.typ", include_str!("../template/sheet.typ")),
];

/// Files of one report.
pub(crate) struct ReportWorld {
    library: LazyHash<Library>,
    main: FileId,
    sources: HashMap<FileId, Source>,
    files: HashMap<FileId, Bytes>,
}

impl ReportWorld {
    /// Returns the world with the given files beside our templates; none where a path cannot be one.
    pub(crate) fn new(files: impl IntoIterator<Item = (String, Vec<u8>)>) -> Option<Self> {
        Self::beginning("main.typ", files)
    }

    /// Returns the world whose document begins with another of our templates.
    pub(crate) fn beginning(main: &str, files: impl IntoIterator<Item = (String, Vec<u8>)>) -> Option<Self> {
        let sources = TEMPLATES
            .iter()
            .map(|(name, text)| file_id(name).map(|id| (id, Source::new(id, (*text).to_owned()))))
            .collect::<Option<HashMap<_, _>>>()?;
        let files = files
            .into_iter()
            .map(|(name, bytes)| file_id(&name).map(|id| (id, Bytes::new(bytes))))
            .collect::<Option<HashMap<_, _>>>()?;
        Some(Self { library: LazyHash::new(Library::builder().build()), main: file_id(main)?, sources, files })
    }
}

fn file_id(path: &str) -> Option<FileId> {
    Some(RootedPath::new(VirtualRoot::Project, VirtualPath::new(path).ok()?).intern())
}

impl World for ReportWorld {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &fonts().book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.get(&id).cloned().ok_or_else(|| FileError::Other(Some("no such template".into())))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(&id).cloned().ok_or_else(|| FileError::Other(Some("no such file".into())))
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts().list.get(index).cloned()
    }

    /// There is no clock: a report's dates come with its data.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
