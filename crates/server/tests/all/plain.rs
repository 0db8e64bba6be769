//! The plain page, for a build without the app.

use crate::asking::{SURVEY, bare, bytes, fresh, get, header, store};
use axum::http::StatusCode;

#[tokio::test]
async fn the_plain_page_lists_surveys_and_nothing_in_a_name_is_markup() {
    let router = bare(store());
    for path in ["/", "/plain"] {
        let response = get(&router, path).await;
        assert_eq!(response.status(), StatusCode::OK);
        let page = String::from_utf8(bytes(response).await).unwrap();
        assert!(page.contains("&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;"), "{page}");
        assert!(!page.contains("<script") && !page.contains("style="));
        assert!(page.contains(&format!("/api/surveys/{SURVEY}/report.pdf")));
        assert!(page.contains("no workbench for the browser") && page.contains("<code>cargo demo</code>"));
    }
}

#[tokio::test]
async fn the_plain_page_may_load_its_style_and_an_empty_store_says_what_to_do() {
    let router = fresh();
    let page = get(&router, "/plain").await;
    assert!(header(page.headers(), "content-security-policy").contains("style-src 'self'"));
    let page = String::from_utf8(bytes(page).await).unwrap();
    assert!(page.contains("ribband create"));
    assert!(page.contains("href=\"/plain.css\""));
    let style = get(&router, "/plain.css").await;
    assert_eq!(header(style.headers(), "content-type"), "text/css; charset=utf-8");
}
