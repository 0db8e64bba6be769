//! The parts of a request that handlers ask for; what does not fit is answered as a problem.

use crate::problem::Problem;
use axum::extract::{FromRequest, FromRequestParts};

/// A body of JSON.
#[derive(FromRequest)]
#[from_request(via(axum::Json), rejection(Problem))]
pub struct JsonBody<T>(pub T);

/// A part of the address's path.
#[derive(FromRequestParts)]
#[from_request(via(axum::extract::Path), rejection(Problem))]
pub struct PathPart<T>(pub T);

/// What follows the question mark.
#[derive(FromRequestParts)]
#[from_request(via(axum::extract::Query), rejection(Problem))]
pub struct Asked<T>(pub T);
