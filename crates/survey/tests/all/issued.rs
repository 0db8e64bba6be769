//! A survey as it stood when a report went out, what has changed since, and what hangs on an entry.

use crate::story::{Desk, SURVEY, amend, finding, pen, sounding, withdraw};
use survey::payload::{Amendment, Issue, Recommendation, ReportIssued, Urgency};
use survey::{Change, Digest, Entry, EntryId, State, View, changes_since, hanging_on};

fn advice(title: &str, findings: Vec<EntryId>) -> Recommendation {
    Recommendation {
        title: title.into(),
        findings,
        action: "look again".into(),
        why: String::new(),
        urgency: Urgency::FindOut,
        by: None,
        who: String::new(),
        proof: String::new(),
        ways: vec![],
        carried_from: None,
    }
}

fn issue(state: &State, with_heads: bool) -> ReportIssued {
    ReportIssued {
        version: 1,
        date: jiff::civil::date(2026, 6, 4),
        field_book: state.digest(),
        sha256: Digest::of(b"the file"),
        addressees: vec![],
        changes: String::new(),
        issue: with_heads.then(|| Issue { heads: state.heads(), ..Issue::default() }),
    }
}

fn issued(state: &State) -> View<'_, ReportIssued> {
    state.reports_issued().next().expect("a report is issued")
}

#[test]
fn the_state_at_issue_is_found_again_though_older_entries_arrive_later() {
    let (mut desk, mut office, mut phone) = (Desk::new(), pen("office"), pen("phone"));
    // The phone's entry is written before the report goes out and arrives after it.
    let late = desk.write(&mut phone, sounding("heard before, arrived late"));
    let heard = desk.write(&mut office, sounding("rings"));
    let concluded = desk.write(&mut office, finding(vec![heard.id]));
    let mut state = State::fold(SURVEY, [heard, concluded]);
    let (then, digest) = (state.clone(), state.digest());
    state.take(desk.write(&mut office, issue(&then, true)));
    state.take(late);
    let found = state.as_issued(&issued(&state)).expect("the heads name it");
    assert_eq!((found.digest(), found.len()), (digest, 2));
}

#[test]
fn a_report_issued_without_heads_is_found_by_its_time_or_not_at_all() {
    let (mut desk, mut office) = (Desk::new(), pen("office"));
    let mut state = State::fold(SURVEY, [desk.write(&mut office, sounding("rings"))]);
    state.take(desk.write(&mut office, issue(&state.clone(), false)));
    state.take(desk.write(&mut office, sounding("rings again")));
    assert_eq!(state.as_issued(&issued(&state)).map(|s| s.len()), Some(1));
    // With an entry of another device written before it, time alone names another set: the digest says so.
    let mut phone = pen("phone");
    let mut early = Desk::new();
    state.take(early.write(&mut phone, sounding("from elsewhere")));
    assert!(state.as_issued(&issued(&state)).is_none());
}

#[test]
fn one_changed_letter_of_an_entry_is_found_by_the_digest_at_issue() {
    let (mut desk, mut office) = (Desk::new(), pen("office"));
    let heard = desk.write(&mut office, sounding("rings"));
    let mut state = State::fold(SURVEY, [heard.clone()]);
    state.take(desk.write(&mut office, issue(&state.clone(), true)));
    assert!(state.as_issued(&issued(&state)).is_some());
    let forged = Entry::read(&heard.line().replace("rings", "wings")).expect("it is still an entry");
    let mut other = State::fold(SURVEY, [forged]);
    for entry in state.entries().into_iter().filter(|e| e.id != heard.id) {
        other.take(entry.clone());
    }
    assert!(other.as_issued(&issued(&other)).is_none());
}

#[test]
fn what_was_added_amended_and_withdrawn_since_is_told_with_its_reasons() {
    let (mut desk, mut office) = (Desk::new(), pen("office"));
    let heard = desk.write(&mut office, sounding("rings"));
    let basis = heard.id;
    let first = desk.write(&mut office, finding(vec![basis]));
    let second = desk.write(&mut office, finding(vec![basis]));
    let (amended, gone) = (first.id, second.id);
    let then = State::fold(SURVEY, [heard, first, second]);
    let mut now = then.clone();
    assert!(changes_since(&then, &now).is_empty());
    let mut other = finding(vec![basis]);
    other.title = "Garboard rings, but for one place".into();
    let payload = serde_json::to_value(&other).ok();
    now.take(
        desk.write(&mut office, Amendment { amends: amended, settles: vec![], why: "heard again".into(), payload }),
    );
    now.take(desk.write(&mut office, withdraw(gone)));
    now.take(desk.write(&mut office, advice("Sound again", vec![amended])));
    // An observation corrected is no change of what the report concludes.
    now.take(desk.write(&mut office, amend(basis, &sounding("rings clearly"))));
    let changes = changes_since(&then, &now);
    let told: Vec<_> = changes.iter().map(|c| (c.kind.as_str(), c.change, c.title.as_str())).collect();
    assert_eq!(
        told,
        [
            ("finding", Change::Amended, "Garboard rings, but for one place"),
            ("finding", Change::Withdrawn, "Garboard rings"),
            ("recommendation", Change::Added, "Sound again"),
        ]
    );
    assert_eq!(changes[0].why, ["heard again"]);
    assert_eq!(changes[1].why, ["entered twice"]);
}

#[test]
fn what_hangs_on_an_observation_is_found_down_to_the_recommendation() {
    let (mut desk, mut office) = (Desk::new(), pen("office"));
    let heard = desk.write(&mut office, sounding("rings"));
    let other = desk.write(&mut office, sounding("elsewhere"));
    let concluded = desk.write(&mut office, finding(vec![heard.id]));
    let wanted = desk.write(&mut office, advice("Sound again", vec![concluded.id]));
    let (h, o, f, r) = (heard.id, other.id, concluded.id, wanted.id);
    let mut state = State::fold(SURVEY, [heard, other, concluded, wanted]);
    let hanging: Vec<_> = hanging_on(&state, h).into_iter().map(|hang| (hang.id, hang.on)).collect();
    assert_eq!(hanging, [(f, h), (r, f)]);
    assert!(hanging_on(&state, o).is_empty());
    state.take(desk.write(&mut office, withdraw(r)));
    assert_eq!(hanging_on(&state, h).len(), 1, "what is withdrawn hangs no more");
}
