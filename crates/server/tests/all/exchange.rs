//! Exchanging entries.

use crate::asking::{fresh, get, header, json_of, post, post_lines, problem, send, store, written};
use axum::http::Request;
use serde_json::{Value, json};
use survey::payload::{Brief, Payload};
use survey::{Entry, EntryId, Pen, SurveyId};

const SURVEY: SurveyId = SurveyId::from_bits(9);

#[tokio::test]
async fn lines_come_back_as_they_went_and_only_those_after_the_cursor() {
    let router = fresh();
    let entries = written(SURVEY, "browser-1", 3);
    let lines: Vec<&str> = entries.iter().map(Entry::line).collect();
    assert_eq!(json_of(post_lines(&router, SURVEY, &lines[..2]).await).await["new"], 2);
    let again = json_of(post_lines(&router, SURVEY, &lines).await).await;
    assert_eq!(again, json!({"new": 1, "known": 2, "clashes": []}));

    let path = format!("/api/surveys/{SURVEY}/entries");
    let all = json_of(get(&router, &path).await).await;
    assert_eq!(all["entries"], json!(lines));
    assert_eq!(all["more"], false);
    let rest = json_of(get(&router, &format!("{path}?after={}", all["cursor"])).await).await;
    assert_eq!((&rest["entries"], &rest["cursor"]), (&json!([]), &all["cursor"]));
}

#[tokio::test]
async fn a_long_record_is_handed_out_in_parts_that_join_without_gap_or_overlap() {
    let router = fresh();
    let entries = written(SURVEY, "browser-1", 2_500);
    let lines: Vec<&str> = entries.iter().map(Entry::line).collect();
    for part in lines.chunks(1000) {
        assert_eq!(post_lines(&router, SURVEY, part).await.status(), 200);
    }
    let (mut got, mut cursor, mut asked) = (Vec::new(), json!(0), 0);
    loop {
        let part = json_of(get(&router, &format!("/api/surveys/{SURVEY}/entries?after={cursor}")).await).await;
        got.extend(part["entries"].as_array().unwrap().clone());
        cursor = part["cursor"].clone();
        asked += 1;
        if part["more"] == false {
            break;
        }
    }
    assert_eq!(got, lines.iter().map(|line| json!(line)).collect::<Vec<Value>>());
    assert_eq!(asked, 2);
}

#[tokio::test]
async fn two_entries_of_one_name_are_both_kept_and_the_clash_is_told() {
    let router = fresh();
    let write = |purpose: &str| {
        let mut pen = Pen::new(SURVEY, "A. Surveyor", "restored from a copy");
        let brief = Brief { purpose: purpose.into(), ..Brief::default() };
        pen.write(EntryId::from_bits(5), 1_780_000_000_000, &Payload::from(brief))
    };
    let (one, other) = (write("insurance"), write("valuation"));
    assert_eq!(json_of(post_lines(&router, SURVEY, &[one.line()]).await).await["clashes"], json!([]));
    let said = json_of(post_lines(&router, SURVEY, &[other.line()]).await).await;
    assert_eq!(said, json!({"new": 1, "known": 0, "clashes": [EntryId::from_bits(5)]}));
    let all = json_of(get(&router, &format!("/api/surveys/{SURVEY}/entries")).await).await;
    assert_eq!(all["entries"], json!([one.line(), other.line()]));
}

#[tokio::test]
async fn a_line_that_is_no_entry_or_of_another_survey_is_refused_and_nothing_is_kept() {
    let router = fresh();
    let entries = written(SURVEY, "browser-1", 1);
    let refused = post_lines(&router, SURVEY, &[entries[0].line(), "{}"]).await;
    assert!(problem(refused, 422).await.starts_with("Entry 2:"));
    let elsewhere = post_lines(&router, SurveyId::from_bits(10), &[entries[0].line()]).await;
    problem(elsewhere, 422).await;
    let all = json_of(get(&router, &format!("/api/surveys/{SURVEY}/entries")).await).await;
    assert_eq!(all["entries"], json!([]));
}

#[tokio::test]
async fn a_new_survey_has_a_name_of_its_own_and_is_not_listed_before_its_first_entry() {
    let router = fresh();
    let mut names = Vec::new();
    for _ in 0..2 {
        // As a browser posts without a body.
        let said = send(&router, Request::post("/api/surveys").header("sec-fetch-site", "same-origin"), "").await;
        names.push(json_of(said).await["survey"].as_str().unwrap().parse::<SurveyId>().unwrap());
    }
    assert_ne!(names[0], names[1]);
    // RFC 9562, section 5.7: version 7, whose order is that of time.
    assert_eq!(names[0].uuid().get_version_num(), 7);
    assert_eq!(json_of(get(&router, "/api/surveys").await).await, json!([]));
}

#[tokio::test]
async fn the_list_has_what_a_start_page_needs_and_follows_what_comes_in() {
    let store = store();
    let router = crate::asking::bare(store.clone());
    let survey = crate::asking::SURVEY;
    let expected = json!([{
        "survey": survey, "vessel": "\"><script>alert(1)</script>", "purpose": "pre-purchase <script>",
        "client": "An invented client", "entries": 3, "latest": "2026-05-28T20:26:40Z", "findings": 1,
    }]);
    assert_eq!(json_of(get(&router, "/api/surveys").await).await, expected);
    let more = written(survey, "browser-1", 1);
    post_lines(&router, survey, &[more[0].line()]).await;
    let list = json_of(get(&router, "/api/surveys").await).await;
    assert_eq!((&list[0]["entries"], &list[0]["findings"]), (&json!(4), &json!(1)));
    let state = json_of(get(&router, &format!("/api/surveys/{survey}/state")).await).await;
    assert_eq!(state["records"].as_array().unwrap().len(), 4);
}

#[tokio::test]
async fn names_that_are_no_names_are_refused_and_never_reach_a_disk() {
    let router = fresh();
    for name in ["..%2f..%2fetc%2fpasswd", "%00", "x", "%f0%9f%9a%a3", "00000000-0000-0000-0000-00000000000g"] {
        for rest in ["entries", "state", "live", "report.pdf", "report/pages", "report/pages/1.svg"] {
            problem(get(&router, &format!("/api/surveys/{name}/{rest}")).await, 404).await;
        }
        problem(get(&router, &format!("/api/attachments/{name}")).await, 404).await;
    }
    // A path that is no UTF-8 at all.
    problem(get(&router, "/api/surveys/%ff%fe/state").await, 400).await;
    problem(get(&router, &format!("/api/surveys/{SURVEY}/entries?after=-1")).await, 400).await;
    let said = post(&router, &format!("/api/surveys/{SURVEY}/entries"), &json!({"entries": [1]})).await;
    problem(said, 422).await;
    let unknown = post(&router, &format!("/api/surveys/{SURVEY}/entries"), &json!({"entries": [], "x": 1})).await;
    assert!(problem(unknown, 422).await.contains('x'));
    assert_eq!(header(get(&router, "/api/surveys").await.headers(), "content-type"), "application/json");
}
