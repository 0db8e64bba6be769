//! From the bytes of a recording to its blows.

use sounding::Blow;
#[cfg(not(target_arch = "wasm32"))]
use sounding::{Listener, session};

/// What was heard in a recording.
pub(super) struct Session {
    /// The blows, in order.
    pub blows: Vec<Blow>,
    /// Length, in seconds.
    pub seconds: f64,
    /// Cautions of reading and of hearing.
    pub cautions: Vec<String>,
}

/// Reads and listens; says in words why it could not.
#[cfg(not(target_arch = "wasm32"))]
pub(super) fn listen(bytes: &[u8], channel: Option<u64>) -> Result<Session, String> {
    let channel = channel.map_or(recording::Channel::Mix, |n| recording::Channel::Only(n as usize));
    let mut listener = Listener::new();
    let mut blows = Vec::new();
    let told = recording::read_bytes(bytes.to_vec(), channel, &mut |samples| blows.extend(listener.push(samples)))
        .map_err(|e| e.to_string())?;
    blows.extend(listener.finish());
    let mut cautions = told.cautions;
    cautions.extend(session::cautions(&listener.heard(), &blows));
    Ok(Session { blows, seconds: told.seconds, cautions })
}

/// In the browser no decoders are carried along: the first page would double in size.
#[cfg(target_arch = "wasm32")]
pub(super) fn listen(_bytes: &[u8], _channel: Option<u64>) -> Result<Session, String> {
    Err("The workbench in the browser listens to the microphone and reads no recordings; the program on a computer does.".to_owned())
}

/// Returns the bytes of a recording; one that came as base64 is unpacked.
pub(super) fn unpacked(bytes: &[u8]) -> Vec<u8> {
    use base64::Engine as _;
    let text: Vec<u8> = bytes.iter().copied().filter(|b| !b.is_ascii_whitespace()).collect();
    if text.len() > 64 && text.iter().all(|b| b.is_ascii_alphanumeric() || b"+/=".contains(b)) {
        base64::engine::general_purpose::STANDARD.decode(&text).unwrap_or_else(|_| bytes.to_vec())
    } else {
        bytes.to_vec()
    }
}
