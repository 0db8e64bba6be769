//! Whether a survey can take what someone is about to enter: whether what it names is there.

use crate::nearest::nearest_members;
use crate::payload::{Payload, PayloadFault};
use crate::{EntryId, Place, State, catalogue_member};

/// Why a survey does not take what is about to be entered.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum AdmitFault {
    /// It names an entry that is not in the survey.
    #[error("{kind}: `{field}` names entry {id}, which is not in this survey")]
    NoSuchEntry {
        /// The kind about to be entered.
        kind: String,
        /// The field.
        field: &'static str,
        /// The entry named.
        id: EntryId,
    },
    /// It names an entry of another kind than it must.
    #[error("{kind}: `{field}` names entry {id}, which is of kind {is}; accepted is {wanted}")]
    OtherKind {
        /// The kind about to be entered.
        kind: String,
        /// The field.
        field: &'static str,
        /// The entry named.
        id: EntryId,
        /// What it is.
        is: String,
        /// What it must be.
        wanted: &'static str,
    },
    /// What an amendment puts in an entry's place is not accepted.
    #[error("amendment of {0}")]
    Amended(PayloadFault),
    /// The payload itself is not accepted.
    #[error(transparent)]
    Payload(#[from] PayloadFault),
    /// There is one already, and a second would take its place without a word.
    #[error("{kind}: there is one already, {} ({id}); amend that one", id.short())]
    Second {
        /// The kind about to be entered.
        kind: String,
        /// The entry that is there.
        id: EntryId,
    },
    /// It names a member that neither the catalogue nor this survey knows.
    #[error(
        "{kind}: `{field}` names `{member}`, which is neither in the catalogue nor added to this survey; {}",
        accepted(near)
    )]
    NoSuchMember {
        /// The kind about to be entered.
        kind: String,
        /// The field.
        field: &'static str,
        /// The name.
        member: String,
        /// Names near to it.
        near: Vec<String>,
    },
    /// It names a strake or frame beyond those that she has.
    #[error("{kind}: {what} {number} is beyond the {count} that she has; amend the count if it is wrong")]
    BeyondCount {
        /// The kind about to be entered.
        kind: String,
        /// `strake` or `frame`.
        what: &'static str,
        /// The number given.
        number: u32,
        /// How many she has.
        count: u32,
    },
}

fn accepted(near: &[String]) -> String {
    match near {
        [] => "add it with a `member` entry first".to_owned(),
        near => {
            format!("near to it are {}; a member of your own is added with a `member` entry first", near.join(", "))
        }
    }
}

impl State {
    /// Tells whether the survey can take this payload: nothing in it is impossible; every entry it names is there and of
    /// the right kind; every member it names is known, and every strake and frame within her counts; there is no brief,
    /// vessel or shape yet when it is one; and what an amendment puts in an entry's place would itself be accepted.
    ///
    /// Only what is about to be entered is held against this. What is in the field book already is read as it stands.
    pub fn admits(&self, payload: &Payload) -> Result<(), AdmitFault> {
        if let Some(fault) = payload.fault() {
            return Err(fault.into());
        }
        self.is_the_first(payload)?;
        self.admits_names(payload)
    }

    /// Refuses a second entry of a kind of which only the latest counts.
    fn is_the_first(&self, payload: &Payload) -> Result<(), AdmitFault> {
        let there = match payload {
            Payload::Brief(_) => self.brief().map(|view| view.id()),
            Payload::Vessel(_) => self.vessel().map(|view| view.id()),
            Payload::HullForm(_) => self.hull_form().map(|view| view.id()),
            Payload::Beforehand(_) => self.beforehand().map(|view| view.id()),
            _ => None,
        };
        there.map_or(Ok(()), |id| Err(AdmitFault::Second { kind: payload.kind().to_owned(), id }))
    }

