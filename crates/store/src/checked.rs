//! Reading bytes while making sure that they are the ones named.

use crate::StoreFault;
use sha2::{Digest as _, Sha256};
use std::io::{self, Read};
use survey::Digest;

/// Passes bytes through and fails at their end, in place of the last piece, when they are not the ones named.
pub(crate) struct Checked<R> {
    from: R,
    hasher: Sha256,
    wanted: Digest,
    left: u64,
    done: bool,
}

impl<R: Read> Checked<R> {
    pub fn new(from: R, wanted: Digest, bytes: u64) -> Self {
        Self { from, hasher: Sha256::new(), wanted, left: bytes, done: false }
    }

    fn finish(&mut self) -> io::Result<()> {
        self.done = true;
        let mut more = [0; 1];
        if read_some(&mut self.from, &mut more)? > 0 {
            return Err(io::Error::new(io::ErrorKind::InvalidData, "it is longer than was said"));
        }
        let found = Digest::from_bytes(std::mem::take(&mut self.hasher).finalize().into());
        if found == self.wanted {
            return Ok(());
        }
        Err(io::Error::new(io::ErrorKind::InvalidData, format!("its bytes have the digest {found}")))
    }
}

impl<R: Read> Read for Checked<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.done || into.is_empty() {
            return Ok(0);
        }
        if self.left == 0 {
            self.finish()?;
            return Ok(0);
        }
        let most = usize::try_from(self.left).unwrap_or(usize::MAX).min(into.len());
        let read = read_some(&mut self.from, &mut into[..most])?;
        if read == 0 {
            self.done = true;
            return Err(io::Error::new(io::ErrorKind::UnexpectedEof, "it is cut short"));
        }
        self.hasher.update(&into[..read]);
        self.left -= read as u64;
        if self.left == 0 {
            self.finish()?;
        }
        Ok(read)
    }
}

/// Copies a stream while taking its digest; tells a fault of the source from one of the target.
pub(crate) fn copy_hashing(from: &mut dyn Read, to: &mut dyn io::Write) -> Result<(Digest, u64), (io::Error, FaultOf)> {
    let mut hasher = Sha256::new();
    let mut buffer = vec![0; 1 << 16];
    let mut bytes = 0;
    loop {
        let read = read_some(from, &mut buffer).map_err(|fault| (fault, FaultOf::Source))?;
        if read == 0 {
            return Ok((Digest::from_bytes(hasher.finalize().into()), bytes));
        }
        hasher.update(&buffer[..read]);
        to.write_all(&buffer[..read]).map_err(|fault| (fault, FaultOf::Target))?;
        bytes += read as u64;
    }
}

/// Copies an attachment while taking its digest; for stores that keep it in memory, or where a browser likes.
///
/// # Errors
/// [`StoreFault::AttachmentWrong`] when its digest is not the one wanted; a fault of the source or of the target.
pub fn copy_attachment_bytes(
    from: &mut dyn Read,
    to: &mut dyn io::Write,
    wanted: Option<&Digest>,
) -> Result<(Digest, u64), StoreFault> {
    let (sha256, bytes) = copy_hashing(from, to).map_err(|(fault, of)| match of {
        FaultOf::Source => StoreFault::Source(fault),
        FaultOf::Target => StoreFault::io("memory", fault),
    })?;
    match wanted {
        Some(wanted) if *wanted != sha256 => {
            Err(StoreFault::AttachmentWrong { sha256: *wanted, why: format!("its bytes have the digest {sha256}") })
        }
        _ => Ok((sha256, bytes)),
    }
}

/// Which side of a copy failed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum FaultOf {
    Source,
    Target,
}

fn read_some(from: &mut (impl Read + ?Sized), into: &mut [u8]) -> io::Result<usize> {
    loop {
        match from.read(into) {
            Err(fault) if fault.kind() == io::ErrorKind::Interrupted => {}
            other => return other,
        }
    }
}
