//! The list of photographs: what each shows, where it was taken and when, and by what digest it is found.

use super::numbers::{Numbers, is_picture};
use super::wording::{Wording, sentence_case};
use crate::{Column, Document, Picture, Table};
use survey::payload::{Attachment, Payload};
use survey::{State, View};

/// Says where a picture was taken on the boat, from the entry it belongs to.
fn place(state: &State, numbers: &Numbers<'_>, wording: &Wording, a: &View<'_, Attachment>) -> String {
    let Some(record) = a.payload.of.and_then(|of| state.record(of)) else { return String::new() };
    match record.payload() {
        Payload::Observation(o) => wording.member_at(&numbers.member(&o.member), &o.place),
        Payload::NotSeen(n) => wording.member_at(&numbers.member(&n.member), &n.place),
        Payload::Finding(f) => match f.places.first() {
            Some(place) => wording.member_at(&numbers.member(&f.member), place),
            None => sentence_case(&numbers.member(&f.member)),
        },
        Payload::Vessel(_) => "The boat".to_owned(),
        _ => String::new(),
    }
}

/// Tells a picture where it was taken.
fn put_places(state: &State, numbers: &Numbers<'_>, wording: &Wording, picture: &mut Picture) {
    let own = state.attachments().find(|a| is_picture(a.payload) && a.payload.sha256.to_string() == picture.sha256);
    if let Some(a) = own {
        picture.place = place(state, numbers, wording, &a);
    }
}

/// Tells every picture where it was taken, and lists them all by number, as they are numbered in print.
pub(super) fn put(state: &State, numbers: &Numbers<'_>, wording: &Wording, document: &mut Document) {
    for picture in document.parts.iter_mut().flat_map(|part| &mut part.findings).flat_map(|f| &mut f.pictures) {
        put_places(state, numbers, wording, picture);
    }
    for picture in &mut document.pictures {
        put_places(state, numbers, wording, picture);
    }
    let findings = document.parts.iter().flat_map(|part| &part.findings).flat_map(|f| &f.pictures);
    let rows = findings.chain(&document.pictures).zip(1..).map(|(picture, number): (&Picture, u32)| {
        vec![
            number.to_string(),
            picture.caption.clone(),
            picture.place.clone(),
            picture.taken.clone(),
            picture.sha256.chars().take(12).collect(),
        ]
    });
    let mut rows: Vec<Vec<String>> = rows.collect();
    if rows.is_empty() {
        return;
    }
    let mut columns = vec![
        Column::figures("No.", 0.5),
        Column::words("What it shows", 2.4),
        Column::words("Place", 1.9),
        Column::words("Taken, by the camera", 1.3),
        Column::words("SHA-256 begins", 1.2),
    ];
    // A column in which nothing stands is left out.
    if rows.iter().all(|row| row[TAKEN].is_empty()) {
        columns.remove(TAKEN);
        rows.iter_mut().for_each(|row| drop(row.remove(TAKEN)));
    }
    document.records.push(Table {
        title: "Photographs, by number".to_owned(),
        columns,
        rows,
        note: "Each photograph is kept whole and unchanged with the field book and is found there by its digest."
            .to_owned(),
    });
}

/// The column that says when a picture was taken.
const TAKEN: usize = 3;
