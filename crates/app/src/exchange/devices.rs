//! Devices that are paired with the workbench: asked at the desk, and by a device that wants in.

use super::ExchangeFault;
use super::http::Asking;
use serde::Deserialize;

/// The devices, and how more come in.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Devices {
    /// The address of the workbench for devices.
    pub address: String,
    /// The page that hands the certificate over.
    pub hand_over: String,
    /// SHA-256 of the authority's certificate.
    pub fingerprint: String,
    /// The address of that page as a QR code: a drawing (SVG).
    pub hand_over_code: String,
    /// The devices that are paired.
    pub devices: Vec<Device>,
}

/// A device that was let in.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Device {
    /// Its identifier there.
    pub id: String,
    /// What its owner calls it.
    pub name: String,
    /// When it was paired (RFC 3339).
    pub paired: String,
    /// When it last asked for something, since the server runs.
    pub heard: Option<String>,
}

/// An invitation for one device.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Invitation {
    /// Where the device goes.
    pub address: String,
    /// The same as a QR code: a drawing (SVG).
    pub code: String,
    /// For how many seconds it holds.
    pub holds_s: u64,
}

/// Returns the devices; none when the server lets none in.
pub async fn devices() -> Result<Option<Devices>, ExchangeFault> {
    let asking = Asking::new("GET", "/api/devices");
    let response = asking.response().await?;
    match response.status() {
        404 => Ok(None),
        _ => asking.read(&response).await.map(Some),
    }
}

/// Asks for an invitation.
pub async fn invite() -> Result<Invitation, ExchangeFault> {
    Asking::new("POST", "/api/devices/invitations").json().await
}

/// Turns a device out.
pub async fn turn_out(id: &str) -> Result<(), ExchangeFault> {
    let asking = Asking::new("DELETE", &format!("/api/devices/{id}"));
    let response = asking.response().await?;
    asking.fine(&response).await
}

/// Pairs this device by an invitation; the browser keeps what lets it in, where script cannot read it.
pub async fn pair(token: &str, name: &str) -> Result<Device, ExchangeFault> {
    let wish = serde_json::json!({ "token": token, "name": name }).to_string();
    let asking = Asking::new("POST", "/api/devices").carrying(&wish.into(), "application/json");
    let response = asking.response().await?;
    if response.status() == 403 {
        return Err(ExchangeFault::Refused(asking.why(&response).await?));
    }
    asking.read(&response).await
}
