//! `ribband issue`: a version of the report goes out, frozen and signed.

use super::check::{shortfalls, told};
use super::{print, print_json, write_whole};
use crate::arguments::IssueArgs;
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use crate::key::surveyors_key;
use crate::style::look;
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
    let found = shortfalls(desk, survey, &state)?;
    let stopping = stops(&found, &reasons);
    if !stopping.is_empty() {
        let stopping: Vec<Shortfall> = stopping.into_iter().cloned().collect();
        told(&stopping)?;
        return Err(Fault::undone(format!(
            "the report is not issued: {} {} it; mend them, or overrule a check with --against NAME=REASON",
            stopping.len(),
            if stopping.len() == 1 { "thing stops" } else { "things stop" }
        )));
    }
    let look = look(desk.folder(), &args.look)?;
    let signed_by = signer(&state, &look.style.surveyor)?;
    let key = surveyors_key(desk.folder())?;
    let hand = args.signature_image.as_deref().or(look.signature.as_deref());
    let hand = hand.map(|file| kept_picture(desk, file)).transpose()?;
    let version = 1 + state.reports_issued().map(|r| r.payload.version).max().unwrap_or(0);
    let brief = state.brief();
    let addressees = if args.to.is_empty() {
        brief.as_ref().map(|b| b.payload.addressees.clone()).unwrap_or_default()
    } else {
        args.to.clone()
    };
    let issuing = Issuing {
        version,
        date: args.date.unwrap_or_else(today),
        addressees,
        changes: args.changes.trim().to_owned(),
        signed_by,
        public_key: key.public().to_string(),
        hand: hand.as_ref().map(|(attachment, _)| attachment.sha256.to_string()),
        against: overruled(&found, &reasons),
    };
    let before = desk.before(&state)?;
    let wanted = Wanted {
        paper: look.paper,
        first: look.first,
        style: Some(&look.style),
        issuing: Some(&issuing),
        before: before.as_ref(),
    };
    let written = server::write_wanted(desk.store(), &state, &wanted).map_err(Fault::undone)?;
    if let Some((sha256, why)) = written.pdf.picture_faults.first().filter(|_| !reasons.contains_key(PICTURES)) {
        return Err(Fault::undone(format!(
            "the report is not issued: picture {} could not be printed ({why}); mend it, or overrule the check with --against {PICTURES}=REASON",
            &sha256[..12.min(sha256.len())]
        )));
    }
    let bytes = written.pdf.bytes;
    let statement = Statement::of(&bytes, survey, version, issuing.date, &issuing.signed_by, written.field_book);
    let seal = Seal::made(statement, &key).map_err(Fault::undone)?;
    let out = args.out.clone().unwrap_or_else(|| named(&state, version));
    let beside = seal_path(&out);
    if let Some(there) = [&out, &beside].into_iter().find(|path| path.exists()) {
        return Err(Fault::input(format!("{} is there already; name another place with --out", there.display())));
    }

    // Kept first, then written down, then handed out: whatever fails later, what is on record is kept.
    let issued = new_entry_id();
    let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let title = format!("The report, version {version}, as it went out");
    let mut planned = vec![Planned {
        id: Some(issued),
        payload: ReportIssued {
            version,
            date: issuing.date,
            field_book: written.field_book,
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
    let files = [
        (bytes.clone(), "application/pdf", name(&out), title.clone()),
        (
            seal.text().into_bytes(),
            "application/json",
            name(&beside),
            format!("The signature under it, version {version}"),
        ),
    ];
    for (bytes, media_type, file_name, caption) in files {
        planned.push(kept(desk, issued, &bytes, media_type, file_name, caption)?);
    }
    planned.extend(hand.map(|(mut attachment, _)| {
        attachment.of = Some(issued);
        attachment.caption = format!("Signature of {}, drawn by hand.", issuing.signed_by);
        Planned { id: None, payload: attachment.into() }
    }));
    let entries = desk.write(survey, &author, &planned)?;
    write_whole(&out, &bytes)?;
    write_whole(&beside, seal.text().as_bytes())?;
    if as_json {
        return print_json(&json!({
            "survey": survey.to_string(), "version": version, "date": issuing.date.to_string(),
            "file": out.display().to_string(), "signature": beside.display().to_string(),
            "sha256": seal.statement.sha256, "field_book": written.field_book, "public_key": seal.public_key,
            "pages": written.pdf.pages, "against": issuing.against,
            "entries": entries.iter().map(|entry| entry.id.to_string()).collect::<Vec<_>>(),
        }));
    }
    print(&format!(
        "{}: version {version} of {}, {} pages, signed by {}; its signature is {}.",
        out.display(),
        issuing.date,
        written.pdf.pages,
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
