//! The surveyor's signing key, kept in the folder of the surveys.

use crate::fault::Fault;
use seal::SecretKey;
use std::io::ErrorKind;
use std::path::Path;
use store::secret_file;

/// Name of the key's file.
const FILE: &str = "surveyor.key";

/// Returns the surveyor's key, drawing one the first time. Its file can be read by its owner alone.
///
/// # Errors
/// A file that others may read, that holds no key, or that cannot be written.
pub fn surveyors_key(folder: &Path) -> Result<SecretKey, Fault> {
    let path = folder.join(FILE);
    let fault = |why: String| Fault::undone(format!("{}: {why}", path.display()));
    match secret_file::read(&path) {
        Ok(text) => SecretKey::read(&text).map_err(|why| fault(why.to_string())),
        Err(why) if why.kind() == ErrorKind::NotFound => {
            let mut secret = [0; 32];
            getrandom::fill(&mut secret).map_err(|why| fault(format!("no random bytes are to be had ({why})")))?;
            let key = SecretKey::from_bytes(&secret);
            secret_file::write(&path, key.text().as_bytes())
                .map_err(|why| fault(format!("it cannot be kept ({why})")))?;
            Ok(key)
        }
        Err(why) => Err(fault(format!("it cannot be read ({why})"))),
    }
}
