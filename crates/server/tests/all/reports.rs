//! The report over HTTP, and reckonings.

use crate::asking::{SURVEY, bare, bytes, get, header, json_of, post, post_lines, problem, send, store, written};
use axum::body::Body;
use axum::http::Request;
use serde_json::json;
use survey::SurveyId;

#[tokio::test]
async fn the_report_is_typeset_and_its_pages_are_those_of_the_file() {
    let router = bare(store());
    let report = format!("/api/surveys/{SURVEY}/report");
    let pdf = get(&router, &format!("{report}.pdf")).await;
    assert_eq!(header(pdf.headers(), "content-type"), "application/pdf");
    let pdf = bytes(pdf).await;
    assert!(pdf.starts_with(b"%PDF-"));

    let about = json_of(get(&router, &format!("{report}/pages")).await).await;
    let pages = about["pages"].as_u64().unwrap();
    assert!(pages >= 1);
    let state = json_of(get(&router, &format!("/api/surveys/{SURVEY}/state")).await).await;
    assert_eq!(about["digest"], state["field_book"]);

    let first = get(&router, &format!("{report}/pages/1.svg")).await;
    assert_eq!(header(first.headers(), "content-type"), "image/svg+xml");
    assert!(header(first.headers(), "content-security-policy").ends_with("sandbox"));
    let etag = header(first.headers(), "etag").to_owned();
    let first = String::from_utf8(bytes(first).await).unwrap();
    assert!(first.starts_with("<svg") && first.trim_end().ends_with("</svg>"));
    assert!(!first.contains("<script"));
    let known = Request::get(format!("{report}/pages/1.svg")).header("if-none-match", etag);
    assert_eq!(send(&router, known, Body::empty()).await.status(), 304);

    assert_eq!(get(&router, &format!("{report}/pages/{pages}.svg")).await.status(), 200);
    for page in
        ["0.svg".to_owned(), format!("{}.svg", pages + 1), "1".to_owned(), "x.svg".to_owned(), "-1.svg".to_owned()]
    {
        problem(get(&router, &format!("{report}/pages/{page}")).await, 404).await;
    }
    // A new entry makes other pages.
    post_lines(&router, SURVEY, &[written(SURVEY, "browser-1", 1)[0].line()]).await;
    let later = json_of(get(&router, &format!("{report}/pages")).await).await;
    assert_ne!(later["digest"], about["digest"]);
}

#[tokio::test]
async fn paper_and_units_are_chosen_and_other_words_are_refused() {
    let router = bare(store());
    let report = format!("/api/surveys/{SURVEY}/report");
    let page = async |query: &str| {
        String::from_utf8(bytes(get(&router, &format!("{report}/pages/1.svg{query}")).await).await).unwrap()
    };
    let size = |svg: &str| {
        let begin = svg.find("viewBox=\"").unwrap() + 9;
        let numbers = svg[begin..].split('"').next().unwrap().split_whitespace();
        numbers.map(|number| number.parse::<f64>().unwrap().round()).collect::<Vec<_>>()
    };
    // ISO 216: A4 is 210 mm by 297 mm; ANSI/ASME Y14.1: letter is 8.5 in by 11 in; a point is 1/72 in.
    assert_eq!(size(&page("").await), [0.0, 0.0, 595.0, 842.0]);
    assert_eq!(size(&page("?paper=letter&units=imperial").await), [0.0, 0.0, 612.0, 792.0]);
    problem(get(&router, &format!("{report}/pages?paper=a5")).await, 400).await;
    problem(get(&router, &format!("{report}.pdf?units=cubits")).await, 400).await;
}

#[tokio::test]
async fn there_is_no_report_of_a_survey_that_is_not_here() {
    let router = bare(store());
    for rest in ["report.pdf", "report/pages", "report/pages/1.svg", "state"] {
        problem(get(&router, &format!("/api/surveys/{}/{rest}", SurveyId::from_bits(8))).await, 404).await;
    }
}

#[tokio::test]
async fn a_reckoning_answers_with_figures_and_drawings_and_a_refusal_says_why() {
    let router = bare(store());
    let answer = json_of(post(&router, "/api/reckon/emc", &json!({"temp_c": 20, "rh_percent": 65})).await).await;
    assert!(answer["results"]["emc_percent"].as_f64().unwrap() > 11.0);
    assert!(answer["sheets"][0].as_str().unwrap().starts_with("<svg"));
    let refused = post(&router, "/api/reckon/emc", &json!({"temp_c": 20, "rh_percent": 165})).await;
    assert!(problem(refused, 422).await.contains("--rh-percent"));
    problem(post(&router, "/api/reckon/nothing", &json!({})).await, 404).await;
}

/// Issues by the book of a test: what is asked is remembered, and a name tells what comes of it.
#[derive(Debug, Default)]
struct Pretend(std::sync::Mutex<Vec<String>>);

impl server::Issuer for Pretend {
    fn issue(&self, survey: SurveyId, wish: &server::IssueWish) -> Result<server::IssuedNow, server::IssueRefused> {
        self.0
            .lock()
            .expect("nobody panicked")
            .push(format!("{survey} {} {:?} {:?}", wish.author, wish.addressees, wish.against));
        match wish.author.as_str() {
            "A. Surveyor" => Ok(server::IssuedNow {
                version: 3,
                entry: survey::EntryId::from_bits(9),
                sha256: survey::Digest::of(b"pages"),
                pages: 7,
            }),
            "" => Err(server::IssueRefused::NotAccepted("It is not said who issues the report.".into())),
            _ => Err(server::IssueRefused::Undone("The key could not be read.".into())),
        }
    }
}

#[tokio::test]
async fn a_report_is_issued_by_whoever_holds_the_key_and_by_nobody_else() {
    let address = format!("/api/surveys/{SURVEY}/report/issue");
    let wish = json!({"author": "A. Surveyor", "addressees": ["C. Example"], "against": {"members-covered": "agreed"}});
    // A server without a key says so.
    let told = problem(post(&bare(store()), &address, &wish).await, 403).await;
    assert!(told.to_string().contains("no surveyor's key"), "{told}");

    let pretend = std::sync::Arc::new(Pretend::default());
    let setup =
        server::Setup { assets: server::Assets::default(), issuer: Some(pretend.clone()), ..server::Setup::default() };
    let router = server::router_with(store(), setup);
    let issued = json_of(post(&router, &address, &wish).await).await;
    assert_eq!((issued["version"].as_u64(), issued["pages"].as_u64()), (Some(3), Some(7)));
    assert_eq!(
        pretend.0.lock().unwrap().as_slice(),
        [format!("{SURVEY} A. Surveyor [\"C. Example\"] {{\"members-covered\": \"agreed\"}}")]
    );
    problem(post(&router, &address, &json!({"author": ""})).await, 422).await;
    problem(post(&router, &address, &json!({"author": "B. Other"})).await, 500).await;
    // What is not understood is refused before anybody is asked.
    problem(post(&router, &address, &json!({"author": "A. Surveyor", "backdate": "2020-01-01"})).await, 422).await;
    assert_eq!(pretend.0.lock().unwrap().len(), 3);
}
