//! A drawing in the page, in the page's own inks.

use drawing::Sheet;
use leptos::prelude::*;

/// Shows a drawing. The drawing escapes every text in it, so its SVG is put into the page as it is.
#[component]
pub fn DrawingView(sheet: Sheet, #[prop(optional, into)] caption: String) -> impl IntoView {
    let svg = sheet.to_svg();
    view! {
        <figure class="drawing">
            <div class="sheet" inner_html=svg></div>
            {(!caption.is_empty()).then(|| view! { <figcaption>{caption.clone()}</figcaption> })}
        </figure>
    }
}
