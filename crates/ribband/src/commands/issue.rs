//! `ribband issue`, and the same for the workbench in the browser: a version of the report goes out, frozen and signed.

use super::check::{shortfalls, told};
use super::{print, print_json, write_whole};
use crate::arguments::{IssueArgs, LookArgs};
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use crate::key::surveyors_key;
use crate::style::{Look, look};
use crate::time::{new_entry_id, today};
use report::Issuing;
use seal::{Seal, Statement};
use serde_json::json;
use server::Wanted;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use store::Store as _;
use survey::checks::{Shortfall, Weight, rule, rules, stops};
use survey::payload::{Against, Attachment, Issue, ReportIssued};
use survey::{Digest, EntryId, State};

/// The rule that a picture which cannot be printed offends too.
const PICTURES: &str = "attachments-at-hand";

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &IssueArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let survey = desk.choose(args.of.as_deref().or(chosen))?;
    let state = desk.state(survey)?;
    let reasons = reasons(&args.against)?;
    let look = look(desk.folder(), &args.look)?;
    let wish = Wish {
        reasons: &reasons,
        addressees: &args.to,
        changes: &args.changes,
        date: args.date.unwrap_or_else(today),
        signature: args.signature_image.as_deref(),
        look: &look,
    };
    let found = shortfalls(desk, survey, &state)?;
    let stopping: Vec<Shortfall> = stops(&found, &reasons).into_iter().cloned().collect();
    if !stopping.is_empty() {
        told(&stopping)?;
        return Err(Fault::undone(format!(
            "the report is not issued: {} {} it; mend them, or overrule a check with --against NAME=REASON",
            stopping.len(),
            if stopping.len() == 1 { "thing stops" } else { "things stop" }
        )));
    }
    let frozen = freeze(desk, survey, &state, &found, &wish)?;
    let out = args.out.clone().unwrap_or_else(|| named(&state, frozen.issuing.version));
    let beside = seal_path(&out);
    if let Some(there) = [&out, &beside].into_iter().find(|path| path.exists()) {
        return Err(Fault::input(format!("{} is there already; name another place with --out", there.display())));
    }
    let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    // Kept first, then written down, then handed out: whatever fails later, what is on record is kept.
    let (_, entries) = write_down(desk, survey, &state, &author, &frozen, [name(&out), name(&beside)])?;
    let Frozen { bytes, pages, seal, field_book, issuing, .. } = frozen;
    write_whole(&out, &bytes)?;
    write_whole(&beside, seal.text().as_bytes())?;
    if as_json {
        return print_json(&json!({
            "survey": survey.to_string(), "version": issuing.version, "date": issuing.date.to_string(),
            "file": out.display().to_string(), "signature": beside.display().to_string(),
            "sha256": seal.statement.sha256, "field_book": field_book, "public_key": seal.public_key,
            "pages": pages, "against": issuing.against,
            "entries": entries.iter().map(ToString::to_string).collect::<Vec<_>>(),
        }));
    }
    print(&format!(
        "{}: version {} of {}, {pages} pages, signed by {}; its signature is {}.",
        out.display(),
        issuing.version,
        issuing.date,
        issuing.signed_by,
        beside.display()
    ))?;
    for a in &issuing.against {
        print(&format!("Issued against {} ({} found): {}", a.rule, a.found, a.reason))?;
    }
    print(
        "Whoever gets it checks it with `ribband verify REPORT --public-key FILE`; `ribband key --out FILE` writes the key for them.",
    )
}

/// Issues reports for the workbench in the browser, with the key and the style of the desk's folder.
#[derive(Debug)]
pub struct DeskIssuer {
    /// The folder of the surveys.
    pub folder: PathBuf,
}

impl server::Issuer for DeskIssuer {
    fn issue(
        &self,
        survey: survey::SurveyId,
        wish: &server::IssueWish,
    ) -> Result<server::IssuedNow, server::IssueRefused> {
        self.issue_it(survey, wish).map_err(|fault| match fault {
            Fault::Input(why) => server::IssueRefused::NotAccepted(sentence(&why)),
            other => server::IssueRefused::Undone(sentence(&other.to_string())),
        })
    }
}

