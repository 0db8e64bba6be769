//! The surveyor's signing key, kept in the folder of the surveys.

use crate::fault::Fault;
use seal::SecretKey;
use std::fs;
use std::io::{ErrorKind, Write as _};
use std::path::Path;

/// Name of the key's file.
const FILE: &str = "surveyor.key";

/// Returns the surveyor's key, drawing one the first time. Its file can be read by its owner alone.
///
/// # Errors
/// A file that others may read, that holds no key, or that cannot be written.
pub fn surveyors_key(folder: &Path) -> Result<SecretKey, Fault> {
    let path = folder.join(FILE);
    let fault = |why: String| Fault::undone(format!("{}: {why}", path.display()));
    match fs::read_to_string(&path) {
        Ok(text) => {
            only_the_owners(&path)?;
            SecretKey::read(&text).map_err(|why| fault(why.to_string()))
        }
        Err(why) if why.kind() == ErrorKind::NotFound => {
            let mut secret = [0; 32];
            getrandom::fill(&mut secret).map_err(|why| fault(format!("no random bytes are to be had ({why})")))?;
            let key = SecretKey::from_bytes(&secret);
            let mut options = fs::OpenOptions::new();
            options.write(true).create_new(true);
            #[cfg(unix)]
            {
                use std::os::unix::fs::OpenOptionsExt as _;
                options.mode(0o600);
            }
            let mut file = options.open(&path).map_err(|why| fault(format!("it cannot be made ({why})")))?;
            let written = file.write_all(key.text().as_bytes()).and_then(|()| file.sync_all());
            written.map_err(|why| fault(format!("it cannot be written ({why})")))?;
            Ok(key)
        }
        Err(why) => Err(fault(format!("it cannot be read ({why})"))),
    }
}

/// Refuses a key that others may read: whoever has read it can sign as the surveyor.
#[cfg(unix)]
fn only_the_owners(path: &Path) -> Result<(), Fault> {
    use std::os::unix::fs::PermissionsExt as _;
    let mode = fs::metadata(path).map_err(Fault::undone)?.permissions().mode();
    if mode & 0o077 != 0 {
        return Err(Fault::undone(format!(
            "{}: others on this machine may read the key; make it yours alone (chmod 600) and consider whether it is still secret",
            path.display()
        )));
    }
    Ok(())
}

/// Where a system keeps rights in another way, the folder's own rights hold.
#[cfg(not(unix))]
fn only_the_owners(_path: &Path) -> Result<(), Fault> {
    Ok(())
}
