//! Writing the field book from its lines, as the two devices wrote it.

use crate::pictures::Picture;
use crate::{DemoFault, name, stand_in};
use serde::Deserialize;
use serde_json::{Map, Value};
use std::collections::{BTreeMap, HashMap};
use survey::payload::Payload;
use survey::{Entry, EntryId, Pen, State, SurveyId};

/// A whole survey, ready to be taken into a store.
#[derive(Clone, Debug)]
pub struct Demo {
    /// The survey's name.
    pub survey: SurveyId,
    /// Its entries, in the order in which the lines stand: each device's own in order of time.
    pub entries: Vec<Entry>,
    /// The pictures that attachments name, each once.
    pub attachments: Vec<Picture>,
}

/// A line of the field book's source.
enum Line {
    /// Two devices meet and each takes what it lacks.
    Exchange(String, String),
    /// A device writes an entry.
    Entry(EntryLine),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EntryLine {
    label: String,
    device: String,
    author: String,
    at: String,
    kind: String,
    payload: Map<String, Value>,
}

/// A device with what it has written and what it has taken from the other.
struct Device {
    author: String,
    pen: Pen,
    state: State,
    last_ms: u64,
}

/// Writes a field book from its source: one line an entry, or an exchange between two devices. A device knows of
/// the other's entries only what an exchange brought it, so two may amend one entry unknown to each other.
///
/// # Errors
/// The first line that cannot be entered, with the reason.
pub fn written_from(lines: &str) -> Result<Demo, DemoFault> {
    let mut devices: BTreeMap<String, Device> = BTreeMap::new();
    let mut labels: HashMap<String, EntryId> = HashMap::new();
    let mut survey = None;
    let mut entries = Vec::new();
    let mut attachments: Vec<Picture> = Vec::new();
    for (line, text) in lines.lines().enumerate().map(|(i, text)| (i + 1, text)) {
        if text.trim().is_empty() {
            continue;
        }
        let written = match read(text).map_err(|why| DemoFault::Shape { line, why: why.to_string() })? {
            Line::Exchange(one, other) => {
                exchange(&mut devices, &one, &other, line)?;
                continue;
            }
            Line::Entry(written) => written,
        };
        let at_ms = moment(&written.at, line)?;
        let survey = *survey.get_or_insert_with(|| name::of_survey(at_ms));
        if labels.contains_key(&written.label) {
            return Err(DemoFault::LabelTaken { line, label: written.label });
        }
        let device = devices.entry(written.device.clone()).or_insert_with(|| Device {
            author: written.author.clone(),
            pen: Pen::new(survey, &written.author, &written.device),
            state: State::new(survey),
            last_ms: 0,
        });
        if device.author != written.author {
            let was = device.author.clone();
            return Err(DemoFault::OtherAuthor { line, device: written.device, was, is: written.author });
        }
        if at_ms <= device.last_ms {
            let why = "which is not after the device's last entry".to_owned();
            return Err(DemoFault::Moment { line, at: written.at, why });
        }
        device.last_ms = at_ms;
        let mut payload = written.payload;
        if let Some(picture) = stand_in::put_file(&mut payload, line)?
            && attachments.iter().all(|known| known.digest != picture.digest)
        {
            attachments.push(picture);
        }
        let mut payload = Value::Object(payload);
        stand_in::put_names(&mut payload, &labels, device.state.digest(), line)?;
        let payload = Payload::read_strict(&written.kind, &payload)
            .map_err(|why| DemoFault::Payload { line, why: Box::new(why) })?;
        let id = name::of_entry(at_ms, &written.label);
        if let Err(why) = device.state.admits(&payload) {
            return Err(DemoFault::NotAdmitted { line, id, device: written.device, why: Box::new(why) });
        }
        let entry = device.pen.write(id, at_ms, &payload);
        device.state.take(entry.clone());
        labels.insert(written.label, id);
        entries.push(entry);
    }
    // The letter that went out is kept like every report: its bytes beside the entry that names them.
    if entries.iter().any(|entry| matches!(entry.payload, Payload::ReportIssued(_))) {
        attachments.push(Picture::letter());
    }
    let survey = survey.ok_or_else(|| DemoFault::Shape { line: 1, why: "there is no entry".to_owned() })?;
    Ok(Demo { survey, entries, attachments })
}

fn read(text: &str) -> serde_json::Result<Line> {
    let value: Value = serde_json::from_str(text)?;
    match value.get("exchange") {
        Some(met) => {
            let (one, other) = serde_json::from_value(met.clone())?;
            Ok(Line::Exchange(one, other))
        }
        None => serde_json::from_value(value).map(Line::Entry),
    }
}

/// Lets two devices take each other's entries, as a package on a stick or a sync would.
fn exchange(devices: &mut BTreeMap<String, Device>, one: &str, other: &str, line: usize) -> Result<(), DemoFault> {
    for (from, to) in [(one, other), (other, one)] {
        let unknown = |name: &str| DemoFault::Shape { line, why: format!("device `{name}` has written nothing yet") };
        let giver = devices.get(from).ok_or_else(|| unknown(from))?;
        let given: Vec<Entry> = giver.state.entries().into_iter().cloned().collect();
        let taker = devices.get_mut(to).ok_or_else(|| unknown(to))?;
        for entry in given {
            taker.pen.see(entry.time);
            taker.state.take(entry);
        }
    }
    Ok(())
}

fn moment(at: &str, line: usize) -> Result<u64, DemoFault> {
    let unread = |why: String| DemoFault::Moment { line, at: at.to_owned(), why };
    let time: jiff::Timestamp = at.parse().map_err(|why: jiff::Error| unread(why.to_string()))?;
    u64::try_from(time.as_millisecond()).map_err(|_| unread("which is before 1970".to_owned()))
}
