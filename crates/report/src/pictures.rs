//! All photographs of a report: read, prepared on every core, kept for the next time.

use faircopy::PictureFault;
use faircopy::photograph::{Print, print};
use faircopy::prints::{Prints, Wanted};
use sha2::{Digest as _, Sha256};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

/// Raised when a print made anew may differ from one kept before.
const WAY_OF_PRINTING: u32 = 1;

/// Gives the bytes of an original by its SHA-256 in lower-case hexadecimal.
pub type ReadPicture<'a> = dyn Fn(&str) -> io::Result<Vec<u8>> + Sync + 'a;

/// Where photographs come from and where their prints are kept.
#[derive(Clone, Copy)]
pub struct Pictures<'a> {
    /// Gives the bytes of an original.
    pub read: &'a ReadPicture<'a>,
    /// Folder in which prints are kept between reports, so that a second report is quick. Prints are made anew when
    /// left out. The folder must exist.
    pub kept_in: Option<&'a Path>,
}

impl Pictures<'static> {
    /// Returns the pictures of a report that has none.
    pub fn none() -> Self {
        Self { read: &|_| Err(io::Error::new(io::ErrorKind::NotFound, "no picture is at hand")), kept_in: None }
    }
}

/// Makes or fetches every print, on as many cores as there are.
pub fn prepare(mut wanted: Vec<Wanted>, pictures: Pictures<'_>) -> Prints {
    wanted.sort();
    wanted.dedup();
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Prints::new());
    let workers = std::thread::available_parallelism().map_or(1, usize::from).min(wanted.len()).min(8);
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                while let Some(one) = wanted.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let print = one_print(one, pictures);
                    done.lock().unwrap_or_else(PoisonError::into_inner).insert(one.clone(), print);
                }
            });
        }
    });
    done.into_inner().unwrap_or_else(PoisonError::into_inner)
}

fn one_print(wanted: &Wanted, pictures: Pictures<'_>) -> Result<Print, PictureFault> {
    let kept = pictures.kept_in.filter(|_| is_digest(&wanted.sha256)).map(|folder| kept_path(folder, wanted));
    if let Some(print) = kept.as_deref().and_then(fetch) {
        return Ok(print);
    }
    let bytes = (pictures.read)(&wanted.sha256).map_err(|fault| PictureFault::Missing(fault.to_string()))?;
    let found: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
    if found != wanted.sha256 {
        return Err(PictureFault::NotTheSame { found });
    }
    let print = print(&bytes, wanted.box_px)?;
    if let Some(path) = kept {
        // Keeping is only for speed: a full disk must not cost anyone the report.
        let _not_kept = keep(&path, &print.jpeg);
    }
    Ok(print)
}

/// Only a digest may become part of a path.
fn is_digest(text: &str) -> bool {
    text.len() == 64 && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b))
}

fn kept_path(folder: &Path, wanted: &Wanted) -> PathBuf {
    let (w, h) = wanted.box_px;
    folder.join(format!("{}-{w}x{h}-{WAY_OF_PRINTING}.jpg", wanted.sha256))
}

fn fetch(path: &Path) -> Option<Print> {
    let jpeg = std::fs::read(path).ok()?;
    // A print cut short by a crash of the machine is made anew.
    if !jpeg.ends_with(&[0xff, 0xd9]) {
        return None;
    }
    let (width_px, height_px) =
        image::ImageReader::with_format(io::Cursor::new(&jpeg), image::ImageFormat::Jpeg).into_dimensions().ok()?;
    Some(Print { jpeg, width_px, height_px })
}

fn keep(path: &Path, jpeg: &[u8]) -> io::Result<()> {
    static NUMBER: AtomicUsize = AtomicUsize::new(0);
    let beside = path.with_extension(format!("{}-{}.part", std::process::id(), NUMBER.fetch_add(1, Ordering::Relaxed)));
    std::fs::write(&beside, jpeg)?;
    std::fs::rename(&beside, path).inspect_err(|_| {
        let _gone = std::fs::remove_file(&beside);
    })
}
