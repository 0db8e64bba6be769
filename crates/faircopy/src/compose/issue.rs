//! What a report says of its own issue: standing, certificate, what changed since the version before.

use super::wording::{day, ended, listed, moment, sentence_case};
use super::{Extras, Numbers};
use crate::{Certificate, Change as Version, Changes, Row, Standing};
use jiff::civil::Date;
use survey::payload::{Against, ReportIssued};
use survey::{Change, State, View, changes_since, checks};

/// What is settled when a report is issued, and is not yet in the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Issuing {
    /// Version, from 1.
    pub version: u32,
    /// The day.
    pub date: Date,
    /// To whom it goes.
    pub addressees: Vec<String>,
    /// What changed since the version before, in the surveyor's words; may be empty.
    pub changes: String,
    /// Who signs.
    pub signed_by: String,
    /// The surveyor's public key, 64 hexadecimal digits.
    pub public_key: String,
    /// SHA-256 of the picture of the signature drawn by hand, when there is one.
    pub hand: Option<String>,
    /// Checks that were overruled, with reasons.
    pub against: Vec<Against>,
}

fn last_issued(state: &State) -> Option<View<'_, ReportIssued>> {
    state.reports_issued().max_by_key(|r| r.payload.version)
}

/// Returns draft or issued.
pub(super) fn standing(extras: &Extras<'_>) -> Standing {
    match extras.issuing {
        Some(issuing) => Standing::Issued { version: issuing.version, date: day(issuing.date) },
        None => extras.standing.clone(),
    }
}

/// Says in words whether the report is issued; a draft after an issue says which version is out.
pub(super) fn standing_words(state: &State, standing: &Standing) -> String {
    match standing {
        Standing::Issued { version, date } => format!("Version {version}, issued {date}"),
        Standing::Draft => match last_issued(state) {
            Some(last) => format!("Draft, later than version {} of {}", last.payload.version, day(last.payload.date)),
            None => "Draft, not issued".to_owned(),
        },
    }
}

/// Says when the report was made: its day of issue, or how far the field book goes of which it is a draft.
pub(super) fn dated(state: &State, standing: &Standing) -> String {
    match standing {
        Standing::Issued { date, .. } => format!("of {date}"),
        Standing::Draft if state.is_empty() => String::new(),
        Standing::Draft => format!("not issued; made from the field book as of {}", moment(state.latest())),
    }
}

/// Returns the certificate page of a report that is being issued.
pub(super) fn certificate(state: &State, extras: &Extras<'_>) -> Option<Certificate> {
    let issuing = extras.issuing?;
    let name = state.vessel().map(|v| v.payload.name.clone()).unwrap_or_default();
    let row = |label: &str, value: String| (!value.trim().is_empty()).then(|| Row::new(label, value));
    let rows = [
        row("Vessel", name),
        row("Version", issuing.version.to_string()),
        row("Issued", day(issuing.date)),
        row("Issued to", listed(&issuing.addressees)),
        row("Signed by", issuing.signed_by.clone()),
        row("Survey", state.survey().to_string()),
    ];
    let words = vec![
        "This file is signed beside itself: a small file of the same name ending in .sig holds the signature (Ed25519, RFC 8032) over the file's SHA-256, the digest of the field book, version, day and name. One changed byte in the file, and the signature no longer fits.".to_owned(),
        "Whoever holds the report, the signature file and the surveyor's public key can check them by this command, with the names of their own files:".to_owned(),
        "ribband verify report.pdf --public-key surveyor.pub".to_owned(),
        "The key printed above helps to find the right one; have the key itself from the surveyor by another way than this file.".to_owned(),
        "The signature says who issued this file and that it is unchanged. It does not say that the conclusions are right, and it does not prove the hour of signing.".to_owned(),
    ];
    let against = issuing.against.iter().map(|a| {
        let asks = checks::rule(&a.rule).map_or(a.rule.as_str(), |rule| rule.asks);
        let many = if a.found == 1 { "one place".to_owned() } else { format!("{} places", a.found) };
        Row::new(asks.to_owned(), format!("Not met at {many}. The surveyor's reason: {}", ended(&a.reason)))
    });
    let against: Vec<Row> = against.collect();
    Some(Certificate {
        rows: rows.into_iter().flatten().collect(),
        entries: u64::try_from(state.len()).unwrap_or(u64::MAX),
        sha256: state.digest().to_string(),
        public_key: issuing.public_key.clone(),
        words,
        against,
    })
}

/// Returns what changed since the version that went out last.
pub(super) fn changes(state: &State, numbers: &Numbers<'_>, extras: &Extras<'_>) -> Option<Changes> {
    let last = last_issued(state)?;
    let since = format!("Since version {}, issued on {}:", last.payload.version, day(last.payload.date));
    let Some(then) = state.as_issued(&last) else {
        let lines = vec![Row::new(
            "Not told",
            "What that version was made from cannot be made out of this field book, so that nothing is said of what changed.",
        )];
        return Some(Changes { since, lines });
    };
    let said = extras.issuing.map(|issuing| issuing.changes.trim()).filter(|words| !words.is_empty());
    let mut lines: Vec<Row> = said.map(|words| Row::new("In short", ended(words))).into_iter().collect();
    for changed in changes_since(&then, state) {
        let verb = match changed.change {
            Change::Added => "added",
            Change::Amended => "amended",
            Change::Withdrawn => "withdrawn",
        };
        let (what, number) = match changed.kind.as_str() {
            "finding" => ("Finding", numbers.findings.get(&changed.id)),
            "recommendation" => ("Recommendation", numbers.recommendations.get(&changed.id)),
            "not_seen" => ("Not seen", None),
            "estimate_line" => ("Line of the estimate", None),
            "opinion_of_value" => ("Opinion of value", None),
            _ => ("Follow-up", None),
        };
        let number = number.map(|n| format!(" {n}")).unwrap_or_default();
        let why =
            if changed.why.is_empty() { String::new() } else { format!(" Why: {}", ended(&changed.why.join("; "))) };
        lines.push(Row::new(
            format!("{what}{number} {verb}"),
            format!("{}{why}", ended(&sentence_case(&changed.title))),
        ));
    }
    if lines.is_empty() {
        lines.push(Row::new("Nothing", "No finding, recommendation, estimate or value has changed."));
    }
    Some(Changes { since, lines })
}

/// Puts the version that is being issued at the end of the table of versions.
pub(super) fn put_version(extras: &Extras<'_>, versions: &mut Vec<Version>) {
    let Some(issuing) = extras.issuing else { return };
    let said = issuing.changes.trim();
    let change = match (said.is_empty(), versions.is_empty()) {
        (false, _) => said.to_owned(),
        (true, true) => "First issue.".to_owned(),
        (true, false) => "See what changed since the version before.".to_owned(),
    };
    versions.push(Version {
        version: issuing.version.to_string(),
        date: day(issuing.date),
        change,
        told: listed(&issuing.addressees),
    });
}