    fn admits_names(&self, payload: &Payload) -> Result<(), AdmitFault> {
        let there = |field, id: EntryId, wanted: Option<&'static str>| {
            let kind = payload.kind().to_owned();
            let Some(record) = self.record(id) else { return Err(AdmitFault::NoSuchEntry { kind, field, id }) };
            match (wanted, record.first().kind()) {
                (Some(wanted), is) if is != wanted => {
                    Err(AdmitFault::OtherKind { kind, field, id, is: is.to_owned(), wanted })
                }
                _ => Ok(()),
            }
        };
        let kind = payload.kind();
        match payload {
            Payload::Amendment(amendment) => {
                there("amends", amendment.amends, None)?;
                amendment.settles.iter().try_for_each(|id| there("settles", *id, None))?;
                if let (Some(new), Some(record)) = (&amendment.payload, self.record(amendment.amends)) {
                    let new = Payload::read_strict(record.first().kind(), new).map_err(AdmitFault::Amended)?;
                    self.admits_names(&new)?;
                }
                Ok(())
            }
            Payload::Attachment(attachment) => attachment.of.map_or(Ok(()), |of| there("of", of, None)),
            Payload::Finding(finding) => {
                finding.basis.iter().try_for_each(|id| there("basis", *id, None))?;
                self.knows_member(kind, "member", &finding.member)?;
                finding.places.iter().try_for_each(|place| self.has_place(kind, place))
            }
            Payload::Recommendation(recommendation) => {
                recommendation.findings.iter().try_for_each(|id| there("findings", *id, Some("finding")))
            }
            Payload::EstimateLine(line) => {
                line.recommendation.map_or(Ok(()), |id| there("recommendation", id, Some("recommendation")))
            }
            Payload::ClientLink(link) => there("report", link.report, Some("report_issued")),
            Payload::FollowUp(follow_up) => there("recommendation", follow_up.recommendation, Some("recommendation")),
            Payload::Observation(observation) => {
                if let crate::Reading::Moisture { instrument: Some(id), .. } = &observation.reading {
                    there("instrument", *id, Some("instrument"))?;
                }
                if let crate::Reading::Draw { picked: Some(picked), .. } = &observation.reading {
                    there("picked", picked.plan, Some("reckoning"))?;
                }
                self.knows_member(kind, "member", &observation.member)?;
                self.has_place(kind, &observation.place)
            }
            Payload::NotSeen(unseen) => {
                self.knows_member(kind, "member", &unseen.member)?;
                self.has_place(kind, &unseen.place)
            }
            Payload::Reckoning(reckoning) => {
                reckoning.member.as_deref().map_or(Ok(()), |member| self.knows_member(kind, "member", member))
            }
            Payload::Vessel(vessel) => vessel
                .counts
                .keys()
                .filter(|name| *name != "strakes")
                .try_for_each(|name| self.knows_member(kind, "counts", name)),
            _ => Ok(()),
        }
    }

    /// Refuses a member that neither the catalogue knows nor the surveyor has added.
    fn knows_member(&self, kind: &str, field: &'static str, member: &str) -> Result<(), AdmitFault> {
        let added = || self.members_had().any(|view| view.payload.has && view.payload.member == member);
        if catalogue_member(member).is_some() || added() {
            return Ok(());
        }
        let near = nearest_members(self, member);
        Err(AdmitFault::NoSuchMember { kind: kind.to_owned(), field, member: member.to_owned(), near })
    }

    /// Refuses strakes and frames beyond those counted, and a joint with a member that is not known.
    fn has_place(&self, kind: &str, place: &Place) -> Result<(), AdmitFault> {
        let within = |what, number: Option<u32>, count: Option<u32>| match (number, count) {
            (Some(number), Some(count)) if number > count => {
                Err(AdmitFault::BeyondCount { kind: kind.to_owned(), what, number, count })
            }
            _ => Ok(()),
        };
        within("strake", place.strake, self.strakes())?;
        within("frame", place.frame_from, self.frames())?;
        within("frame", place.frame_to, self.frames())?;
        place.joint_with.as_deref().map_or(Ok(()), |other| self.knows_member(kind, "joint_with", other))
    }
}
