//! Condition as a drawing shows it: hatching and a word, never colour alone.

use leptos::prelude::*;
use survey::Cover;
use survey::payload::Condition;

/// A swatch of the hatching with the condition's word.
#[component]
pub fn ConditionMark(condition: Condition) -> impl IntoView {
    let class = match condition {
        Condition::Sound => "swatch sound",
        Condition::Watch => "swatch watch",
        Condition::WorkNeeded => "swatch work",
        Condition::Failed => "swatch failed",
    };
    view! { <span class="mark"><span class=class aria-hidden="true"></span>{condition.to_string()}</span> }
}

/// How far a member is covered, with its word.
#[component]
pub fn CoverMark(cover: Cover) -> impl IntoView {
    let (class, words) = match cover {
        Cover::Owed => ("swatch owed", "not looked at yet"),
        Cover::NotSeen => ("swatch unseen", "not seen"),
        Cover::PartlySeen => ("swatch partly", "partly seen"),
        Cover::Seen => ("swatch seen", "looked at"),
        Cover::HearsayOnly => ("swatch owed", "hearsay only"),
    };
    view! { <span class="mark"><span class=class aria-hidden="true"></span>{words}</span> }
}
