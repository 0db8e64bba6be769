//! Words that several places of the workbench share.

use survey::payload::Payload;
use survey::{Place, Record, State};

/// Returns what a member is called in this survey: the surveyor's own name for it, else the catalogue's.
pub fn member_name(state: &State, id: &str) -> String {
    let own = state.members_had().filter(|had| had.payload.member == id).find_map(|had| had.payload.name.clone());
    own.or_else(|| survey::catalogue_member(id).map(|member| member.called(survey::language_of(state)).to_owned()))
        .unwrap_or_else(|| id.replace('-', " "))
}

/// Returns a record in one line: what a list or a choice shows of it.
pub fn in_a_line(state: &State, record: &Record) -> String {
    let with_place = |member: &str, place: &Place, said: String| {
        let name = member_name(state, member);
        if place.is_empty() { format!("{name}: {said}") } else { format!("{name}, {place}: {said}") }
    };
    match record.payload() {
        Payload::Observation(o) => {
            let reading = o.reading.to_string();
            let said = match (reading.as_str(), o.note.as_str()) {
                ("seen", note) if !note.is_empty() => note.to_owned(),
                (reading, "") => reading.to_owned(),
                (reading, note) => format!("{reading}; {note}"),
            };
            with_place(&o.member, &o.place, said)
        }
        Payload::NotSeen(n) => with_place(&n.member, &n.place, format!("not seen, {}", n.why)),
        Payload::Finding(f) => format!("{}: {}", member_name(state, &f.member), f.title),
        Payload::Recommendation(r) => format!("{} ({})", r.title, r.urgency),
        Payload::Reckoning(r) => {
            let title = reckon::find(&r.topic).map_or(r.topic.as_str(), |topic| topic.title);
            match &r.member {
                Some(member) => format!("{title}, for the {}", member_name(state, member)),
                None => title.to_owned(),
            }
        }
        Payload::Attachment(a) if a.caption.is_empty() => a.file_name.clone(),
        Payload::Attachment(a) => a.caption.clone(),
        Payload::Instrument(i) => i.name.clone(),
        Payload::Vessel(v) => v.name.clone(),
        Payload::Brief(b) => {
            format!("{} survey for {}", b.purpose, if b.client.is_empty() { "no client named" } else { &b.client })
        }
        Payload::Conditions(c) => {
            let day = c.date.map(|day| day.to_string()).unwrap_or_default();
            [day, c.place.clone(), c.weather.clone()]
                .into_iter()
                .filter(|s| !s.is_empty())
                .collect::<Vec<_>>()
                .join(", ")
        }
        Payload::EstimateLine(l) => format!("{}: {} to {} {}", l.item, l.low, l.high, l.currency),
        Payload::Comparable(c) => format!("{}: {} {}", c.title, c.price, c.currency),
        Payload::OpinionOfValue(v) => format!("{} to {} {}", v.low, v.high, v.currency),
        Payload::FollowUp(f) => format!("{}: {}", f.standing, f.text),
        Payload::MemberHad(m) => {
            let name = m.name.clone().unwrap_or_else(|| m.member.replace('-', " "));
            if m.has { name } else { format!("{name}: she has none") }
        }
        Payload::ClientLink(l) => format!("for {}, until {}", l.to, l.until),
        Payload::ReportIssued(r) => format!("version {} of {}", r.version, r.date),
        Payload::HullForm(_) => "her shape".to_owned(),
        Payload::Beforehand(_) => "what is known beforehand".to_owned(),
        Payload::Amendment(_) | Payload::Unknown { .. } => record.first().kind().replace('_', " "),
    }
}

/// Returns a day and time for a person from milliseconds since 1970, by the local offset in minutes west of UTC as a
/// browser gives it.
pub fn when(wall_ms: u64, minutes_west: i32) -> String {
    let local_ms = i64::try_from(wall_ms).unwrap_or(i64::MAX).saturating_sub(i64::from(minutes_west) * 60_000);
    jiff::Timestamp::from_millisecond(local_ms)
        .map(|t| t.strftime("%-d %b %Y, %H:%M").to_string())
        .unwrap_or_else(|_| "at an unknown time".to_owned())
}
