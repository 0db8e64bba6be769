//! The devices that are paired, and invitations for one more.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::fmt::Write as _;
use std::io;
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use store::secret_file;
use survey::Digest;
use tokio_util::sync::CancellationToken;
use utoipa::ToSchema;
use uuid::Uuid;

/// How long an invitation holds.
pub const INVITED_FOR: Duration = Duration::from_secs(600);
/// Most characters of a device's name.
const NAME_LIMIT: usize = 60;
/// Invitations open at once; an older one makes room.
const INVITATIONS: usize = 8;

/// A device that was let in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Device {
    /// Its identifier here.
    pub id: Uuid,
    /// What its owner calls it.
    pub name: String,
    /// When it was paired (RFC 3339).
    #[schema(value_type = String)]
    pub paired: Timestamp,
    /// When it last asked for something, since this server runs (RFC 3339); null when it has not.
    #[serde(default, skip_deserializing)]
    #[schema(value_type = Option<String>)]
    pub heard: Option<Timestamp>,
}

/// A device with what is kept of its secret.
#[derive(Clone, Serialize, Deserialize)]
struct Kept {
    #[serde(flatten)]
    device: Device,
    secret_sha256: Digest,
}

/// Why a device was not paired.
#[derive(Debug, thiserror::Error)]
pub enum PairFault {
    /// The invitation is unknown, used up or run out; which, is not said.
    #[error(
        "This invitation opens nothing: it may be used, have run out after ten minutes, or be mistyped. Ask for another at the desk."
    )]
    NotInvited,
    /// The name is empty or too long.
    #[error("A device needs a name of 1 to {NAME_LIMIT} characters, as “my phone”.")]
    Name,
    /// The list could not be kept.
    #[error("The list of devices cannot be kept: {0}.")]
    NotKept(#[from] io::Error),
}

struct Inner {
    kept: Vec<Kept>,
    invited: Vec<(Digest, Instant)>,
    /// Ends what a device has under way when it is turned out.
    out: HashMap<Uuid, CancellationToken>,
}

/// The devices that are paired, kept in a file. Secrets and invitations are kept as their SHA-256 only: they have 256
/// random bits, so nobody finds one by trying.
pub struct Paired {
    file: PathBuf,
    inner: Mutex<Inner>,
}

impl Paired {
    /// Reads the list from a file; there is none before the first device.
    ///
    /// # Errors
    /// What the system says; [`io::ErrorKind::InvalidData`] when the file holds no list of devices.
    pub fn kept_in(file: PathBuf) -> io::Result<Self> {
        let kept: Vec<Kept> = match secret_file::read(&file) {
            Ok(text) => serde_json::from_str(&text).map_err(|why| {
                io::Error::new(
                    io::ErrorKind::InvalidData,
                    format!("{} holds no list of devices ({why})", file.display()),
                )
            })?,
            Err(why) if why.kind() == io::ErrorKind::NotFound => Vec::new(),
            Err(why) => return Err(why),
        };
        Ok(Self { file, inner: Mutex::new(Inner { kept, invited: Vec::new(), out: HashMap::new() }) })
    }

    fn inner(&self) -> MutexGuard<'_, Inner> {
        // Nothing is half done under the lock: what is changed is changed at once, after it is on the disk.
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Invites one device, for ten minutes; returns the secret to be shown to it once.
    ///
    /// # Errors
    /// No random bytes are to be had.
    pub fn invite(&self) -> io::Result<String> {
        let token = secret()?;
        let mut inner = self.inner();
        let now = Instant::now();
        inner.invited.retain(|(_, until)| *until > now);
        if inner.invited.len() >= INVITATIONS {
            inner.invited.remove(0);
        }
        inner.invited.push((Digest::of(token.as_bytes()), now + INVITED_FOR));
        Ok(token)
    }

    /// Lets a device in that shows an invitation, which is used up by it; returns the device and its secret.
    ///
    /// # Errors
    /// [`PairFault`]; the invitation still holds when the name was not accepted.
    pub fn pair(&self, token: &str, name: &str) -> Result<(Device, String), PairFault> {
        let shown = Digest::of(token.as_bytes());
        let mut inner = self.inner();
        let now = Instant::now();
        let open = inner.invited.iter().position(|(invited, until)| *invited == shown && *until > now);
        let open = open.ok_or(PairFault::NotInvited)?;
        let name = name.trim();
        if name.is_empty() || name.chars().count() > NAME_LIMIT || name.chars().any(char::is_control) {
            return Err(PairFault::Name);
        }
        let secret = secret()?;
        let device = Device { id: Uuid::now_v7(), name: name.to_owned(), paired: Timestamp::now(), heard: None };
        let mut kept = inner.kept.clone();
        kept.push(Kept { device: device.clone(), secret_sha256: Digest::of(secret.as_bytes()) });
        self.keep(&kept)?;
        inner.kept = kept;
        inner.invited.remove(open);
        Ok((device, secret))
    }

    /// Returns the device whose secret this is, and what tells that it was turned out.
    pub fn known(&self, secret: &str) -> Option<(Uuid, CancellationToken)> {
        let shown = Digest::of(secret.as_bytes());
        let mut inner = self.inner();
        let kept = inner.kept.iter_mut().find(|kept| kept.secret_sha256 == shown)?;
        kept.device.heard = Some(Timestamp::now());
        let id = kept.device.id;
        Some((id, inner.out.entry(id).or_default().clone()))
    }

    /// Returns the devices, in the order in which they were paired.
    pub fn all(&self) -> Vec<Device> {
        self.inner().kept.iter().map(|kept| kept.device.clone()).collect()
    }

    /// Turns a device out: nothing it asks for is answered from now on, and what it has under way ends. Tells whether
    /// there was one.
    ///
    /// # Errors
    /// The list could not be kept; the device is still in then.
    pub fn turn_out(&self, id: Uuid) -> io::Result<bool> {
        let mut inner = self.inner();
        let kept: Vec<Kept> = inner.kept.iter().filter(|kept| kept.device.id != id).cloned().collect();
        if kept.len() == inner.kept.len() {
            return Ok(false);
        }
        self.keep(&kept)?;
        inner.kept = kept;
        if let Some(out) = inner.out.remove(&id) {
            out.cancel();
        }
        Ok(true)
    }

    fn keep(&self, kept: &[Kept]) -> io::Result<()> {
        let json = serde_json::to_vec_pretty(kept).map_err(io::Error::other)?;
        secret_file::write(&self.file, &json)
    }
}

/// Draws a secret of 256 random bits, in hexadecimal digits.
fn secret() -> io::Result<String> {
    let mut bytes = [0_u8; 32];
    getrandom::fill(&mut bytes).map_err(|why| io::Error::other(format!("no random bytes are to be had ({why})")))?;
    Ok(bytes.iter().fold(String::with_capacity(64), |mut digits, byte| {
        let _ = write!(digits, "{byte:02x}");
        digits
    }))
}