fn sentence(words: &str) -> String {
    let mut letters = words.trim().trim_end_matches('.').chars();
    let first: String = letters.next().map(|first| first.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

impl DeskIssuer {
    fn issue_it(&self, survey: survey::SurveyId, wish: &server::IssueWish) -> Result<server::IssuedNow, Fault> {
        let author = wish.author.trim();
        if author.is_empty() {
            return Err(Fault::input("it is not said who issues the report"));
        }
        let mut desk = Desk::open(Some(&self.folder))?;
        if !desk.surveys()?.contains(&survey) {
            return Err(Fault::input("there is no such survey here"));
        }
        let state = desk.state(survey)?;
        let against: Vec<String> = wish.against.iter().map(|(rule, reason)| format!("{rule}={reason}")).collect();
        let reasons = reasons(&against)?;
        let look = look(&self.folder, &LookArgs { paper: None, imperial_first: false, style: None })?;
        let found = shortfalls(&desk, survey, &state)?;
        let stopping = stops(&found, &reasons);
        if let Some(first) = stopping.first() {
            let more = if stopping.len() > 1 { format!(" (and {} more)", stopping.len() - 1) } else { String::new() };
            return Err(Fault::input(format!(
                "the report is not issued: {}{more}; mend it, or overrule the check {} with a reason",
                first.words.trim_end_matches('.'),
                first.rule.name
            )));
        }
        let wish = Wish {
            reasons: &reasons,
            addressees: &wish.addressees,
            changes: &wish.changes,
            date: today(),
            signature: None,
            look: &look,
        };
        let frozen = freeze(&desk, survey, &state, &found, &wish)?;
        let file = named(&state, frozen.issuing.version);
        let names = [file.display().to_string(), seal_path(&file).display().to_string()];
        let (entry, _) = write_down(&mut desk, survey, &state, author, &frozen, names)?;
        Ok(server::IssuedNow {
            version: frozen.issuing.version,
            entry,
            sha256: frozen.seal.statement.sha256,
            pages: frozen.pages,
        })
    }
}

/// How a report is to go out.
struct Wish<'a> {
    reasons: &'a BTreeMap<String, String>,
    addressees: &'a [String],
    changes: &'a str,
    date: jiff::civil::Date,
    signature: Option<&'a Path>,
    look: &'a Look,
}

/// A report set and signed, and not yet on record.
struct Frozen {
    bytes: Vec<u8>,
    pages: usize,
    field_book: Digest,
    issuing: Issuing,
    seal: Seal,
    hand: Option<Attachment>,
}

/// Sets and signs the next version of the report. Nothing is written down yet.
fn freeze(
    desk: &Desk,
    survey: survey::SurveyId,
    state: &State,
    found: &[Shortfall],
    wish: &Wish<'_>,
) -> Result<Frozen, Fault> {
    let signed_by = signer(state, &wish.look.style.surveyor)?;
    let key = surveyors_key(desk.folder())?;
    let hand = wish.signature.or(wish.look.signature.as_deref());
    let hand = hand.map(|file| kept_picture(desk, file)).transpose()?.map(|(attachment, _)| attachment);
    let version = 1 + state.reports_issued().map(|r| r.payload.version).max().unwrap_or(0);
    let of_brief = || state.brief().map(|b| b.payload.addressees.clone()).unwrap_or_default();
    let issuing = Issuing {
        version,
        date: wish.date,
        addressees: if wish.addressees.is_empty() { of_brief() } else { wish.addressees.to_vec() },
        changes: wish.changes.trim().to_owned(),
        signed_by,
        public_key: key.public().to_string(),
        hand: hand.as_ref().map(|attachment| attachment.sha256.to_string()),
        against: overruled(found, wish.reasons),
    };
    let before = desk.before(state)?;
    let wanted = Wanted {
        paper: wish.look.paper,
        first: wish.look.first,
        style: Some(&wish.look.style),
        issuing: Some(&issuing),
        before: before.as_ref(),
    };
    let written = server::write_wanted(desk.store(), state, &wanted).map_err(Fault::undone)?;
    if let Some((sha256, why)) = written.pdf.picture_faults.first().filter(|_| !wish.reasons.contains_key(PICTURES)) {
        return Err(Fault::undone(format!(
            "the report is not issued: picture {} could not be printed ({why}); mend it, or overrule the check with --against {PICTURES}=REASON",
            &sha256[..12.min(sha256.len())]
        )));
    }
    let bytes = written.pdf.bytes;
    let statement = Statement::of(&bytes, survey, version, issuing.date, &issuing.signed_by, written.field_book);
    let seal = Seal::made(statement, &key).map_err(Fault::undone)?;
    Ok(Frozen { bytes, pages: written.pdf.pages, field_book: written.field_book, issuing, seal, hand })
}

/// Keeps the bytes and the signature, and writes down that the report went out. Returns the entry that says so, and all
/// that were written.
fn write_down(
    desk: &mut Desk,
    survey: survey::SurveyId,
    state: &State,
    author: &str,
    frozen: &Frozen,
    names: [String; 2],
) -> Result<(EntryId, Vec<EntryId>), Fault> {
    let Frozen { bytes, field_book, issuing, seal, hand, .. } = frozen;
    let issued = new_entry_id();
    let mut planned = vec![Planned {
        id: Some(issued),
        payload: ReportIssued {
            version: issuing.version,
            date: issuing.date,
            field_book: *field_book,
            sha256: seal.statement.sha256,
            addressees: issuing.addressees.clone(),
            changes: issuing.changes.clone(),
            issue: Some(Issue {
                heads: state.heads(),
                against: issuing.against.clone(),
                signed_by: issuing.signed_by.clone(),
                public_key: seal.public_key.clone(),
                signature: seal.signature.clone(),
            }),
        }
        .into(),
    }];
    let [report, signature] = names;
    let title = format!("The report, version {}, as it went out", issuing.version);
    let under = format!("The signature under it, version {}", issuing.version);
    planned.push(kept(desk, issued, bytes, "application/pdf", report, title)?);
    planned.push(kept(desk, issued, seal.text().as_bytes(), "application/json", signature, under)?);
    planned.extend(hand.clone().map(|mut attachment| {
        attachment.of = Some(issued);
        attachment.caption = format!("Signature of {}, drawn by hand.", issuing.signed_by);
        Planned { id: None, payload: attachment.into() }
    }));
    let entries = desk.write(survey, author, &planned)?;
    Ok((issued, entries.iter().map(|entry| entry.id).collect()))
}

/// Reads `NAME=REASON`.
fn reasons(against: &[String]) -> Result<BTreeMap<String, String>, Fault> {
    let mut out = BTreeMap::new();
    for one in against {
        let (name, reason) = one
            .split_once('=')
            .map(|(name, reason)| (name.trim(), reason.trim()))
            .filter(|(_, reason)| !reason.is_empty())
            .ok_or_else(|| Fault::input(format!("--against {one}: accepted is NAME=REASON, with a reason")))?;
        if rule(name).is_none_or(|rule| rule.weight != Weight::Blocks) {
            let names: Vec<&str> = rules().filter(|r| r.weight == Weight::Blocks).map(|r| r.name).collect();
            return Err(Fault::input(format!(
                "--against {name}: no check of that name stops an issue; accepted are {}",
                names.join(", ")
            )));
        }
        out.insert(name.to_owned(), reason.to_owned());
    }
    Ok(out)
}

/// Returns the checks that were overruled and did find something: a reason for nothing is not printed.
fn overruled(found: &[Shortfall], reasons: &BTreeMap<String, String>) -> Vec<Against> {
    let one = |(name, reason): (&String, &String)| {
        let count = found.iter().filter(|s| s.rule.name == name).count();
        let found = u32::try_from(count).unwrap_or(u32::MAX);
        (found > 0).then(|| Against { rule: name.clone(), found, reason: reason.clone() })
    };
    reasons.iter().filter_map(one).collect()
}

fn signer(state: &State, of_style: &str) -> Result<String, Fault> {
    let of_brief = state.brief().map(|b| b.payload.surveyor.trim().to_owned()).unwrap_or_default();
    let name = if of_brief.is_empty() { of_style.trim().to_owned() } else { of_brief };
    if name.is_empty() {
        return Err(Fault::input("nobody signs: the brief names no surveyor, nor does the style"));
    }
    Ok(name)
}

/// Keeps the picture of a signature, and tells what it is.
fn kept_picture(desk: &Desk, file: &Path) -> Result<(Attachment, u64), Fault> {
    let bytes = std::fs::read(file).map_err(|why| Fault::input(format!("{}: {why}", file.display())))?;
    let media_type = infer::get(&bytes).map_or("", |kind| kind.mime_type());
    if !["image/png", "image/jpeg"].contains(&media_type) {
        return Err(Fault::input(format!("{}: accepted is a PNG or JPEG picture of a signature", file.display())));
    }
    let kept = desk.store().put_attachment(&mut &bytes[..], None).map_err(Fault::undone)?;
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    Ok((attachment(kept.sha256, kept.bytes, media_type, name, None, String::new()), kept.bytes))
}

fn attachment(
    sha256: Digest,
    bytes: u64,
    media_type: &str,
    file_name: String,
    of: Option<EntryId>,
    caption: String,
) -> Attachment {
    Attachment {
        sha256,
        bytes,
        media_type: media_type.to_owned(),
        file_name,
        caption,
        alternative: String::new(),
        of,
        taken: None,
        position_deg: None,
    }
}

fn kept(
    desk: &Desk,
    of: EntryId,
    bytes: &[u8],
    media_type: &str,
    file_name: String,
    caption: String,
) -> Result<Planned, Fault> {
    let kept = desk.store().put_attachment(&mut &*bytes, None).map_err(Fault::undone)?;
    let payload = attachment(kept.sha256, kept.bytes, media_type, file_name, Some(of), caption).into();
    Ok(Planned { id: None, payload })
}

/// Returns where a report goes when nothing is said: `marram-version-2.pdf`.
fn named(state: &State, version: u32) -> PathBuf {
    let name = state.vessel().map(|v| v.payload.name.to_lowercase()).unwrap_or_default();
    let plain: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let plain = plain.trim_matches('-');
    PathBuf::from(format!("{}-version-{version}.pdf", if plain.is_empty() { "report" } else { plain }))
}

/// Returns where the signature of a report lies: beside it, its whole name followed by `.sig`.
pub fn seal_path(report: &Path) -> PathBuf {
    let mut name = report.as_os_str().to_owned();
    name.push(".sig");
    PathBuf::from(name)
}
