//! A dialog: the browser's own, so that the keyboard stays inside it and Escape closes it.

use leptos::html;
use leptos::prelude::*;

/// Shows its children in a dialog while `open` is set.
#[component]
pub fn Dialog(open: RwSignal<bool>, #[prop(into)] title: Signal<String>, children: ChildrenFn) -> impl IntoView {
    let node: NodeRef<html::Dialog> = NodeRef::new();
    Effect::new(move |_| {
        let Some(dialog) = node.get() else { return };
        if open.get() && !dialog.open() {
            let _ = dialog.show_modal();
        } else if !open.get() && dialog.open() {
            dialog.close();
        }
    });
    view! {
        <dialog node_ref=node aria-label=move || title.get() on:close=move |_| open.set(false)>
            <header class="dialog-head">
                <h2>{move || title.get()}</h2>
                <button type="button" class="quiet" on:click=move |_| open.set(false)>"Close"</button>
            </header>
            <Show when=move || open.get()>{children()}</Show>
        </dialog>
    }
}
