//! Files beside the record that their owner alone may read: keys, and secrets of devices.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

/// Writes a file whole or not at all, readable by its owner alone. Where a system keeps rights in another way, the
/// folder's own rights hold.
///
/// # Errors
/// What the system says.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let beside = path.with_extension("new");
    let _ = fs::remove_file(&beside);
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    let mut file = options.open(&beside)?;
    file.write_all(bytes)?;
    file.sync_all()?;
    fs::rename(&beside, path)?;
    // The renaming itself is on the disk once the folder is.
    match path.parent() {
        Some(folder) if cfg!(unix) => fs::File::open(folder)?.sync_all(),
        _ => Ok(()),
    }
}

/// Reads a file that others may not read: whoever has read a key can sign with it.
///
/// # Errors
/// What the system says; [`io::ErrorKind::PermissionDenied`] when others may read the file.
pub fn read(path: &Path) -> io::Result<String> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        if fs::metadata(path)?.permissions().mode() & 0o077 != 0 {
            let why = format!(
                "others on this machine may read {}; make it yours alone (chmod 600) and consider whether it is still secret",
                path.display()
            );
            return Err(io::Error::new(io::ErrorKind::PermissionDenied, why));
        }
    }
    fs::read_to_string(path)
}
