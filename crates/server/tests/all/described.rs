//! The interface describes itself, wholly and truly.

use crate::asking::{SURVEY, bare, get, header, json_of, send, store};
use axum::body::Body;
use axum::http::{Method, Request};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

const METHODS: [&str; 8] = ["get", "put", "post", "delete", "options", "head", "patch", "trace"];

async fn description() -> Value {
    let response = get(&bare(store()), "/api/openapi.json").await;
    assert_eq!(header(response.headers(), "content-type"), "application/json");
    json_of(response).await
}

/// Every described path with its methods.
fn routes(description: &Value) -> BTreeMap<String, BTreeSet<String>> {
    let methods = |item: &Value| {
        let all = item.as_object().expect("a path item").keys();
        all.filter(|key| METHODS.contains(&key.as_str())).map(|key| key.to_ascii_uppercase()).collect()
    };
    description["paths"].as_object().expect("paths").iter().map(|(path, item)| (path.clone(), methods(item))).collect()
}

#[tokio::test]
async fn what_is_served_is_what_is_described() {
    // The interface as it is agreed on with the app. A route more or less is a change that others must hear of.
    let agreed = [
        ("/api/attachments/{sha256}", "GET PUT"),
        ("/api/clients", "GET"),
        ("/api/devices", "GET POST"),
        ("/api/devices/invitations", "POST"),
        ("/api/devices/{device}", "DELETE"),
        ("/api/openapi.json", "GET"),
        ("/api/reckon", "GET"),
        ("/api/reckon/{topic}", "POST"),
        ("/api/surveys", "GET POST"),
        ("/api/surveys/{survey}/entries", "GET POST"),
        ("/api/surveys/{survey}/live", "GET"),
        ("/api/surveys/{survey}/report.pdf", "GET"),
        ("/api/surveys/{survey}/report/issue", "POST"),
        ("/api/surveys/{survey}/report/pages", "GET"),
        ("/api/surveys/{survey}/report/pages/{page}", "GET"),
        ("/api/surveys/{survey}/state", "GET"),
    ];
    let agreed: BTreeMap<String, BTreeSet<String>> = agreed
        .into_iter()
        .map(|(path, methods)| (path.to_owned(), methods.split(' ').map(str::to_owned).collect()))
        .collect();
    let described = routes(&description().await);
    assert_eq!(described, agreed);

    // The router itself tells which paths it knows.
    let router = bare(store());
    let known = format!("{router:?}");
    let served: BTreeSet<String> =
        known.split('"').filter(|text| text.starts_with("/api")).map(str::to_owned).collect();
    assert_eq!(served, described.keys().cloned().collect::<BTreeSet<_>>());

    // And each answers to the methods described, and to no other.
    for (path, methods) in &described {
        let path = path.replace("{survey}", &SURVEY.to_string()).replace("{page}", "1.svg").replace("{topic}", "emc");
        let path = path.replace("{sha256}", &"0".repeat(64));
        let method = Method::from_bytes(b"NOSUCH").unwrap();
        let response = send(&router, Request::builder().method(method).uri(&path), Body::empty()).await;
        assert_eq!(response.status(), 405, "{path}");
        let allowed = header(response.headers(), "allow").split(',').map(str::to_owned);
        let allowed: BTreeSet<String> = allowed.filter(|method| method != "HEAD").collect();
        assert_eq!(&allowed, methods, "{path}");
    }
}

#[tokio::test]
async fn the_description_has_the_form_of_openapi_3_1() {
    // OpenAPI Specification 3.1.0, sections 4.8.1 (OpenAPI), 4.8.2 (Info), 4.8.8 (Paths), 4.8.10 (Operation), 4.8.12
    // (Parameter), 4.8.16 and 4.8.17 (Responses), 4.8.13 (Request Body).
    let description = description().await;
    assert!(description["openapi"].as_str().unwrap().starts_with("3.1."));
    assert_eq!(description["info"]["title"], "Ribband");
    assert_eq!(description["info"]["version"], env!("CARGO_PKG_VERSION"));
    let (mut names, mut references) = (BTreeSet::new(), BTreeSet::new());
    for (path, item) in description["paths"].as_object().unwrap() {
        for method in METHODS {
            let Some(operation) = item.get(method) else { continue };
            let place = format!("{method} {path}");
            assert!(names.insert(operation["operationId"].as_str().unwrap().to_owned()), "{place}: a name of its own");
            assert!(operation["summary"].as_str().is_some_and(|summary| !summary.is_empty()), "{place}: in words");
            let responses = operation["responses"].as_object().unwrap();
            assert!(responses.keys().any(|status| status.starts_with('2')), "{place}: an answer when all is well");
            let fault = &responses["default"]["content"]["application/problem+json"]["schema"]["$ref"];
            assert_eq!(fault, "#/components/schemas/Problem", "{place}");
            for response in responses.values() {
                assert!(response["description"].is_string(), "{place}");
            }
            // Every part of the path is a parameter, and required; every parameter of the path is in it.
            let parameters = operation["parameters"].as_array().cloned().unwrap_or_default();
            let in_path = parameters.iter().filter(|parameter| parameter["in"] == "path");
            let given: BTreeSet<&str> = in_path
                .map(|parameter| {
                    assert_eq!(parameter["required"], true, "{place}");
                    parameter["name"].as_str().unwrap()
                })
                .collect();
            let wanted = path.split('{').skip(1).filter_map(|rest| rest.split('}').next()).collect::<BTreeSet<&str>>();
            assert_eq!(given, wanted, "{place}");
            assert!(parameters.iter().all(|parameter| parameter["schema"].is_object()), "{place}");
        }
    }
    collect_references(&description, &mut references);
    assert!(references.len() >= 5);
    for reference in references {
        assert!(description.pointer(reference.trim_start_matches('#')).is_some(), "{reference} leads nowhere");
    }
}

fn collect_references(value: &Value, into: &mut BTreeSet<String>) {
    match value {
        Value::Object(members) => {
            into.extend(members.get("$ref").and_then(Value::as_str).map(str::to_owned));
            members.values().for_each(|inner| collect_references(inner, into));
        }
        Value::Array(items) => items.iter().for_each(|inner| collect_references(inner, into)),
        _ => {}
    }
}

#[tokio::test]
async fn answers_have_the_members_that_are_described() {
    let description = description().await;
    let router = bare(store());
    let members = |schema: &str| {
        let schema = &description["components"]["schemas"][schema];
        schema["properties"].as_object().unwrap().keys().cloned().collect::<BTreeSet<_>>()
    };
    let of = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<BTreeSet<_>>();
    let list = json_of(get(&router, "/api/surveys").await).await;
    assert_eq!(of(&list[0]), members("Summary"));
    let handed = json_of(get(&router, &format!("/api/surveys/{SURVEY}/entries")).await).await;
    assert_eq!(of(&handed), members("Handed"));
    let now = json_of(get(&router, &format!("/api/surveys/{SURVEY}/state")).await).await;
    assert_eq!(of(&now), members("Now"));
    assert_eq!(of(&now["records"][0]), members("RecordNow"));
    let fault = json_of(get(&router, "/api/nowhere").await).await;
    assert_eq!(of(&fault), members("Problem"));
}
