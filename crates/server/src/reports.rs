//! The report of a survey: the file, and its pages to be looked at.

#![expect(unused_qualifications, reason = "the macro that describes a route writes paths in full")]

use crate::attachments::FileBytes;
use crate::conditional;
use crate::policy;
use crate::previews::Of;
use crate::problem::Problem;
use crate::surveys::{blocking, known, named};
use crate::taken_apart::{Asked, PathPart};
use crate::workbench::{Shared, Workbench};
use crate::written::{WrittenFault, lay_out, typeset_report};
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use report::Pages;
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use survey::{Digest, SurveyId};
use utoipa::{IntoParams, ToSchema};

/// How the report is set.
#[derive(Clone, Copy, Debug, Default, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Setting {
    /// The paper.
    #[serde(default)]
    #[param(inline, required = false)]
    paper: Paper,
    /// Which units come first.
    #[serde(default)]
    #[param(inline, required = false)]
    units: Units,
}

/// The paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8 1/2 in by 11 in.
    Letter,
}

/// Which units come first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Metres and millimetres.
    #[default]
    Metric,
    /// Feet, inches and eighths.
    Imperial,
}

impl Setting {
    fn paper(self) -> report::Paper {
        match self.paper {
            Paper::A4 => report::Paper::A4,
            Paper::Letter => report::Paper::Letter,
        }
    }

    fn imperial_first(self) -> bool {
        self.units == Units::Imperial
    }
}

/// The pages of a report as it stands.
#[derive(Debug, Serialize, ToSchema)]
pub struct PageCount {
    /// How many pages there are.
    pages: usize,
    /// Digest of the field book that they are made from.
    #[schema(value_type = String)]
    digest: Digest,
}

/// Typesets the report as it stands, as a draft.
#[utoipa::path(get, path = "/api/surveys/{survey}/report.pdf", tag = "report", operation_id = "report_pdf",
    params(("survey" = String, Path, description = "The survey, a UUID"), Setting),
    responses((status = OK, content_type = "application/pdf", body = FileBytes,
        description = "A file that is both PDF/A-2a and PDF/UA-1")))]
pub async fn pdf(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
    Asked(setting): Asked<Setting>,
) -> Result<Response, Problem> {
    let survey = named(&survey)?;
    let written = blocking(move || {
        let state = known(&shared, survey)?;
        Ok(typeset_report(shared.store.as_ref(), &state, setting.paper(), setting.imperial_first())?)
    })
    .await?;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf"),
        (header::CONTENT_DISPOSITION, "inline; filename=\"report.pdf\""),
        (header::CACHE_CONTROL, "no-cache"),
        (header::CONTENT_SECURITY_POLICY, policy::PDF),
    ];
    Ok((headers, written.pdf.bytes).into_response())
}

/// Tells how many pages the report has, laid out as it will print.
#[utoipa::path(get, path = "/api/surveys/{survey}/report/pages", tag = "report", operation_id = "report_pages",
    params(("survey" = String, Path, description = "The survey, a UUID"), Setting),
    responses((status = OK, body = PageCount, description = "The number of pages")))]
pub async fn pages(
    State(shared): State<Shared>,
    PathPart(survey): PathPart<String>,
    Asked(setting): Asked<Setting>,
) -> Result<Json<PageCount>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let (digest, laid_out) = laid_out(&shared, survey, setting)?;
        Ok(Json(PageCount { pages: laid_out.count(), digest }))
    })
    .await
}

/// Draws one page as it will print. The page's number is followed by `.svg`.
#[utoipa::path(get, path = "/api/surveys/{survey}/report/pages/{page}", tag = "report", operation_id = "report_page",
    params(("survey" = String, Path, description = "The survey, a UUID"),
        ("page" = String, Path, description = "The page's number from 1, and `.svg`", example = "1.svg"), Setting),
    responses((status = OK, content_type = "image/svg+xml", body = String, description = "The page"),
        (status = NOT_MODIFIED, description = "The asker has it")))]
pub async fn page(
    State(shared): State<Shared>,
    PathPart((survey, page)): PathPart<(String, String)>,
    Asked(setting): Asked<Setting>,
    headers: HeaderMap,
) -> Result<Response, Problem> {
    let survey = named(&survey)?;
    let number = page.strip_suffix(".svg").and_then(|number| number.parse().ok());
    let number: usize =
        number.ok_or_else(|| Problem::not_found("A page is named by its number from 1 and .svg, such as 1.svg."))?;
    let svg = blocking(move || {
        let (_, laid_out) = laid_out(&shared, survey, setting)?;
        let count = laid_out.count();
        laid_out.svg(number).ok_or_else(|| Problem::not_found(format!("There is no page {number}; there are {count}.")))
    })
    .await?;
    let etag = format!("\"{}\"", Digest::of(svg.as_bytes()));
    let common = [
        (header::CACHE_CONTROL, "no-cache"),
        (header::ETAG, etag.as_str()),
        (header::CONTENT_SECURITY_POLICY, policy::LOCKED_UP),
    ];
    if conditional::is_known(&headers, &etag) {
        return Ok((StatusCode::NOT_MODIFIED, common).into_response());
    }
    Ok((common, [(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response())
}

fn laid_out(shared: &Workbench, survey: SurveyId, setting: Setting) -> Result<(Digest, Arc<Pages>), Problem> {
    let state = known(shared, survey)?;
    let (paper, imperial_first) = (setting.paper(), setting.imperial_first());
    let of = Of { survey, field_book: state.digest(), paper, imperial_first };
    let make = || lay_out(shared.store.as_ref(), &state, paper, imperial_first);
    Ok((of.field_book, shared.previews.pages(of, make)?))
}

impl From<WrittenFault> for Problem {
    fn from(fault: WrittenFault) -> Self {
        match fault {
            WrittenFault::Store(fault) => fault.into(),
            fault @ WrittenFault::Report(_) => Problem::undone(fault.to_string()),
        }
    }
}
