//! Inviting, pairing, listing and turning out devices.

use super::Devices;
use super::paired::{Device, INVITED_FOR, PairFault};
use crate::problem::Problem;
use crate::surveys::blocking;
use crate::taken_apart::{JsonBody, PathPart};
use crate::workbench::Shared;
use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use qrcode::QrCode;
use qrcode::render::svg;
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use utoipa::ToSchema;
use uuid::Uuid;

/// Name of the cookie that holds a device's secret. With this beginning a browser takes it only over HTTPS, for this
/// name alone (RFC 6265bis); script cannot read it.
pub const COOKIE: &str = "__Host-ribband-device";

/// How long a browser keeps the secret: the 400 days that browsers allow at most.
const COOKIE_SECONDS: u32 = 400 * 86_400;

/// The devices, and how more come in.
#[derive(Serialize, ToSchema)]
pub struct DevicesSaid {
    /// The address of the workbench for devices.
    address: String,
    /// The page that hands the certificate over.
    hand_over: String,
    /// SHA-256 of the authority's certificate.
    fingerprint: String,
    /// The address of that page as a QR code: a drawing (SVG).
    hand_over_code: String,
    /// The devices that are paired.
    devices: Vec<Device>,
}

/// An invitation for one device.
#[derive(Serialize, ToSchema)]
pub struct Invitation {
    /// Where the device goes; what follows the `#` is the invitation and does not leave the device with the request
    /// for the page.
    address: String,
    /// The same as a QR code: a drawing (SVG).
    code: String,
    /// For how many seconds it holds.
    holds_s: u64,
}

/// What a device shows and how it is called.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Wish {
    /// The invitation.
    token: String,
    /// What its owner calls it.
    name: String,
}

/// Lists the devices that are paired with this workbench. Answered at the desk only.
#[utoipa::path(get, path = "/api/devices", tag = "devices", operation_id = "devices",
    responses((status = OK, body = DevicesSaid, description = "The devices, and how more come in")))]
pub async fn list_devices(State(shared): State<Shared>) -> Result<Json<DevicesSaid>, Problem> {
    let devices = devices(&shared)?;
    let hand_over = devices.hand_over_address();
    Ok(Json(DevicesSaid {
        address: devices.address(),
        fingerprint: devices.fingerprint(),
        hand_over_code: code(&hand_over)?,
        hand_over,
        devices: devices.paired.all(),
    }))
}

/// Invites one device, for ten minutes. Answered at the desk only.
#[utoipa::path(post, path = "/api/devices/invitations", tag = "devices", operation_id = "invite_device",
    responses((status = OK, body = Invitation, description = "The invitation, shown once")))]
pub async fn new_invitation(State(shared): State<Shared>) -> Result<Response, Problem> {
    let devices = devices(&shared)?;
    let token = devices.paired.invite().map_err(|why| Problem::undone(format!("No invitation: {why}.")))?;
    let address = format!("{}/pair#{token}", devices.address());
    let code = code(&address)?;
    let invitation = Invitation { address, code, holds_s: INVITED_FOR.as_secs() };
    Ok(([(header::CACHE_CONTROL, "no-store")], Json(invitation)).into_response())
}

/// Pairs the device that asks: it shows its invitation and gets a cookie. The invitation is used up.
#[utoipa::path(post, path = "/api/devices", tag = "devices", operation_id = "pair_device", request_body = Wish,
    responses((status = OK, body = Device, description = "It is paired; the cookie lets it in from now on")))]
pub async fn pair_device(State(shared): State<Shared>, JsonBody(wish): JsonBody<Wish>) -> Result<Response, Problem> {
    let devices = devices(&shared)?;
    let paired = blocking(move || {
        devices.paired.pair(&wish.token, &wish.name).map_err(|why| match why {
            PairFault::NotInvited => Problem::refused(why.to_string()),
            PairFault::Name => Problem::input(why.to_string()),
            PairFault::NotKept(_) => Problem::undone(why.to_string()),
        })
    });
    let (device, secret) = paired.await?;
    let cookie = format!("{COOKIE}={secret}; Path=/; Max-Age={COOKIE_SECONDS}; Secure; HttpOnly; SameSite=Strict");
    Ok(([(header::SET_COOKIE, cookie), (header::CACHE_CONTROL, "no-store".to_owned())], Json(device)).into_response())
}

/// Turns a device out: nothing it asks for is answered from now on. What it holds stays on it. Answered at the desk
/// only.
#[utoipa::path(delete, path = "/api/devices/{device}", tag = "devices", operation_id = "turn_device_out",
    params(("device" = Uuid, Path, description = "The device")),
    responses((status = NO_CONTENT, description = "It is out")))]
pub async fn end_device(State(shared): State<Shared>, PathPart(device): PathPart<Uuid>) -> Result<StatusCode, Problem> {
    let devices = devices(&shared)?;
    let was_there = blocking(move || {
        devices.paired.turn_out(device).map_err(|why| Problem::undone(format!("The list cannot be kept: {why}.")))
    });
    match was_there.await? {
        true => Ok(StatusCode::NO_CONTENT),
        false => Err(Problem::not_found("No such device is paired.")),
    }
}

fn devices(shared: &Shared) -> Result<Arc<Devices>, Problem> {
    shared.devices.clone().ok_or_else(|| {
        Problem::not_found("This workbench answers to this machine alone; `ribband serve --pair NAME` lets devices in.")
    })
}

fn code(text: &str) -> Result<String, Problem> {
    let code = QrCode::new(text).map_err(|why| Problem::undone(format!("No code can be drawn: {why}.")))?;
    Ok(code.render().min_dimensions(240, 240).dark_color(svg::Color("#000")).light_color(svg::Color("#fff")).build())
}
