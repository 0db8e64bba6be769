//! What is signed.

use crate::SealFault;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use survey::{Digest, SurveyId};

/// Version of the form in which a statement is signed and written.
pub const FORM: u32 = 1;

/// What a surveyor signs: which file, of which survey, from which field book.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Statement {
    /// Version of the form.
    pub form: u32,
    /// The survey.
    pub survey: SurveyId,
    /// Version of the report, from 1.
    pub version: u32,
    /// The day of issue.
    pub date: Date,
    /// Who signs.
    pub signed_by: String,
    /// Digest of the field book that the report was made from.
    pub field_book: Digest,
    /// SHA-256 of the file.
    pub sha256: Digest,
    /// Length of the file, in bytes.
    pub bytes: u64,
}

impl Statement {
    /// Returns the statement about a file.
    pub fn of(file: &[u8], survey: SurveyId, version: u32, date: Date, signed_by: &str, field_book: Digest) -> Self {
        Self {
            form: FORM,
            survey,
            version,
            date,
            signed_by: signed_by.trim().to_owned(),
            field_book,
            sha256: Digest::of(file),
            bytes: u64::try_from(file.len()).unwrap_or(u64::MAX),
        }
    }

    /// Returns the bytes that are signed: one line a field, each ended by a line feed, so that no two statements have the
    /// same bytes.
    pub(crate) fn message(&self) -> Result<Vec<u8>, SealFault> {
        if self.form != FORM {
            return Err(SealFault::Form(self.form));
        }
        if self.signed_by.is_empty() || self.signed_by.chars().any(char::is_control) {
            return Err(SealFault::Name);
        }
        let Self { form, survey, version, date, signed_by, field_book, sha256, bytes } = self;
        Ok(format!(
            "ribband report seal {form}\nsurvey {survey}\nversion {version}\ndate {date}\nsigned by {signed_by}\n\
             field book {field_book}\nfile {sha256}\nbytes {bytes}\n"
        )
        .into_bytes())
    }
}
